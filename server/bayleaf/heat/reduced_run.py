"""Runs of a whole family at once on a few shapes: TR-BDF2 on one clock, pads solved inside the step."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.interpolation import between
from bayleaf.heat.reduced import Reduced, times
from bayleaf.heat.stepping import GAMMA, Past, Settling, left_K

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
ROUNDS = 8
SETTLED_K = 0.03
NEAR_K = 90.0  # a bound, some times what the farthest place is away
PAD_ROUNDS = 200
ENOUGH = 1e-7


@dataclass(frozen=True)
class Stretch:
    """A part of the clock under one set of equations and of the pads' full powers."""

    reduced: Reduced
    limit_W_m2: Floats
    clock_s: Floats  # from its start to its end

    @cached_property
    def controlled(self) -> Ints:
        """The pads that hold a setpoint."""
        return np.flatnonzero(~np.isinf(self.reduced.setpoint_C))


@dataclass(frozen=True)
class FamilyRun:
    """Amounts of the shapes: shape (times, members, shapes)."""

    ambient_C: float
    times_s: Floats
    amounts: Floats
    bends_s: Floats  # where acts bend the curves

    def on(self, clock_s: Floats) -> FamilyRun:
        """The same on another clock, within its own."""
        amounts = between(self.times_s, self.amounts, clock_s, self.bends_s)
        return FamilyRun(self.ambient_C, clock_s, amounts, self.bends_s)

    def only(self, members: list[int]) -> FamilyRun:
        """Some of the members."""
        return FamilyRun(self.ambient_C, self.times_s, self.amounts[:, members], self.bends_s)

    def at(self, read: Floats) -> Floats:
        """Temperatures, shape (times, members, places); read: (places, shapes)."""
        return np.asarray(self.ambient_C + self.amounts @ read.T)


@dataclass(frozen=True)
class _Slopes:
    """Newton's matrix of a step, inverted, and what the pads do through it."""

    around: Floats
    inverse: Floats  # (members, shapes, shapes)
    pad: Floats  # (members, shapes, pads)
    felt_K: Floats  # (members, pads, pads)
    settling: Settling = field(default_factory=Settling)


def run_family(stretches: list[Stretch], amounts: Floats) -> FamilyRun:
    """Runs all members through the stretches, from these amounts of the shapes, (members, shapes)."""
    clock, states = [float(stretches[0].clock_s[0])], [amounts]
    known = _Known(stretches[0].reduced)
    for stretch in stretches:
        past = None
        if stretch.reduced is not known.reduced:
            known = _Known(stretch.reduced)
        for step_s in np.diff(stretch.clock_s).tolist():
            slopes = known.fitting(amounts, past, step_s)
            past, amounts = _step(stretch, slopes, amounts, past, step_s)
            clock.append(clock[-1] + step_s)
            states.append(amounts)
    bends_s = np.array([stretch.clock_s[0] for stretch in stretches[1:]])
    return FamilyRun(stretches[0].reduced.modes.ambient_C, np.array(clock), np.array(states), bends_s)


@dataclass
class _Known:
    """The slopes found so far for one set of equations, by the length of the step."""

    reduced: Reduced
    slopes: dict[float, _Slopes] = field(default_factory=dict)

    def fitting(self, start: Floats, past: Past | None, step_s: float) -> _Slopes:
        """Those of the last step of this length, if the members are still near; new ones otherwise."""
        around = start + (start - past.begin) * (step_s / past.step_s / 2) if past else start
        length_s = round(step_s, 6)
        last = self.slopes.get(length_s)
        if last is None or self.reduced.modes.largest_K(around - last.around) >= NEAR_K:
            self.slopes[length_s] = _slopes(self.reduced, around, GAMMA / 2 * step_s)
        return self.slopes[length_s]


def _slopes(reduced: Reduced, around: Floats, weight_s: float) -> _Slopes:
    inverse = np.asarray(np.linalg.inv(reduced.slopes(around, weight_s)), dtype=np.float64)
    pad = np.asarray(weight_s * inverse @ reduced.heating)
    return _Slopes(around, inverse, pad, reduced.sensing @ pad)


def _step(
    stretch: Stretch, slopes: _Slopes, start: Floats, past: Past | None, step_s: float
) -> tuple[Past, Floats]:
    """One step of every member, by the scheme and the guesses of `bayleaf.heat.stepping`."""
    reduced, weight_s = stretch.reduced, GAMMA / 2 * step_s
    held = reduced.stored(start)
    known = held + weight_s * reduced.unheated(start)
    guess = past.ahead(start, GAMMA * step_s) if past else start
    middle = _stage(stretch, slopes, known, guess, weight_s=weight_s, power_weight=2.0)
    ahead = 1 / (GAMMA * (2 - GAMMA))
    known = ahead * reduced.stored(middle) - (ahead - 1) * held
    guess = past.end(start, middle, step_s) if past else start + (middle - start) / GAMMA
    end = _stage(stretch, slopes, known, guess, weight_s=weight_s, power_weight=1.0)
    return Past(step_s, start, middle), end


def _stage(
    stretch: Stretch, slopes: _Slopes, known: Floats, guess: Floats, *, weight_s: float, power_weight: float
) -> Floats:
    """Solves stored(a) = known + weight (unheated(a) + power weight * B p) for every member."""
    reduced, now = stretch.reduced, guess
    before_K, rate = 0.0, slopes.settling.faded()
    for _ in range(ROUNDS):
        left = known + weight_s * reduced.unheated(now) - reduced.stored(now)
        unpowered = now + times(slopes.inverse, left)
        felt_C = reduced.modes.ambient_C + unpowered @ reduced.sensing.T
        power = _powers(stretch, felt_C, power_weight * slopes.felt_K)
        following = unpowered + power_weight * times(slopes.pad, power)
        moved_K, now = reduced.modes.largest_K(following - now), following
        if before_K:
            slopes.settling.rate = rate = moved_K / before_K
        if left_K(moved_K, rate) < SETTLED_K:
            break
        before_K = moved_K
    return now


def _powers(stretch: Stretch, felt_C: Floats, felt_K: Floats) -> Floats:
    """As `bayleaf.heat.controller.powers`, for all members; felt_K (members, pads, pads)."""
    limit_W_m2, setpoint_C, controlled = stretch.limit_W_m2, stretch.reduced.setpoint_C, stretch.controlled
    power = np.empty_like(felt_C)
    power[:] = limit_W_m2
    if np.all((felt_C + times(felt_K, power))[:, controlled] <= setpoint_C[controlled]):
        return power
    for _ in range(PAD_ROUNDS):
        moved = 0.0
        for pad in controlled:
            short_K = setpoint_C[pad] - felt_C[:, pad] - (felt_K[:, pad] * power).sum(axis=1)
            wanted = np.clip(power[:, pad] + short_K / felt_K[:, pad, pad], 0.0, limit_W_m2[pad])
            moved = max(moved, float(np.abs(wanted - power[:, pad]).max()))
            power[:, pad] = wanted
        if moved <= ENOUGH * max(float(limit_W_m2.max()), 1.0):
            break
    return power
