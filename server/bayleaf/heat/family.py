"""The family of runs over contact and loss: the plan's bands, and the curves that a phone picks from."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.bondline import reached_s
from bayleaf.heat.layout import Layout, layout_of
from bayleaf.heat.mesh import Grading, mesh_of
from bayleaf.heat.places import Place, histories, places_of
from bayleaf.heat.probes import at_times
from bayleaf.heat.run import Run, simulate
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.zone import Conditions, Zone

Floats = NDArray[np.float64]
COARSE = Grading(0.007, 0.080, 2.0, 0.016)
ROUGH = Accuracy(0.3, 128.0)
LIFTED_CONTACT = 0.1
LIFT_LOOK_S = 1200.0
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


def family_of(zone: Zone, size: int = 5, tick: Callable[[float], None] | None = None) -> Family:
    """Every member heated to the end of the zone's duration on a coarse mesh, without a release.

    A slow member needs the pads longer than the plan's release begins: when it is workable is asked of
    heating alone. `tick` is told the share done, and may raise to cancel.
    """
    layout = layout_of(zone, mesh_of(zone, COARSE))
    times_s = np.linspace(0.0, zone.duration_s, math.ceil(zone.duration_s / CLOCK_S) + 1)
    contact, loss = factors(zone.contact_band, size), factors(zone.loss_band, size)
    rows = []
    for number, c in enumerate(contact):
        rows.append(tuple(_member(zone, layout, Conditions(c, f), times_s) for f in loss))
        if tick:
            tick((number + 1) / len(contact))
    pads = [pad.id for pad in zone.pads if pad.contact_W_m2K and zone.sensors]
    return Family(contact, loss, times_s, tuple(rows), _liftings(zone, layout, pads))


def _sensors(zone: Zone) -> tuple[Place, ...]:
    return tuple(Place(sensor.layer, sensor.x_m, sensor.y_m) for sensor in zone.sensors)


def _member(zone: Zone, layout: Layout, under: Conditions, times_s: Floats) -> Member:
    run = simulate(zone, layout, under, acts=zone.acts, accuracy=ROUGH)
    bond = _curves(run, places_of(zone, zone.layer(zone.bondline)), times_s)
    metal = tuple(p for layer in zone.layers if layer.role == "metal" for p in places_of(zone, layer))
    metal_C = _curves(run, metal, times_s).max(axis=1) if metal else bond.max(axis=1)
    return Member(under, _curves(run, _sensors(zone), times_s), bond.min(axis=1), bond.max(axis=1), metal_C)


def _curves(run: Run, places: tuple[Place, ...], times_s: Floats) -> Floats:
    if not places:
        return np.zeros((len(times_s), 0))
    return at_times(run, histories(run, places), times_s)


def _liftings(zone: Zone, layout: Layout, pads: list[str]) -> tuple[Lifting, ...]:
    """Each pad loses nine tenths of its contact a third of the way through; how the sensors part from then
    on.
    """
    begins_s = zone.duration_s * LIFT_AT_SHARE
    healthy = simulate(zone, layout, until_s=begins_s + LIFT_LOOK_S, accuracy=ROUGH)
    row = int(np.argmin(np.abs(healthy.times_s - begins_s)))
    at_s, node_C = float(healthy.times_s[row]), healthy.node_C[row]
    clock = at_s + np.arange(0, LIFT_LOOK_S - LIFT_EVERY_S, LIFT_EVERY_S)
    usual = _curves(healthy, _sensors(zone), clock)
    found = []
    for pad in pads:
        under = Conditions(pad_contact=((pad, LIFTED_CONTACT),))
        until_s = at_s + LIFT_LOOK_S
        run = simulate(zone, layout, under, until_s=until_s, start=(at_s, node_C), accuracy=ROUGH)
        found.append(Lifting(pad, usual - _curves(run, _sensors(zone), clock)))
    return tuple(found)


def workable_band(family: Family, workable_C: float) -> tuple[float, float]:
    """Earliest and latest workable time over the family, s; infinity where a member never is."""
    times = [reached_s(family.times_s, m.coldest_C, workable_C) for row in family.members for m in row]
    return min(times), max(times)


def peaks(family: Family, zone: Zone) -> list[tuple[float, float]]:
    """(hottest bondline, hottest metal) of every member until it is workable, soaked and wedged."""
    found = []
    for member in (m for row in family.members for m in row):
        soft_s = reached_s(family.times_s, member.coldest_C, zone.workable_C)
        kept = family.times_s <= soft_s + zone.soak_s + zone.wedging_s + CLOCK_S
        found.append((float(member.hottest_C[kept].max()), float(member.metal_C[kept].max())))
    return found
