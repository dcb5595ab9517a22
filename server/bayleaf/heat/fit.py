"""Fits readings of a run to its response set: when workable, with a band, or what the readings look like
instead.

Told so that a phone does the same in its own language:

1. Axes. ln(contact) and ln(loss) are cut into LATTICE steps each, from STRETCH beyond the family's ends; a
   curve between members is bilinear in the two logarithms (the outermost cells go on straight), straight in
   time.
2. Weight of a lattice point: exp(-(sum of squared misfits / SIGMA_K^2 * min(1, EFFECTIVE / n) + prior) /
   2), misfit r cut at CUT_K, prior = (ln contact / half-width)^2 + (ln loss / half-width)^2, the half-
   widths being the
   family's own band over 1.64 (its ends are the 5 % and 95 % marks).
3. The answer is the weighted median of the time at which the coldest curve becomes workable, the band its
   10 and 90 % marks, both widened by MODEL_SHARE of the time left, for what the family leaves out.
4. Other readings of the same facts: each pad lifted from a start (every 2 min) with a severity, each sensor
   off from a start, compared by cost = least squared misfit / SIGMA_K^2 + a price. A hypothesis is named
   only if its cost is under
   the healthy one's by MARGIN per reading after the start, and more. A healthy fit that misses by over
   NO_FIT_K is no fit: a draught if the best point lies at the loss axis's end, else a wrong stack-up.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.family import LIFT_EVERY_S, Family

Floats = NDArray[np.float64]
LATTICE = 25
STRETCH = 0.35
SIGMA_K = 2.5
CUT_K = 400.0
EFFECTIVE = 24
MODEL_SHARE = 0.06
LOW, MIDDLE, HIGH = 0.10, 0.50, 0.90
BAND_SIGMAS = 1.64
START_EVERY_S = 120.0
SEVERITIES = (0.6, 1.0, 1.4)
PAD_PRICE = 12.0
OFF_PRICE = 16.0
OFF_READING_PRICE = 7.0
FEWEST_OFF = 2
MARGIN = 14.0
NO_FIT_K = 6.0


@dataclass(frozen=True)
class Reading:
    """One sensor's temperature at a time after switch-on."""

    at_s: float
    sensor: str
    T_C: float


@dataclass(frozen=True)
class Forecast:
    """What the readings say. Times after switch-on, s, infinity for never; `looks_like` is '' where they
    fit.
    """

    workable_s: float
    from_s: float
    until_s: float
    contact: float
    loss: float
    misfit_K: float
    looks_like: str  # '', pad_lifting, sensor_off, draught, wrong_stack_up
    names: str  # the pad or sensor


@dataclass(frozen=True)
class _Lattice:
    """Curves at every lattice point: readings predicted (points, readings), and coldest (points, clock)."""

    contact: Floats
    loss: Floats
    predicted_C: Floats
    coldest_C: Floats
    prior: Floats


@dataclass(frozen=True)
class _Guess:
    """One explanation: its cost against the readings, the misfits it leaves, and which readings it keeps."""

    looks_like: str
    names: str
    cost: float
    misfit_K: Floats  # (points, readings)
    kept: NDArray[np.bool_]


def fit(
    family: Family, sensors: tuple[str, ...], readings: tuple[Reading, ...], workable_C: float
) -> Forecast:
    """The forecast from readings of the family's sensors; readings of other sensors are left out."""
    used = tuple(one for one in readings if one.sensor in sensors)
    lattice = _lattice(family, sensors, used)
    measured = np.array([one.T_C for one in used])
    misfit_K = np.clip(lattice.predicted_C - measured, -CUT_K, CUT_K)
    healthy = _Guess("", "", _least(misfit_K), misfit_K, np.ones(len(used), dtype=bool))
    others = [*_lifted(family, sensors, used, misfit_K), *_off(sensors, used, misfit_K)]
    fitting = [guess for guess in others if _least_rms_K(guess) <= NO_FIT_K]
    best = min(fitting, key=lambda guess: guess.cost, default=healthy)
    chosen = best if best.cost < healthy.cost - MARGIN else healthy
    return _forecast(family, lattice, chosen, workable_C)


def _axis(factors: tuple[float, ...]) -> Floats:
    ends = math.log(factors[0]), math.log(factors[-1])
    return np.linspace(ends[0] - STRETCH, ends[1] + STRETCH, LATTICE)


def _mix(factors: tuple[float, ...], at: Floats) -> Floats:
    """Weights of the members along one axis for each lattice value, straight beyond the ends; (values,
    members).
    """
    knots = np.log(np.array(factors))
    cell = np.clip(np.searchsorted(knots, at) - 1, 0, len(knots) - 2)
    share = (at - knots[cell]) / (knots[cell + 1] - knots[cell])
    weights = np.zeros((len(at), len(knots)))
    weights[np.arange(len(at)), cell] = 1 - share
    weights[np.arange(len(at)), cell + 1] = share
    return weights


