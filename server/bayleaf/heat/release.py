"""Plans the release: which pad is turned down when, so that nothing cools faster than its limit.

Each pad goes down in shares of its power at the end of the soak, then off. Pads far from the still-bonded
stretch go first, the one beside it last. What a turn-down does to the cooling rate of every place is found
by one linear response per pad around the state at the end of the soak; the schedule built from it is then
run over the band of contact and loss, and tightened until every member keeps the limit,
each released once its own bondline has been workable, soaked and wedged.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.bondline import Curves, steepest_K_min
from bayleaf.heat.ground import Ground, Kin
from bayleaf.heat.places import Place, places_of
from bayleaf.heat.run import Run
from bayleaf.heat.zone import STILL_BONDED, Box, Pad, PadAct, Zone

Floats = NDArray[np.float64]
GRID_S = 30.0
FALL_STEP_S = 15.0
LOOK_S = 1800.0
MINUTE_S = 60.0
RATE_CLOCK_S = 10.0
SHARE_STEP = 0.05
TRIES = 8
TIGHTER = 0.98
FIRMLY = 1.25
LOWEST_AIM = 0.3  # of the limit: a slower release than that is not tried
LOOK_AFTER_S = 1500.0
LONGEST_S = 10_800.0
UNFELT = 1e-6  # of the aim
WORTH = 1.3  # how much longer a release with fewer acts may take


RHYTHMS_S = (300.0, 240.0, 180.0, 120.0)  # how often pads are turned down


@dataclass(frozen=True)
class Release:
    """The acts in order of time, when the last pad is off, the steepest fall, and whether it keeps the limit:
    at the middle of the band, and at its worst end.
    """

    acts: tuple[PadAct, ...]
    begins_s: float
    ends_s: float
    steepest_K_min: float
    steepest_at: Place | None
    keeps_limit: bool
    band_steepest_K_min: float
    band_keeps_limit: bool


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


def plan_release(ground: Ground, kin: Kin, starts: Floats, begins_s: float) -> Release:
    """A staged release from begins_s on.

    `kin`: the nominal member first, then the band's ends; `starts`: their amounts when each of them has been
    workable, soaked and wedged.
    """
    zone = ground.zone
    powers = _powers_at(ground.nominal, zone, begins_s)
    limit = zone.limits.cooling_K_min
    if limit is None:
        acts = tuple(PadAct(begins_s, pad.id, "off") for pad in order_of_release(zone))
        return _judged(ground, kin, starts, acts, begins_s)
    response, aim, found = _responses(ground, kin.only([0])), limit * TIGHTER, []
    for _ in range(TRIES):
        acts = _schedule(zone, response, aim, powers)
        acts = tuple(PadAct(begins_s + act.at_s, act.pad, act.act, act.share) for act in acts)
        found.append(_judged(ground, kin, starts, acts, begins_s))
        aim *= min(TIGHTER, limit * TIGHTER / max(found[-1].band_steepest_K_min, 1e-9)) ** FIRMLY
        if found[-1].band_keeps_limit or aim < LOWEST_AIM * limit:
            break
    return _best(found)


def _best(found: list[Release]) -> Release:
    """The first that keeps the limit over the band; else the one that comes nearest."""
    kept = [one for one in found if one.band_keeps_limit]
    return kept[0] if kept else min(found, key=lambda one: one.band_steepest_K_min)


def _powers_at(hot: Run, zone: Zone, at_s: float) -> dict[str, float]:
    row = int(np.clip(np.searchsorted(hot.times_s, at_s), 1, len(hot.times_s) - 1))
    return {pad.id: float(power) for pad, power in zip(zone.pads, hot.power_W_m2[row], strict=True)}


def _responses(ground: Ground, nominal: Kin) -> Floats:
    """How fast each watched place falls, K/min as a mean over a minute, after each pad alone loses 1 W/m2.

    Shape (pads, times every 30 s, places).
    """
    fallen = nominal.reduced(frozenset()).falls(ground.amounts_of(ground.hot_C), FALL_STEP_S, LOOK_S)
    every = ground.read(watched(ground.zone)) @ fallen[:: round(GRID_S / FALL_STEP_S)]
    span = round(MINUTE_S / GRID_S)
    return np.moveaxis((every[:-span] - every[span:]) * (60.0 / MINUTE_S), 2, 0)


def _schedule(zone: Zone, response: Floats, aim: float, powers: dict[str, float]) -> tuple[PadAct, ...]:
    """The release with fewest acts of those that hardly take longer than the shortest; times from begin."""
    pulls = {pad.id: _Pull.of(response[n] * powers[pad.id], aim) for n, pad in enumerate(zone.pads)}
    tried = [_paced(zone, pulls, aim, powers, beat_s) for beat_s in RHYTHMS_S]
    shortest_s = min(_last_s(acts) for acts in tried)
    return min((acts for acts in tried if _last_s(acts) <= WORTH * shortest_s), key=len)


def _last_s(acts: Sequence[PadAct]) -> float:
    return max((act.at_s for act in acts), default=0.0)


@dataclass
class _Falling:
    """The schedule as it grows: what is still on, and the fall that the acts so far bring."""

    share: dict[str, float]  # of the power at the end of the soak
    K_min: Floats  # shape (times, places)


@dataclass(frozen=True)
class _Pull:
    """What all of one pad's power does to the falls when it goes, and where that is felt at all."""

    K_min: Floats  # shape (times, places)
    felt: NDArray[np.int64]  # among all times and places
    per_K_min: Floats  # there: the share of the power that a fall of 1 K/min is

    @classmethod
    def of(cls, K_min: Floats, aim: float) -> _Pull:
        felt = np.flatnonzero(K_min > aim * UNFELT)
        return cls(K_min, felt, 1 / K_min.reshape(-1)[felt])


