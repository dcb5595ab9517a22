"""Equivalent time of a joint since its first gram: a run's log where one ran, flange readings beside.

The coldest bond sensor at each moment counts. Minutes of the run that not every bond sensor measured count
nothing; minutes before and after it count at the coldest flange temperature that was read. Without a run the
flange's readings are a log of their own: between two of them the colder one counts, before the first it was
as the first says, after the last it stays so. Time under the sheet's minimum counts nothing and is told.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from bayleaf.bonding.coldest_sensor import coldest_stretches
from bayleaf.bonding.cure_log import CountRule, Stretch, count_stretches, kept_stretches
from bayleaf.bonding.rate_laws import RateLaw
from bayleaf.bonding.refusal import Refused
from bayleaf.step_computations.figures import MS_PER_MIN
from bayleaf.step_computations.inputs import Run, SensorLog
from bayleaf.step_computations.shapes import Unanswerable

_S_PER_MIN = 60
Reading = tuple[float, float]
_FEWEST = 2


@dataclass(frozen=True, slots=True)
class Logged:
    """What a run's log gives: its equivalent minutes, those under the minimum, its span, and how much of that
    nobody measured.
    """

    equivalent_min: float
    cold_min: float
    span_min: float
    unmeasured_min: float


@dataclass(frozen=True, slots=True)
class Cured:
    """Equivalent minutes at the sheet's temperature, and those under its minimum; `run` is None where no run
    was read.
    """

    equivalent_min: float
    cold_min: float
    run: Logged | None


def cured(
    elapsed_min: float,
    flange: Sequence[Reading],
    law: RateLaw,
    runs: tuple[Run, ...],
    minimum_C: float | None = None,
) -> Cured:
    """Runs one after another; their spans are taken off the time at the coldest reading of the flange.

    `flange` is (minutes since the first gram, C) in order, one reading at least.
    """
    logged = [found for run in runs if (found := _logged(run, law, minimum_C)) is not None]
    if not logged:
        stays = [(end - start, at_C) for start, end, at_C in _stays(elapsed_min, flange)]
        return Cured(*_counted(stays, law, minimum_C), None)
    coldest_C = min(at_C for _, at_C in flange)
    total = Logged(
        sum(one.equivalent_min for one in logged),
        sum(one.cold_min for one in logged),
        sum(one.span_min for one in logged),
        sum(one.unmeasured_min for one in logged),
    )
    beside = max(0.0, elapsed_min - total.span_min)
    equivalent, cold = _counted([(beside, coldest_C)], law, minimum_C)
    return Cured(total.equivalent_min + equivalent, total.cold_min + cold, total)


def _counted(
    stays: Sequence[tuple[float, float]], law: RateLaw, minimum_C: float | None
) -> tuple[float, float]:
    """Equivalent minutes of (minutes, C), and the minutes that count nothing."""
    cold = [minutes for minutes, at_C in stays if minimum_C is not None and at_C < minimum_C]
    warm = [(minutes, at_C) for minutes, at_C in stays if minimum_C is None or at_C >= minimum_C]
    return sum(minutes * law.rate(at_C) for minutes, at_C in warm), sum(cold)


def _stays(elapsed_min: float, flange: Sequence[Reading]) -> Iterator[tuple[float, float, float]]:
    """(from, until, C) without a gap from the first gram until now."""
    known = [
        (0.0, flange[0][1]),
        *((max(0.0, at), at_C) for at, at_C in flange),
        (elapsed_min, flange[-1][1]),
    ]
    for (start, a), (end, b) in pairwise(known):
        if min(end, elapsed_min) > start:
            yield start, min(end, elapsed_min), min(a, b)


def _logged(run: Run, law: RateLaw, minimum_C: float | None) -> Logged | None:
    logs = [one for one in run.sensors if one.of == "bond"]
    if not logs or any(len(one.points) < _FEWEST for one in logs):
        return None
    rule = CountRule(longest_interval_min=run.gap_max_s / _S_PER_MIN)
    envelope = coldest_stretches([_stretches(one, run, rule) for one in logs])
    first = max(one.points[0][0] for one in logs) / MS_PER_MIN
    last = min(one.points[-1][0] for one in logs) / MS_PER_MIN
    span = max(0.0, last - first)
    measured = sum(one.minutes for one in envelope)
    equivalent, _, cold = count_stretches(envelope, law, minimum_C)
    return Logged(equivalent, cold, span, max(0.0, span - measured))


def _stretches(log: SensorLog, run: Run, rule: CountRule) -> list[Stretch]:
    samples = [(ms / MS_PER_MIN, value / 10**run.decimals) for ms, value in log.points]
    try:
        return kept_stretches(samples, rule)
    except Refused as refused:
        raise Unanswerable("run", "minutes_back") from refused
