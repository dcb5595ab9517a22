"""A whole run in time: adaptive steps from act to act, with every state kept and the heat accounted for."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.assembly import system_of
from bayleaf.heat.factors import Factor, FactorStore
from bayleaf.heat.layout import Layout
from bayleaf.heat.step_length import SHORTEST_S, USUAL, Accuracy, fitting_s, growth
from bayleaf.heat.stepping import GAMMA, Moment, Past, Settling, Step, StepTooLong, moment_of, step
from bayleaf.heat.system import System
from bayleaf.heat.zone import NOMINAL, Conditions, PadAct, Zone

Floats = NDArray[np.float64]
FIRST_S = 2.0
AFTER_ACT_S = 16.0
FROZEN_RISE_K = 50.0  # where the losses' slopes are taken at first
REFREEZE_K = 50.0
SETTLED_SHARE = 0.05
ROWS = ("system_at", "times_s", "node_C", "power_W_m2", "lost_J", "stored_J")


@dataclass(frozen=True, eq=False)  # one run is itself only, so that its curves can be kept
class Run:
    """What a run gives. Row k of every array belongs to times_s[k]; powers are means over the step before
    it.
    """

    layout: Layout
    systems: tuple[System, ...]
    system_at: NDArray[np.int64]  # which system held over the step before each time
    times_s: Floats
    node_C: Floats  # shape (times, nodes)
    power_W_m2: Floats  # shape (times, pads)
    lost_J: Floats
    stored_J: Floats
    rejected: int
    factors: int

    @property
    def bends_s(self) -> Floats:
        """Times of acts, where curves bend."""
        return np.asarray(self.times_s[np.flatnonzero(np.diff(self.system_at)[1:]) + 1])

    @property
    def supplied_J(self) -> Floats:
        """Heat from the pads over the step before each time, J."""
        area_m2 = np.asarray(self.systems[0].heating.sum(axis=0)).ravel()
        return np.asarray(self.power_W_m2 @ area_m2 * np.diff(self.times_s, prepend=0.0))

    @property
    def balance(self) -> float:
        """|supplied - stored - lost| over the run, as a share of the heat that moved."""
        gained = float(self.stored_J[-1] - self.stored_J[0])
        turned = float(np.abs(self.lost_J).sum() + self.supplied_J.sum() + abs(gained))
        return abs(float(self.supplied_J.sum() - self.lost_J.sum()) - gained) / turned if turned else 0.0

    def followed_by(self, later: Run) -> Run:
        """This run up to where a later one of the same zone starts, and then that one."""
        upto = int(np.searchsorted(self.times_s, later.times_s[0] + SHORTEST_S / 2))
        pairs = [(getattr(self, name), getattr(later, name)) for name in ROWS]
        joined: list[Any] = [np.concatenate([mine[:upto], theirs[1:]]) for mine, theirs in pairs]
        joined[ROWS.index("system_at")][upto:] += len(self.systems)
        both = replace(self, systems=(*self.systems, *later.systems), rejected=self.rejected + later.rejected)
        return replace(both, **dict(zip(ROWS, joined, strict=True)))

    def until(self, end_s: float) -> Run:
        """The run up to the first of its times at or after end_s."""
        rows = int(np.searchsorted(self.times_s, end_s)) + 1
        cut = [getattr(self, name)[:rows] for name in ROWS]
        return replace(self, **dict(zip(ROWS, cut, strict=True)))


@dataclass
class _Course:
    """The run as it grows."""

    zone: Zone
    layout: Layout
    accuracy: Accuracy
    store: FactorStore
    under: Conditions
    now_s: float
    at: Moment
    step_s: float = FIRST_S
    rejected: int = 0

    def __post_init__(self) -> None:
        self.times: list[float] = [self.now_s]
        self.states: list[Floats] = [self.at.node_C]
        self.powers: list[Floats] = [np.zeros(len(self.zone.pads))]
        self.lost: list[float] = [0.0]
        self.stored: list[float] = [float(self.at.enthalpy_J.sum())]
        self.which: list[int] = [0]
        self.frozen = 0
        self.settling: dict[float, Settling] = {}  # by step; anew after acts and where slopes are taken anew
        self.frozen_C: Floats = np.maximum(self.at.node_C, self.zone.ambient_C + FROZEN_RISE_K)
        self.past: Past | None = None  # None after acts, where curves bend


def simulate(
    zone: Zone,
    layout: Layout,
    under: Conditions = NOMINAL,
    *,
    acts: tuple[PadAct, ...] = (),
    until_s: float | None = None,
    start: tuple[float, Floats] | None = None,
    first_s: float = FIRST_S,
    accuracy: Accuracy = USUAL,
    store: FactorStore | None = None,
    tick: Callable[[float], None] | None = None,
) -> Run:
    """Runs the zone from its start (or from a time and state) to until_s under the given acts, which are
    sorted.

    `tick` is told the time after every step and may raise to cancel.
    """
    end_s = zone.duration_s if until_s is None else until_s
    start_s, node_C = start or (0.0, np.full(layout.count, zone.start_C))
    pending = [act for act in acts if act.at_s < end_s]
    already = [act for act in pending if act.at_s <= start_s]
    systems, lifted = [_system_after(zone, layout, under, already, None)], lifted_by(already)
    kept = FactorStore() if store is None else store
    longest_s = min(accuracy.longest_s, zone.max_step_s or math.inf)
    accuracy = replace(accuracy, longest_s=longest_s)
    course = _Course(zone, layout, accuracy, kept, under, start_s, moment_of(systems[0], node_C), first_s)
    stops = sorted({act.at_s for act in pending if act.at_s > start_s})
    for stop_s in [*stops, end_s]:
        key = _key(under, pending, course.now_s)
        _advance(course, systems[-1], stop_s, key=key, which=len(systems) - 1, tick=tick)
        if stop_s < end_s:
            done = [act for act in pending if act.at_s <= stop_s]
            systems.append(
                _system_after(zone, layout, under, done, systems[-1] if lifted == lifted_by(done) else None)
            )
            lifted = lifted_by(done)
            course.at = moment_of(systems[-1], course.at.node_C)
            course.step_s = min(course.step_s, AFTER_ACT_S)
            course.past = None
            course.settling.clear()
    return Run(
        layout, tuple(systems), np.array(course.which), np.array(course.times), np.array(course.states),
        np.array(course.powers), np.array(course.lost), np.array(course.stored), course.rejected, kept.made,
    )  # fmt: skip


def lifted_by(done: list[PadAct]) -> frozenset[str]:
    """The pads that these acts lift."""
    return frozenset(act.pad for act in done if act.act == "lift")


def _key(under: Conditions, acts: list[PadAct], now_s: float) -> tuple[Conditions, frozenset[str]]:
    return under, lifted_by([act for act in acts if act.at_s <= now_s])


def _system_after(
    zone: Zone, layout: Layout, under: Conditions, done: list[PadAct], same: System | None
) -> System:
    """The zone's equations once these acts are done (`same`: those before, if as much was lifted)."""
    system = same or system_of(zone, layout, under, lifted_by(done))
    return replace(system, limit_W_m2=limits_W_m2(zone, done))


