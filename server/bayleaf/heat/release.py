"""Plans the release: which pad is turned down when, so that nothing cools faster than its limit.

Each pad goes down in shares of its power at the end of the soak, then off. Pads far from the still-bonded
stretch go first, the one beside it last. What a turn-down does to the cooling rate of every place is found
by one
linear response per pad around the state at the end of the soak; the schedule built from it is then run with
the full
equations, and tightened until the run keeps the limit.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.assembly import system_of
from bayleaf.heat.bondline import Curves, curves_of, steepest_K_min
from bayleaf.heat.factors import factorise
from bayleaf.heat.layout import Layout
from bayleaf.heat.places import Place, places_of, sampler
from bayleaf.heat.run import Run, simulate
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.zone import STILL_BONDED, Box, Conditions, Pad, PadAct, Zone

Floats = NDArray[np.float64]
CLOCK_S = 15.0
GRID_S = 30.0
MINUTE_S = 60.0
ACT_EVERY_S = 120.0
SHARE_STEP = 0.05
TRIES = 6
TIGHTER = 0.97
RELEASE_ACCURACY = Accuracy(0.15, 64.0)
LOOK_S = 1800.0
LONGEST_S = 7200.0


@dataclass(frozen=True)
class Release:
    """The acts in order of time, when the last pad is off, the steepest fall, and whether it keeps the
    limit.
    """

    acts: tuple[PadAct, ...]
    begins_s: float
    ends_s: float
    steepest_K_min: float
    steepest_at: Place | None
    keeps_limit: bool
    run: Run


def order_of_release(zone: Zone) -> tuple[Pad, ...]:
    """Heating pads, farthest from the still-bonded stretch first; along the joint where nothing is still
    bonded.
    """
    pads = [pad for pad in zone.pads if pad.power_W_m2 * pad.power_share > 0]
    bonded = [n for n in zone.neighbours if n.kind == STILL_BONDED]
    if not bonded:
        return tuple(sorted(pads, key=lambda pad: pad.box.x0))
    away = {pad.id: min(_gap_m(pad.box, n.x_m, n.y_m) for n in bonded) for pad in pads}
    return tuple(sorted(pads, key=lambda pad: -away[pad.id]))


def _gap_m(box: Box, x_m: float, y_m: float) -> float:
    return float(np.hypot(max(box.x0 - x_m, x_m - box.x1, 0), max(box.y0 - y_m, y_m - box.y1, 0)))


def watched(zone: Zone) -> tuple[Place, ...]:
    """Every bondline place, and the metal over it: what the cooling limit holds for."""
    bond = places_of(zone, zone.layer(zone.bondline))
    top = zone.layers[0].id
    return (*bond, *(Place(top, place.x_m, place.y_m) for place in bond if _lies(zone, place)))


def _lies(zone: Zone, place: Place) -> bool:
    return any(box.holds(place.x_m, place.y_m) for box in zone.layers[0].covers)


def plan_release(zone: Zone, layout: Layout, hot: Run, begins_s: float) -> Release:
    """A staged release from begins_s on, `hot` being a run with every pad on up to there (or longer)."""
    limit = zone.limits.cooling_K_min
    start_C = hot.node_C[int(np.argmin(np.abs(hot.times_s - begins_s)))]
    powers = dict(zip((pad.id for pad in zone.pads), _power_at(hot, begins_s), strict=True))
    places = watched(zone)
    if limit is None:
        acts = tuple(PadAct(begins_s, pad.id, "off") for pad in order_of_release(zone))
        return _judged(zone, layout, places, acts, begins_s=begins_s, start_C=start_C)
    response = _responses(zone, layout, places, start_C)
    aim, last = limit * TIGHTER, None
    for _ in range(TRIES):
        acts = _schedule(zone, response, aim, begins_s, powers)
        last = _judged(zone, layout, places, acts, begins_s=begins_s, start_C=start_C)
        if last.keeps_limit:
            return last
        aim *= max(0.5, min(TIGHTER, limit / last.steepest_K_min))
    assert last is not None  # noqa: S101  TRIES > 0
    return last


def _power_at(hot: Run, at_s: float) -> list[float]:
    row = int(np.clip(np.searchsorted(hot.times_s, at_s), 1, len(hot.times_s) - 1))
    return [float(power) for power in hot.power_W_m2[row]]


def _responses(zone: Zone, layout: Layout, places: tuple[Place, ...], around_C: Floats) -> Floats:
    """How fast each place falls, K/min as a mean over a minute, after each pad alone loses 1 W/m2 of power.

    Linear response around a state, by implicit Euler on a clock of 15 s; shape (pads, times every 30 s,
    places).
    """
    system = system_of(zone, layout, Conditions())
    factor = factorise(system, CLOCK_S, around_C)
    capacity, read = system.capacity_at(around_C)[:, None], sampler(layout, places)
    change_K = np.zeros((layout.count, len(zone.pads)))
    history = [read @ change_K]
    for _ in range(round(LOOK_S / CLOCK_S)):
        change_K = factor.solve(capacity * change_K) - factor.pad_K
        history.append(read @ change_K)
    every = np.array(history)[:: round(GRID_S / CLOCK_S)]
    span = round(MINUTE_S / GRID_S)
    return np.moveaxis((every[:-span] - every[span:]) * (60.0 / MINUTE_S), 2, 0)


@dataclass
class _Plan:
    """The schedule as it grows: what is still on, and the fall that the acts so far bring."""

    share: dict[str, float]  # of the power at the end of the soak
    falling: Floats  # K/min, shape (times, places)


def _schedule(
    zone: Zone, response: Floats, aim: float, begins_s: float, powers: dict[str, float]
) -> tuple[PadAct, ...]:
    """Every two minutes takes as much off each pad, in order, as keeps every place under the aim.

    A pad never stands below where the one released before it stood two minutes ago, so the last in order is
    off last.
    """
    number = {pad.id: n for n, pad in enumerate(zone.pads)}
    order = [pad.id for pad in order_of_release(zone)]
    rows, look = round(LONGEST_S / GRID_S), response.shape[1]
    plan = _Plan(dict.fromkeys(order, 1.0), np.zeros((rows + look, response.shape[2])))
    acts: list[PadAct] = []
    for row in range(0, rows, round(ACT_EVERY_S / GRID_S)):
        before, lowest = dict(plan.share), 0.0
        for pad in order:
            part = plan.falling[row : row + look]
            per_share = response[number[pad]] * powers[pad]
            cut = _largest_cut(part, per_share, plan.share[pad], lowest, aim)
            if cut > 0:
                part += cut * per_share
                plan.share[pad] -= cut
                full = zone.pads[number[pad]].power_W_m2
                acts.append(_act(pad, begins_s + row * GRID_S, plan.share[pad], powers[pad] / full))
            lowest = before[pad]
        if not any(share > 0 for share in plan.share.values()):
            break
    return tuple(acts)


def _largest_cut(falling: Floats, per_share: Floats, share: float, lowest: float, aim: float) -> float:
    """The largest multiple of 5 % (or all that is left) that may come off a pad now."""
    most = share - lowest
    tight = per_share > aim * 1e-6
    room = float(((aim - falling[tight]) / per_share[tight]).min(initial=most)) if tight.any() else most
    room = min(room, most)
    if room >= share - 1e-9:
        return share
    return max(0.0, float(np.floor(room / SHARE_STEP + 1e-9)) * SHARE_STEP)


def _act(pad: str, at_s: float, share: float, power_share: float) -> PadAct:
    if share <= 1e-9:  # noqa: PLR2004  nothing left but rounding
        return PadAct(at_s, pad, "off")
    return PadAct(at_s, pad, "turn_down", round(share * power_share, 3))


def _judged(
    zone: Zone,
    layout: Layout,
    places: tuple[Place, ...],
    acts: tuple[PadAct, ...],
    *,
    begins_s: float,
    start_C: Floats,
) -> Release:
    limit = zone.limits.cooling_K_min
    ends_s = max((act.at_s for act in acts), default=begins_s)
    run = simulate(
        zone, layout, acts=acts, until_s=ends_s + LOOK_S, start=(begins_s, start_C), accuracy=RELEASE_ACCURACY
    )
    curves: Curves = curves_of(run, places)
    cut = curves.times_s >= begins_s
    curves = Curves(curves.times_s[cut], places, curves.T_C[cut])
    rate, _, where = steepest_K_min(curves, falling=True)
    return Release(acts, begins_s, ends_s, rate, where, limit is None or rate <= limit, run)
