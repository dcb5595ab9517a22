"""What a heat run wants next and when, by its plan or the method's own times; in pure, from card state and
entries.

The phone counts the same in `core/views/run_next.ts` and rings by it; this is for the call that reaches a
phone whose app is closed, so it holds only what has a time.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal

from bayleaf.domain.asks import HeatSettings
from bayleaf.domain.part import Zone
from bayleaf.domain.state import RunState
from bayleaf.usecases.run_planned import PlannedRun, next_step_ms

MS_PER_S: Final = 1000
MS_PER_MIN: Final = 60_000

Wanted = Literal["read", "soaked", "turn_down"]
Body = Mapping[str, Any]


@dataclass(frozen=True)
class Due:
    """`due_ms` on the run clock; `since_ms` is what it is counted from."""

    act: Wanted
    since_ms: int
    due_ms: int


@dataclass(frozen=True)
class RunFacts:
    """A run, what it is judged by, the bodies of its acts and readings, and the plan that it was begun by."""

    run: RunState
    settings: HeatSettings
    zone: Zone
    acts: Sequence[Body]
    readings: Sequence[Body]
    planned: PlannedRun | None = None


@dataclass(frozen=True)
class Moment:
    """When every sensor on the bond was read, and the coldest of them."""

    run_ms: int
    lagging: int


def dues_of(facts: RunFacts) -> list[Due]:
    """Everything with a time that the run waits for now; nothing of a run that is over or aborted."""
    run = facts.run
    if run["aborted"] or "cold" in run["moments"]:
        return []
    if run["off"]:
        return list(_cooling(facts))
    if run["lifted"] or run["turned_down"]:
        return list(_release(facts))
    if {"soaked", "workable"} & set(run["moments"]):
        return []  # those who wedge say when it is parted
    moments = moments_of(facts)
    if any(one.lagging >= facts.settings.lagging_min for one in moments):
        return list(_soak(facts, moments[-1]))
    return [_ramp(facts, moments)]


def moments_of(facts: RunFacts) -> list[Moment]:
    """In order of the run clock; a sensor read twice at one time counts by its lower value."""
    lowest: defaultdict[int, dict[str, int]] = defaultdict(dict)
    for body in facts.readings:
        for run_ms, value in body["points"]:
            at = lowest[run_ms]
            at[body["sensor"]] = min(value, at.get(body["sensor"], value))
    bond = [sensor.id for sensor in facts.zone.sensors if sensor.of == "bond"]
    return [
        Moment(run_ms, min(at[sensor] for sensor in bond))
        for run_ms, at in sorted(lowest.items())
        if bond and all(sensor in at for sensor in bond)
    ]


def _ramp(facts: RunFacts, moments: Sequence[Moment]) -> Due:
    """When the plan says that the soak begins, else the method; after that, as often as it wants readings.

    A plan that says never promises no soak.
    """
    last_ms = moments[-1].run_ms if moments else 0
    if facts.planned is not None:
        soak_ms = facts.planned.soak_ms
        if soak_ms is None:
            return Due("read", last_ms, last_ms + _gap_ms(facts))
        if soak_ms > last_ms:
            return Due("read", 0, soak_ms)
    again_ms = last_ms + _gap_ms(facts) if moments else 0
    ramp_ms = facts.settings.ramp_s * MS_PER_S
    return Due("read", 0 if ramp_ms >= again_ms else last_ms, max(ramp_ms, again_ms))


def _soak(facts: RunFacts, last: Moment) -> Iterator[Due]:
    want_ms, have_ms = facts.settings.soak_s * MS_PER_S, facts.run["soak_ms"]
    if have_ms >= want_ms:
        yield Due("soaked", facts.run["soak_counts_to_ms"] - want_ms, facts.run["soak_counts_to_ms"])
        return
    again = Due("read", last.run_ms, last.run_ms + _gap_ms(facts))
    if last.lagging < facts.settings.lagging_min:
        yield again
        return
    end_ms = last.run_ms + want_ms - have_ms
    if again.due_ms < end_ms:
        yield again  # the end is told by readings: without them the soak stops counting
    yield Due("soaked", end_ms - want_ms, end_ms)


def _release(facts: RunFacts) -> Iterator[Due]:
    """The plan's next step, else the next pad's stage; lifting waits for a reading below its limit."""
    turns = [body["run_ms"] for body in facts.acts if body["act"] in ("turn_down", "lift")]
    planned_ms = _planned_ms(facts)
    if planned_ms is not None and turns:
        yield Due("turn_down", max(turns), max(planned_ms, *turns))
        return
    done = {*facts.run["lifted"], *facts.run["turned_down"]}
    down = [pad for pad in facts.settings.release if pad not in done]
    if facts.settings.lift_below is None:
        return
    if not down:
        yield from _read_again(facts)
        return
    stage_ms = _stage_ms(facts.settings)
    if stage_ms is not None and turns:
        yield Due("turn_down", max(turns), max(turns) + stage_ms)


def _planned_ms(facts: RunFacts) -> int | None:
    """None without a plan, after its last step, and once everything is cool enough to be lifted."""
    limit = facts.settings.lift_below
    if facts.planned is None or (limit is not None and _is_below(facts, limit)):
        return None
    return next_step_ms(facts.planned, facts.acts, facts.run["lifted"])


def _stage_ms(settings: HeatSettings) -> int | None:
    """As long as the method's own window takes to cool through at its cooling limit."""
    if settings.cooling_max is None or settings.cooling_max <= 0:
        return None
    window = settings.leading_max - settings.lagging_min
    return (2 * window * MS_PER_MIN + settings.cooling_max) // (2 * settings.cooling_max)


def _cooling(facts: RunFacts) -> Iterator[Due]:
    if facts.settings.lift_below is not None:
        yield from _read_again(facts)


def _read_again(facts: RunFacts) -> Iterator[Due]:
    limit = facts.settings.cold_below if facts.run["off"] else facts.settings.lift_below
    if limit is not None and _is_below(facts, limit):
        return  # the next act needs no time: hands may come near
    points = [run_ms for body in facts.readings for run_ms, _ in body["points"]]
    last_ms = max([0, *points, *(body["run_ms"] for body in facts.acts)])
    yield Due("read", last_ms, last_ms + _gap_ms(facts))


def _is_below(facts: RunFacts, limit: int) -> bool:
    """By the metal, whose sensor says when hands may come near; by the bond where none is on metal."""
    newest: dict[str, tuple[int, int]] = {}
    for body in facts.readings:
        for run_ms, value in body["points"]:
            newest[body["sensor"]] = max(newest.get(body["sensor"], (-1, 0)), (run_ms, value))
    metal = [sensor.id for sensor in facts.zone.sensors if sensor.of == "metal"]
    asked = metal or [sensor.id for sensor in facts.zone.sensors if sensor.of == "bond"]
    return bool(asked) and all(one in newest and newest[one][1] < limit for one in asked)


def _gap_ms(facts: RunFacts) -> int:
    return facts.settings.gap_max_s * MS_PER_S
