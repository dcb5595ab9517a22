"""Which of several sensors governs a cure: the one with least equivalent time, or the coldest at each
moment.

A place in the bond is at one sensor's temperature all the time, so the sensor with the least equivalent
time is the physical answer. The coldest at each moment is a safe bound under it, and that is what counts
here (choice: common practice, no source). A moment that not every sensor measured counts nothing.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from bayleaf.bonding.cure_log import (
    Counted,
    CountRule,
    Sample,
    Stretch,
    count_log,
    count_stretches,
    kept_stretches,
)
from bayleaf.bonding.rate_laws import RateLaw


@dataclass(frozen=True, slots=True)
class SensorsCounted:
    """Each sensor by itself, the one with the least, and the bound by the coldest at each moment; minutes.

    `gaps_min`: from the first to the last minute of any sensor, what not every sensor measured.
    """

    by_sensor: dict[str, Counted]
    least_sensor: str
    coldest_min: float
    coldest_lower_bound_min: float
    below_minimum_min: float
    gaps_min: tuple[tuple[float, float], ...]

    @property
    def least_min(self) -> float:
        return self.by_sensor[self.least_sensor].equivalent_min


def count_sensors(logs: Mapping[str, Sequence[Sample]], law: RateLaw, rule: CountRule) -> SensorsCounted:
    """Counts every sensor's log and the coldest envelope of them all."""
    by_sensor = {name: count_log(samples, law, rule) for name, samples in logs.items()}
    least = min(by_sensor, key=lambda name: by_sensor[name].equivalent_min)
    envelope = coldest_stretches([kept_stretches(samples, rule) for samples in logs.values()])
    counted = count_stretches(envelope, law, rule.minimum_C)
    return SensorsCounted(by_sensor, least, *counted, _unmeasured(logs, envelope))


def _unmeasured(
    logs: Mapping[str, Sequence[Sample]], envelope: Sequence[Stretch]
) -> tuple[tuple[float, float], ...]:
    first = min(samples[0][0] for samples in logs.values())
    last = max(samples[-1][0] for samples in logs.values())
    ends = [first, *(one.end_min for one in envelope)]
    starts = [*(one.start_min for one in envelope), last]
    return tuple((end, start) for end, start in zip(ends, starts, strict=True) if start > end)


def coldest_stretches(logs: Sequence[Sequence[Stretch]]) -> list[Stretch]:
    """The lower envelope of several logs, straight piece by straight piece, where all of them measured."""
    edges = sorted({edge for log in logs for one in log for edge in (one.start_min, one.end_min)})
    starts = [[one.start_min for one in log] for log in logs]
    found: list[Stretch] = []
    for start, end in pairwise(edges):
        lines = [_covering(log, begun, start, end) for log, begun in zip(logs, starts, strict=True)]
        together = [line for line in lines if line is not None]
        if len(together) == len(logs):
            found += _lowest(together, start, end)
    return found


def _covering(log: Sequence[Stretch], begun: Sequence[float], start: float, end: float) -> Stretch | None:
    place = bisect_right(begun, start) - 1
    if place < 0 or log[place].end_min < end:
        return None
    return log[place].between(start, end)


def _lowest(lines: Sequence[Stretch], start: float, end: float) -> list[Stretch]:
    crossings = {minute for a, b in combinations(lines, 2) for minute in _crossing(a, b)}
    cuts = [start, *sorted(crossings), end]
    return [
        min(lines, key=lambda line: line.at_C((lo + hi) / 2)).between(lo, hi) for lo, hi in pairwise(cuts)
    ]


def _crossing(a: Stretch, b: Stretch) -> list[float]:
    at_start, at_end = a.start_C - b.start_C, a.end_C - b.end_C
    if at_start * at_end >= 0:
        return []
    return [a.start_min + a.minutes * at_start / (at_start - at_end)]
