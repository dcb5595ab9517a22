"""The family of runs over contact and loss: the plan's bands, and the curves that a phone picks from."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.bondline import reached_s
from bayleaf.heat.falls import LIFT_LOOK_S
from bayleaf.heat.ground import LIFTED_CONTACT, Ground, Kin, liftable
from bayleaf.heat.places import Place, places_of
from bayleaf.heat.reduced_run import FamilyRun
from bayleaf.heat.zone import Conditions, Zone

Floats = NDArray[np.float64]
LIFT_EVERY_S = 60.0
LIFT_AT_SHARE = 1 / 3
CLOCK_S = 30.0


@dataclass(frozen=True)
class Member:
    """One run of the family: curves on the family's clock."""

    under: Conditions
    sensors_C: Floats  # shape (times, sensors)
    coldest_C: Floats
    hottest_C: Floats  # of the bondline
    metal_C: Floats  # hottest metal


@dataclass(frozen=True)
class Lifting:
    """By how much each sensor falls behind when one pad lifts: shape (times every minute, sensors), K."""

    pad: str
    drop_K: Floats


@dataclass(frozen=True)
class Family:
    """Members in rows of contact, columns of loss; factors rise along both."""

    contact: tuple[float, ...]
    loss: tuple[float, ...]
    times_s: Floats
    members: tuple[tuple[Member, ...], ...]
    lifting: tuple[Lifting, ...]


def factors(band: tuple[float, float], count: int) -> tuple[float, ...]:
    """An odd count of factors from low to high with 1 in the middle, even in their logarithm on each side."""
    half = count // 2
    low = [band[0] ** (1 - n / half) for n in range(half)]
    return (*low, 1.0, *(band[1] ** ((n + 1) / half) for n in range(half)))


def kin_of(ground: Ground, size: int) -> Kin:
    """Members in rows of contact, one after another."""
    contact, loss = factors(ground.zone.contact_band, size), factors(ground.zone.loss_band, size)
    return Kin(ground, tuple(Conditions(c, f) for c in contact for f in loss))


def heated(kin: Kin) -> FamilyRun:
    """Every member heated to the end of the zone's duration, without a release.

    A slow member needs the pads longer than the plan's release begins: when it is workable is asked of
    heating alone.
    """
    zone = kin.ground.zone
    return kin.run(zone.acts, 0.0, zone.duration_s, kin.cold())


def family_on(ground: Ground, kin: Kin, run: FamilyRun, size: int) -> Family:
    """The family as curves on an even clock."""
    zone = ground.zone
    times_s = np.linspace(0.0, zone.duration_s, math.ceil(zone.duration_s / CLOCK_S) + 1)
    metal = tuple(p for layer in zone.layers if layer.role == "metal" for p in places_of(zone, layer))
    bond, sensors = places_of(zone, zone.layer(zone.bondline)), sensor_places(zone)
    on = run.on(times_s)
    bond_C, sensors_C = on.at(ground.read(bond)), on.at(ground.read(sensors))
    metal_C = on.at(ground.read(metal or bond)).max(axis=2)
    members = [
        Member(under, sensors_C[:, n], bond_C[:, n].min(axis=1), bond_C[:, n].max(axis=1), metal_C[:, n])
        for n, under in enumerate(kin.under)
    ]
    rows = tuple(tuple(members[n : n + size]) for n in range(0, len(members), size))
    contact, loss = factors(zone.contact_band, size), factors(zone.loss_band, size)
    return Family(contact, loss, times_s, rows, _liftings(ground))


def sensor_places(zone: Zone) -> tuple[Place, ...]:
    return tuple(Place(sensor.layer, sensor.x_m, sensor.y_m) for sensor in zone.sensors)


def _liftings(ground: Ground) -> tuple[Lifting, ...]:
    """Each pad loses nine tenths of its contact a third of the way through; how the sensors part from then
    on.
    """
    zone = ground.zone
    pads = [pad.id for pad in liftable(zone)]
    if not pads:
        return ()
    row = int(np.argmin(np.abs(ground.nominal.times_s - zone.duration_s * LIFT_AT_SHARE)))
    lifted = [Conditions(pad_contact=((pad, LIFTED_CONTACT),)) for pad in pads]
    kin = Kin(ground, (Conditions(), *lifted))
    start = np.tile(ground.amounts_of(ground.nominal.node_C[row]), (len(kin.under), 1))
    run = kin.run((), 0.0, LIFT_LOOK_S, start)
    clock_s = np.arange(0, LIFT_LOOK_S - LIFT_EVERY_S, LIFT_EVERY_S)
    read_C = run.on(clock_s).at(ground.read(sensor_places(zone)))
    return tuple(Lifting(pad, read_C[:, 0] - read_C[:, n + 1]) for n, pad in enumerate(pads))


def workable_band(family: Family, workable_C: float) -> tuple[float, float]:
    """Earliest and latest workable time over the family, s; infinity where a member never is."""
    times = [reached_s(family.times_s, m.coldest_C, workable_C) for row in family.members for m in row]
    return min(times), max(times)
