"""The verdict on a finished heat run, line by line, each with its figure and its limit.

By purpose. In a removal the soak only proves that the coldest place is soft, so a short soak is a
deviation; too hot or too long is the damage, and not conforming. In a cure the soak is quality: too short
is not conforming.
The soak counts between two moments at which every bond sensor was read, no farther apart than the gap
limit, with the lagging one at or above the minimum at both; it pauses below and goes on after. What it lost
so between its first and its last counted moment is a gap of the soak: a deviation, no failure. Gaps of a
sensor count until the release begins: what cools is read for its rate and its end. Where no turn-down, lift
or switch-off was recorded, the steepest fall of the whole run is told and not judged: nobody can say what of
it was the cooling, and a limit that was not judged was not kept to.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal

import numpy as np

from bayleaf.heat.ageing import above_s
from bayleaf.heat.readings_document import FinishedRun

Standing = Literal["conforming", "deviation", "not_conforming", "not_judged", "not_recorded"]
Overall = Literal["conforming", "conforming_with_deviations", "not_conforming"]
Rows = tuple[tuple[float, float], ...]
Read = Mapping[str, Rows]
RATE_OVER_S = 60.0
DEVIATES: Final = frozenset[Standing](("deviation", "not_recorded"))
"""How a line stands that keeps a run from conforming as it is, and is no failure."""


@dataclass(frozen=True)
class Line:
    """One line of the verdict: what, the figure found, the limit it stands against, and how it stands."""

    what: str
    figure: float
    limit: float | None
    unit: str
    standing: Standing
    sentence: str


@dataclass(frozen=True)
class Verdict:
    overall: Overall
    lines: tuple[Line, ...]


def verdict_of(run: FinishedRun) -> Verdict:
    """Every line, and what they add up to."""
    makers = (
        _ramp, _soak, _soak_gap, _peak, _bond_minutes, _metal_peak, _metal_minutes, _composite_peak,
        _composite_minutes, _neighbour_peak, _release, _cooling, _cold, _gaps,
    )  # fmt: skip
    lines = tuple(line for make in makers for line in make(run))
    standings = {line.standing for line in lines}
    if "not_conforming" in standings:
        return Verdict("not_conforming", lines)
    return Verdict("conforming_with_deviations" if standings & DEVIATES else "conforming", lines)


def _line(
    what: str, figure: float, limit: float | None, unit: str, *, keeps: bool, otherwise: Standing
) -> Line:
    standing: Standing = "not_judged" if limit is None else "conforming" if keeps else otherwise
    against = "no limit given" if limit is None else f"limit {limit:g} {unit}"
    return Line(what, figure, limit, unit, standing, f"{what}: {figure:.1f} {unit}, {against}")


def moments(run: FinishedRun) -> list[tuple[float, float]]:
    """(time, lagging) at every moment at which each bond sensor was read; of two values the lower counts."""
    lowest: defaultdict[float, dict[str, float]] = defaultdict(dict)
    for sensor, rows in run.bond.items():
        for at_s, T_C in rows:
            lowest[at_s][sensor] = min(T_C, lowest[at_s].get(sensor, T_C))
    return sorted(
        (at_s, min(values.values())) for at_s, values in lowest.items() if len(values) == len(run.bond)
    )


def soaked_s(run: FinishedRun) -> float:
    """Soak time: pairs of moments no farther apart than the gap limit, lagging at or above the minimum at
    both.
    """
    return sum(second - first for first, second in _counted(run))


def _counted(run: FinishedRun) -> list[tuple[float, float]]:
    """The stretches of time that the soak counts."""
    minimum, gap_s = run.limits.lagging_min_C, run.limits.gap_max_s
    return [
        (first[0], second[0])
        for first, second in pairwise(moments(run))
        if second[0] - first[0] <= gap_s and min(first[1], second[1]) >= minimum
    ]


def _soak_gap(run: FinishedRun) -> Iterator[Line]:
    counted = _counted(run)
    lost_s = counted[-1][1] - counted[0][0] - soaked_s(run) if counted else 0.0
    yield _line("gap in the soak", lost_s / 60, 0, "min", keeps=lost_s <= 0, otherwise="deviation")


def _soak(run: FinishedRun) -> Iterator[Line]:
    minutes, wanted = soaked_s(run) / 60, run.limits.soak_s / 60
    otherwise: Standing = "not_conforming" if run.purpose == "cure" else "deviation"
    yield _line("soak", minutes, wanted, "min", keeps=minutes >= wanted, otherwise=otherwise)


def _peak(run: FinishedRun) -> Iterator[Line]:
    yield from _peak_of("bondline", run.bond, run.limits.leading_max_C)


def _metal_peak(run: FinishedRun) -> Iterator[Line]:
    yield from _peak_of("metal", run.metal, run.limits.metal_max_C)


def _composite_peak(run: FinishedRun) -> Iterator[Line]:
    yield from _peak_of("composite", run.composite, run.limits.composite_max_C)


def _neighbour_peak(run: FinishedRun) -> Iterator[Line]:
    yield from _peak_of("neighbour", run.neighbour, run.limits.neighbour_max_C)


def _peak_of(what: str, read: Read, limit: float | None) -> Iterator[Line]:
    if read:
        peak = max(T_C for rows in read.values() for _, T_C in rows)
        keeps = limit is None or peak <= limit
        yield _line(f"{what} peak", peak, limit, "C", keeps=keeps, otherwise="not_conforming")


def _metal_minutes(run: FinishedRun) -> Iterator[Line]:
    limits, earlier_min = run.limits, run.earlier_above_min
    yield from _minutes("metal", run.metal, limits.metal_above_C, limits.metal_above_max_min, earlier_min)


def _bond_minutes(run: FinishedRun) -> Iterator[Line]:
    """Where a limit is given only: what of the bondline stays on is not heated twice."""
    limits = run.limits
    yield from _minutes("bondline", run.bond, limits.bond_above_C, limits.bond_above_max_min)


def _composite_minutes(run: FinishedRun) -> Iterator[Line]:
    limits, earlier_min = run.limits, run.earlier_composite_above_min
    above_C, most_min = limits.composite_above_C, limits.composite_above_max_min
    yield from _minutes("composite", run.composite, above_C, most_min, earlier_min)


def _minutes(
    what: str, read: Read, above_C: float | None, most_min: float | None, earlier_min: float = 0.0
) -> Iterator[Line]:
    """Minutes above a temperature at the sensor that has most of them, with those of earlier runs."""
    if read and above_C is not None:
        found = earlier_min + max(_minutes_above(rows, above_C) for rows in read.values())
        keeps = most_min is None or found <= most_min
        said = f"{what} above {above_C:g} C"
        yield _line(said, found, most_min, "min", keeps=keeps, otherwise="not_conforming")


def _minutes_above(rows: Rows, limit_C: float) -> float:
    times, T_C = np.array(rows).T
    return float(above_s(times, T_C, limit_C)) / 60


def _first_release_s(run: FinishedRun) -> float:
    return min(
        (act.at_s for act in run.acts if act.act in ("turn_down", "lift", "off")), default=float("inf")
    )


def _is_released(run: FinishedRun) -> bool:
    return _first_release_s(run) < float("inf")


def _steepest(run: FinishedRun, *, falling: bool) -> float:
    """K/min over at least a minute, of bond sensors; falls count from the first release on, rises before.

    Without a release both count over the whole run.
    """
    turn_s = _first_release_s(run)
    if falling and not _is_released(run):
        turn_s = 0.0
    sign, worst = (-1.0 if falling else 1.0), 0.0
    for rows in run.bond.values():
        kept = [row for row in rows if (row[0] >= turn_s if falling else row[0] <= turn_s)]
        worst = max([worst, *(sign * rate for rate in _rates(kept))])
    return worst


def _rates(rows: list[tuple[float, float]]) -> Iterator[float]:
    start = 0
    for at_s, T_C in rows:
        while start + 1 < len(rows) and at_s - rows[start + 1][0] >= RATE_OVER_S:
            start += 1
        if at_s - rows[start][0] >= RATE_OVER_S:
            yield (T_C - rows[start][1]) / (at_s - rows[start][0]) * 60


def _ramp(run: FinishedRun) -> Iterator[Line]:
    rate, limit = _steepest(run, falling=False), run.limits.ramp_K_min
    yield _line("ramp", rate, limit, "K/min", keeps=limit is None or rate <= limit, otherwise="deviation")


def _cooling(run: FinishedRun) -> Iterator[Line]:
    rate, limit, released = _steepest(run, falling=True), run.limits.cooling_K_min, _is_released(run)
    keeps = released and (limit is None or rate <= limit)
    yield _line(
        "cooling", rate, limit, "K/min", keeps=keeps, otherwise="deviation" if released else "not_recorded"
    )


def _release(run: FinishedRun) -> Iterator[Line]:
    """Pads turned down or off in the planned order: how many came before one that should have gone first."""
    acts = ("turn_down", "lift", "off")
    done = [act.pad for act in run.acts if act.act in acts and act.pad in run.release_order]
    if not run.release_order:
        return
    first_off = list(dict.fromkeys(done))
    ranks = [run.release_order.index(pad) for pad in first_off]
    early = sum(rank > min(ranks[place + 1 :], default=rank) for place, rank in enumerate(ranks))
    missing = len(run.release_order) - len(first_off)
    yield _line(
        "pads released out of order or not at all",
        early + missing,
        0,
        "pads",
        keeps=early + missing == 0,
        otherwise="deviation",
    )


def _cold(run: FinishedRun) -> Iterator[Line]:
    limit = run.limits.cold_below_C
    if limit is not None:
        last = max(rows[-1][1] for rows in (*run.bond.values(), *run.metal.values()) if rows)
        yield _line(
            "last reading of the hottest sensor", last, limit, "C", keeps=last <= limit, otherwise="deviation"
        )


def _gaps(run: FinishedRun) -> Iterator[Line]:
    turn_s = _first_release_s(run)
    gaps = [b[0] - a[0] for rows in run.bond.values() for a, b in pairwise(rows) if b[0] <= turn_s]
    longest, limit = max(gaps, default=0.0), run.limits.gap_max_s
    yield _line("longest gap of a sensor", longest, limit, "s", keeps=longest <= limit, otherwise="deviation")
