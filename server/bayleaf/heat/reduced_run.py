"""Runs of a whole family at once on a few shapes: TR-BDF2 on one clock, pads solved inside the step."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.interpolation import between
from bayleaf.heat.reduced import Reduced, times
from bayleaf.heat.stepping import GAMMA

Floats = NDArray[np.float64]
ROUNDS = 8
SETTLED_K = 0.03
NEAR_K = 30.0
PAD_ROUNDS = 200
ENOUGH = 1e-7


@dataclass(frozen=True)
class Stretch:
    """A part of the clock under one set of equations and of the pads' full powers."""

    reduced: Reduced
    limit_W_m2: Floats
    clock_s: Floats  # from its start to its end


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
    weight_s: float
    inverse: Floats  # (members, shapes, shapes)
    pad: Floats  # (members, shapes, pads)
    felt_K: Floats  # (members, pads, pads)


def run_family(stretches: list[Stretch], amounts: Floats) -> FamilyRun:
    """Runs all members through the stretches, from these amounts of the shapes, (members, shapes)."""
    clock, states = [float(stretches[0].clock_s[0])], [amounts]
    for stretch in stretches:
        rate, slopes = np.zeros_like(amounts), None
        for step_s in np.diff(stretch.clock_s):
            slopes = _fitting(slopes, stretch.reduced, amounts, rate, float(step_s))
            following = _step(stretch, slopes, amounts, rate, float(step_s))
            rate, amounts = (following - amounts) / step_s, following
            clock.append(clock[-1] + float(step_s))
            states.append(amounts)
    bends_s = np.array([stretch.clock_s[0] for stretch in stretches[1:]])
    return FamilyRun(stretches[0].reduced.modes.ambient_C, np.array(clock), np.array(states), bends_s)


def _fitting(last: _Slopes | None, reduced: Reduced, start: Floats, rate: Floats, step_s: float) -> _Slopes:
    """The last slopes again, if the step is as long and the members are still near."""
    around, weight_s = start + rate * step_s / 2, GAMMA / 2 * step_s
    if (
        last
        and math.isclose(last.weight_s, weight_s)
        and reduced.modes.largest_K(around - last.around) < NEAR_K
    ):
        return last
    inverse = np.asarray(np.linalg.inv(reduced.slopes(around, weight_s)), dtype=np.float64)
    pad = np.asarray(weight_s * inverse @ reduced.heating)
    return _Slopes(around, weight_s, inverse, pad, reduced.sensing @ pad)


def _step(stretch: Stretch, slopes: _Slopes, start: Floats, rate: Floats, step_s: float) -> Floats:
    """One step of every member, by the scheme of `bayleaf.heat.stepping`."""
    reduced, weight_s = stretch.reduced, GAMMA / 2 * step_s
    held = reduced.stored(start)
    known, guess = held + weight_s * reduced.unheated(start), start + GAMMA * step_s * rate
    middle = _stage(stretch, slopes, known, guess, weight_s=weight_s, power_weight=2.0)
    ahead = 1 / (GAMMA * (2 - GAMMA))
    known = ahead * reduced.stored(middle) - (ahead - 1) * held
    guess = start + (middle - start) / GAMMA
    return _stage(stretch, slopes, known, guess, weight_s=weight_s, power_weight=1.0)


def _stage(
    stretch: Stretch, slopes: _Slopes, known: Floats, guess: Floats, *, weight_s: float, power_weight: float
) -> Floats:
    """Solves stored(a) = known + weight (unheated(a) + power weight * B p) for every member."""
    reduced, now = stretch.reduced, guess
    for _ in range(ROUNDS):
        left = known + weight_s * reduced.unheated(now) - reduced.stored(now)
        unpowered = now + times(slopes.inverse, left)
        felt_C = reduced.modes.ambient_C + unpowered @ reduced.sensing.T
        power = _powers(felt_C, power_weight * slopes.felt_K, reduced.setpoint_C, stretch.limit_W_m2)
        following = unpowered + power_weight * times(slopes.pad, power)
        moved, now = following - now, following
        if reduced.modes.largest_K(moved) < SETTLED_K:
            break
    return now


def _powers(felt_C: Floats, felt_K: Floats, setpoint_C: Floats, limit_W_m2: Floats) -> Floats:
    """As `bayleaf.heat.controller.powers`, for all members; felt_K (members, pads, pads)."""
    power = np.broadcast_to(limit_W_m2, felt_C.shape).copy()
    controlled = np.flatnonzero(~np.isinf(setpoint_C))
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