def _lattice(family: Family, sensors: tuple[str, ...], readings: tuple[Reading, ...]) -> _Lattice:
    contact, loss = _axis(family.contact), _axis(family.loss)
    weights = np.einsum("ai,bj->abij", _mix(family.contact, contact), _mix(family.loss, loss))
    weights = weights.reshape(LATTICE * LATTICE, -1)
    members = [member for row in family.members for member in row]
    column = {sensor: number for number, sensor in enumerate(sensors)}
    at_readings = np.array(
        [
            [np.interp(r.at_s, family.times_s, m.sensors_C[:, column[r.sensor]]) for r in readings]
            for m in members
        ]
    )
    prior = _prior(family.contact, contact)[:, None] + _prior(family.loss, loss)[None, :]
    both = np.meshgrid(contact, loss, indexing="ij")
    return _Lattice(
        np.exp(both[0].ravel()), np.exp(both[1].ravel()), weights @ at_readings.reshape(len(members), -1),
        weights @ np.array([member.coldest_C for member in members]), prior.ravel(),
    )  # fmt: skip


def _prior(factors: tuple[float, ...], at: Floats) -> Floats:
    low, high = -math.log(factors[0]) / BAND_SIGMAS, math.log(factors[-1]) / BAND_SIGMAS
    return np.asarray((at / np.where(at < 0, low, high)) ** 2)


def _least(misfit_K: Floats) -> float:
    if misfit_K.shape[1] == 0:
        return 0.0
    return float((misfit_K**2).sum(axis=1).min()) / SIGMA_K**2


def _least_rms_K(guess: _Guess) -> float:
    kept = guess.misfit_K[:, guess.kept]
    return math.sqrt(float((kept**2).mean(axis=1).min())) if kept.shape[1] else 0.0


def _starts(readings: tuple[Reading, ...]) -> Floats:
    last_s = max((one.at_s for one in readings), default=0.0)
    return np.arange(0.0, last_s, START_EVERY_S)


def _lifted(
    family: Family, sensors: tuple[str, ...], readings: tuple[Reading, ...], misfit_K: Floats
) -> Iterator[_Guess]:
    at_s = np.array([one.at_s for one in readings])
    column = np.array([sensors.index(one.sensor) for one in readings], dtype=int)
    kept = np.ones(len(readings), dtype=bool)
    for lifting in family.lifting:
        clock = np.arange(len(lifting.drop_K)) * LIFT_EVERY_S
        for start_s in _starts(readings):
            since = np.maximum(at_s - start_s, 0.0)
            drop = np.array(
                [np.interp(t, clock, lifting.drop_K[:, c]) for t, c in zip(since, column, strict=True)]
            )
            for severity in SEVERITIES:
                left = misfit_K - severity * drop
                yield _Guess("pad_lifting", lifting.pad, _least(left) + PAD_PRICE, left, kept)


def _off(sensors: tuple[str, ...], readings: tuple[Reading, ...], misfit_K: Floats) -> Iterator[_Guess]:
    at_s = np.array([one.at_s for one in readings])
    column = np.array([sensors.index(one.sensor) for one in readings], dtype=int)
    for number, sensor in enumerate(sensors):
        for start_s in _starts(readings):
            fallen = (column == number) & (at_s >= start_s)
            if fallen.sum() >= FEWEST_OFF:
                price = OFF_PRICE + OFF_READING_PRICE * float(fallen.sum())
                yield _Guess("sensor_off", sensor, _least(misfit_K[:, ~fallen]) + price, misfit_K, ~fallen)


def _forecast(family: Family, lattice: _Lattice, guess: _Guess, workable_C: float) -> Forecast:
    misfit = guess.misfit_K[:, guess.kept]
    count = max(misfit.shape[1], 1)
    squares = (misfit**2).sum(axis=1) / SIGMA_K**2 * min(1.0, EFFECTIVE / count)
    cost = squares + lattice.prior
    weight = np.exp(-(cost - cost.min()) / 2)
    best = int(cost.argmin())
    off_K = float(np.sqrt((misfit[best] ** 2).mean())) if misfit.shape[1] else 0.0
    times = np.array([_crossing_s(family.times_s, curve, workable_C) for curve in lattice.coldest_C])
    low, middle, high = (_mark(times, weight, share) for share in (LOW, MIDDLE, HIGH))
    spread = MODEL_SHARE * middle if math.isfinite(middle) else 0.0
    looks_like, names = guess.looks_like, guess.names
    if not looks_like and off_K > NO_FIT_K:
        at_end = lattice.loss[best] > family.loss[-1] * math.exp(STRETCH / 2)
        looks_like = "draught" if at_end else "wrong_stack_up"
    return Forecast(
        middle, max(low - spread, 0.0), high + spread, float(lattice.contact[best]),
        float(lattice.loss[best]), off_K, looks_like, names,
    )  # fmt: skip


def _crossing_s(times_s: Floats, curve_C: Floats, wanted_C: float) -> float:
    over = np.flatnonzero(curve_C >= wanted_C)
    if not len(over):
        return math.inf
    k = int(over[0])
    if k == 0:
        return float(times_s[0])
    share = (wanted_C - curve_C[k - 1]) / (curve_C[k] - curve_C[k - 1])
    return float(times_s[k - 1] + share * (times_s[k] - times_s[k - 1]))


def _mark(times: Floats, weight: Floats, share: float) -> float:
    """The weighted share mark of times, infinite ones last."""
    order = np.argsort(times, kind="stable")
    total = np.cumsum(weight[order])
    return float(times[order][int(np.searchsorted(total, share * total[-1]))])