def _paced(
    zone: Zone, pulls: dict[str, _Pull], aim: float, powers: dict[str, float], beat_s: float
) -> tuple[PadAct, ...]:
    """At each beat takes as much off each pad, in order, as keeps every place under the aim.

    A pad never stands below where the one released before it stood a beat ago, so the last in order is off
    last.
    """
    order = [pad.id for pad in order_of_release(zone)]
    full = {pad.id: pad.power_W_m2 for pad in zone.pads}
    look, places = next((pull.K_min.shape for pull in pulls.values()), (0, 0))
    rows = round(LONGEST_S / GRID_S)
    plan = _Falling(dict.fromkeys(order, 1.0), np.zeros((rows + look, places)))
    acts: list[PadAct] = []
    for row in range(0, rows, round(beat_s / GRID_S)):
        before, lowest = dict(plan.share), 0.0
        for pad in order:
            part = plan.K_min[row : row + look]
            cut = _largest_cut(part, pulls[pad], plan.share[pad], lowest, aim)
            if cut > 0:
                part += cut * pulls[pad].K_min
                plan.share[pad] -= cut
                acts.append(_act(pad, row * GRID_S, plan.share[pad], powers[pad] / full[pad]))
            lowest = before[pad]
        if not any(share > 0 for share in plan.share.values()):
            break
    else:
        acts += [PadAct(LONGEST_S, pad, "off") for pad in order if plan.share[pad] > 0]
    return tuple(acts)


def _largest_cut(falling: Floats, pull: _Pull, share: float, lowest: float, aim: float) -> float:
    """The largest multiple of 5 % (or all that is left) that may come off a pad now."""
    most = share - lowest
    if most <= 0:
        return 0.0
    room = float(((aim - falling.reshape(-1)[pull.felt]) * pull.per_K_min).min(initial=most))
    if room >= share - 1e-9:
        return share
    return max(0.0, float(np.floor(room / SHARE_STEP + 1e-9)) * SHARE_STEP)


def _act(pad: str, at_s: float, share: float, power_share: float) -> PadAct:
    if share <= 1e-9:  # noqa: PLR2004  nothing left but rounding
        return PadAct(at_s, pad, "off")
    return PadAct(at_s, pad, "turn_down", round(share * power_share, 3))


def _judged(ground: Ground, kin: Kin, starts: Floats, acts: tuple[PadAct, ...], begins_s: float) -> Release:
    limit = ground.zone.limits.cooling_K_min
    ends_s = max((act.at_s for act in acts), default=begins_s)
    places = watched(ground.zone)
    clock_s = np.arange(begins_s, ends_s + LOOK_AFTER_S, RATE_CLOCK_S)
    run = kin.run(acts, begins_s, ends_s + LOOK_AFTER_S, starts).on(clock_s)
    read_C = run.at(ground.read(places))
    rates = [steepest_K_min(Curves(clock_s, places, T_C), falling=True) for T_C in np.moveaxis(read_C, 1, 0)]
    (rate, _, where), worst = rates[0], max(one[0] for one in rates)
    kept = limit is None or rate <= limit
    return Release(acts, begins_s, ends_s, rate, where, kept, worst, limit is None or worst <= limit)