def limits_W_m2(zone: Zone, done: list[PadAct]) -> Floats:
    """What each pad can give at most once these acts are done."""
    limit = np.array([pad.power_W_m2 * pad.power_share for pad in zone.pads])
    for act in sorted(done, key=lambda one: one.at_s):
        number = next(n for n, pad in enumerate(zone.pads) if pad.id == act.pad)
        limit[number] = zone.pads[number].power_W_m2 * (act.share if act.act == "turn_down" else 0.0)
    return limit


def _advance(
    course: _Course,
    system: System,
    stop_s: float,
    *,
    key: tuple[Conditions, frozenset[str]],
    which: int,
    tick: Callable[[float], None] | None,
) -> None:
    while stop_s - course.now_s > SHORTEST_S / 2:
        step_s = fitting_s(min(course.step_s, course.accuracy.longest_s), stop_s - course.now_s)
        _refreeze(course, system)
        at = (key, round(step_s, 6), course.frozen)
        factor = course.store.get(at, system, GAMMA / 2 * step_s, course.frozen_C)
        done = _tried(course, system, factor, step_s)
        if done is None:
            course.rejected += 1
            course.step_s = step_s / 2
            continue
        _take(course, done, step_s, which)
        if tick:
            tick(course.now_s)


def _refreeze(course: _Course, system: System) -> None:
    """Takes slopes anew where heat capacity changes with temperature and the zone has moved far from the
    last.
    """
    if system.tables and abs(float(np.mean(course.at.node_C - course.frozen_C))) > REFREEZE_K:
        course.frozen += 1
        course.settling.clear()
        rise_K = course.at.node_C - course.past.begin if course.past else np.zeros(1)
        course.frozen_C = course.at.node_C + REFREEZE_K / 2 * np.sign(rise_K.mean())


def _tried(course: _Course, system: System, factor: Factor, step_s: float) -> Step | None:
    """One step, or None if it has to be tried again with half the length."""
    allowed = course.accuracy.step_error_K
    try:
        done = step(
            system,
            factor,
            course.at,
            past=course.past,
            step_s=step_s,
            settled_K=SETTLED_SHARE * allowed,
            settling=course.settling.setdefault(step_s, Settling()),
        )
    except StepTooLong:
        if step_s <= SHORTEST_S:
            raise
        return None
    return done if done.error_K <= allowed or step_s <= SHORTEST_S else None


def _take(course: _Course, done: Step, step_s: float, which: int) -> None:
    course.now_s += step_s
    course.past = done.past
    course.at = done.end
    course.times.append(course.now_s)
    course.states.append(done.end.node_C)
    course.powers.append(done.power_W_m2)
    course.lost.append(done.lost_J)
    course.stored.append(float(done.end.enthalpy_J.sum()))
    course.which.append(which)
    if step_s == course.step_s:
        course.step_s = min(growth(done.error_K, course.accuracy) * step_s, course.accuracy.longest_s)
