"""One time step by TR-BDF2: second order, L-stable, with the pads' powers solved inside it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.controller import powers
from bayleaf.heat.factors import Factor
from bayleaf.heat.system import System

Floats = NDArray[np.float64]
GAMMA = 2 - math.sqrt(2)
FIRST_SHARE = 1 / math.sqrt(2)  # weight of the first stage's power and losses in a step
ERROR_WEIGHT = (-3 * GAMMA**2 + 4 * GAMMA - 2) / (12 * (2 - GAMMA))  # of step^3 times the third derivative
MOST_ROUNDS = 12


RATE_FADES = 0.8  # a rate that was not seen lately is trusted less each time, by this power


class StepTooLong(Exception):
    """The loss iteration did not settle within its rounds."""


@dataclass
class Settling:
    """How fast the rounds under one factor converge, as seen last; infinity before that.

    Hairer and Wanner, Solving Ordinary Differential Equations II (1996), sec. IV.8.
    """

    rate: float = math.inf

    def faded(self) -> float:
        """The rate for the first round of a stage, where none can be seen yet."""
        self.rate = self.rate**RATE_FADES if self.rate < 1.0 else math.inf
        return self.rate


@dataclass(frozen=True)
class Moment:
    """State at one time: temperatures, stored heat, heat flowing in without power, and all that is lost."""

    node_C: Floats
    enthalpy_J: Floats
    unheated_W: Floats
    lost_W: float


@dataclass(frozen=True)
class Step:
    """What one step gives: its end, powers of both stages, mean loss, and the largest error in K."""

    end: Moment
    power_W_m2: Floats  # mean over the step
    last_power_W_m2: Floats
    lost_J: float
    error_K: float
    past: Past  # for the step that follows


@dataclass(frozen=True)
class Past:
    """The step before: how long it was, the state where it began, and that in its middle."""

    step_s: float
    begin: Floats
    middle: Floats

    def ahead(self, now: Floats, in_s: float) -> Floats:
        """The parabola through the step before, carried on."""
        share = in_s / self.step_s
        begin = (1 + share - GAMMA) * share / GAMMA
        middle = -(1 + share) * share / (GAMMA * (1 - GAMMA))
        return begin * self.begin + middle * self.middle + (1 - begin - middle) * now

    def end(self, now: Floats, own_middle: Floats, step_s: float) -> Floats:
        """A step's end by the parabola from where the step before began, through now and its own middle."""
        back, middle_s = self.step_s, GAMMA * step_s
        begin = step_s * (step_s - middle_s) / (back * (back + middle_s))
        middle = (step_s + back) * step_s / ((middle_s + back) * middle_s)
        return begin * self.begin + middle * own_middle + (1 - begin - middle) * now

    def error_K(self, missed_K: float, step_s: float) -> float:
        """The error of a step whose end missed the parabola by so much: both go by the third derivative."""
        return abs(6 * ERROR_WEIGHT) * missed_K / ((1 + self.step_s / step_s) * (1 - GAMMA))


def moment_of(system: System, node_C: Floats) -> Moment:
    """g(T) = -K T + s - losses(T), and what the bare faces, pads' backs and edges lose."""
    loss_W = system.loss_W(node_C)
    unheated_W = np.asarray(system.source_W - system.conduction @ node_C - loss_W)
    lost_W = float(system.fixed_loss @ node_C) - system.fixed_source_W + float(loss_W.sum())
    return Moment(node_C, system.enthalpy_J(node_C), unheated_W, lost_W)


def step(
    system: System,
    factor: Factor,
    start: Moment,
    *,
    past: Past | None,
    step_s: float,
    settled_K: float,
    settling: Settling | None = None,
) -> Step:
    """Advances by step_s; `past` is the step before, if nothing has bent the curves since.

    `settling`: what earlier steps with this factor have shown, and what this one adds.

    Bank et al., IEEE Trans. CAD 4 (1985) 436; Hosea and Shampine, Applied Numerical Mathematics 20 (1996) 21,
    sec. 2 (coefficients and error; section from memory). The error is told from the parabola that was the
    last guess, which costs no further solution; where curves bend, from the fluxes. The power is one value
    per stage, so that a pad that reaches its setpoint within the step gets exactly the heat that it took.
    """
    weight_s = GAMMA / 2 * step_s
    seen = settling or Settling()
    how = {"weight_s": weight_s, "settled_K": settled_K}
    known_J = start.enthalpy_J + weight_s * start.unheated_W
    guess_C = past.ahead(start.node_C, GAMMA * step_s) if past else start.node_C
    first, first_power = _stage(system, factor, known_J, guess_C, power_weight=2.0, settling=seen, **how)
    ahead = 1 / (GAMMA * (2 - GAMMA))
    known_J = ahead * first.enthalpy_J - (ahead - 1) * start.enthalpy_J
    straight_C = start.node_C + (first.node_C - start.node_C) / GAMMA
    guess_C = past.end(start.node_C, first.node_C, step_s) if past else straight_C
    end, power = _stage(system, factor, known_J, guess_C, power_weight=1.0, settling=seen, **how)
    missed_K = float(np.abs(end.node_C - guess_C).max())
    error_K = past.error_K(missed_K, step_s) if past else _error_K(factor, (start, first, end), step_s)
    lost_J = step_s * (FIRST_SHARE * (start.lost_W + first.lost_W) / 2 + (1 - FIRST_SHARE) * end.lost_W)
    mean_power = FIRST_SHARE * first_power + (1 - FIRST_SHARE) * power
    return Step(end, mean_power, power, lost_J, error_K, Past(step_s, start.node_C, first.node_C))


def _stage(
    system: System,
    factor: Factor,
    known_J: Floats,
    guess_C: Floats,
    *,
    power_weight: float,
    weight_s: float,
    settled_K: float,
    settling: Settling,
) -> tuple[Moment, Floats]:
    """Solves H(T) = known + a (g(T) + w B p) by Newton's rule with the factor's frozen slopes."""
    node_C, power = guess_C, np.zeros(system.heating.shape[1])
    now, before_K, rate = moment_of(system, node_C), math.inf, settling.faded()
    for _ in range(MOST_ROUNDS):
        unpowered_C = node_C + factor.solve(known_J + weight_s * now.unheated_W - now.enthalpy_J)
        felt_K = power_weight * factor.felt_K
        power = powers(system.sensing @ unpowered_C, felt_K, system.setpoint_C, system.limit_W_m2)
        following_C = unpowered_C + power_weight * (factor.pad_K @ power)
        moved_K = float(np.abs(following_C - node_C).max())
        node_C = following_C
        now = moment_of(system, node_C)
        if math.isfinite(before_K) and before_K:
            settling.rate = rate = moved_K / before_K
        if left_K(moved_K, rate) < settled_K or system.linear:
            return now, power
        before_K = moved_K
    raise StepTooLong


def left_K(moved_K: float, rate: float) -> float:
    """How far a linearly converging iteration still is from its end, from its last move and its rate."""
    return moved_K if rate >= 1.0 else moved_K * rate / (1 - rate)


def _error_K(factor: Factor, at: tuple[Moment, Moment, Moment], step_s: float) -> float:
    """Largest local error, filtered through the step's own matrix so that stiff parts do not alarm."""
    parts = (1 / GAMMA, -1 / (GAMMA * (1 - GAMMA)), 1 / (1 - GAMMA))
    defect_J = sum(part * one.unheated_W for part, one in zip(parts, at, strict=True))
    return float(np.abs(factor.solve(2 * ERROR_WEIGHT * step_s * np.asarray(defect_J))).max())
