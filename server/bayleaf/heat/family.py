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
from bayleaf.heat.run import Accuracy, Run, simulate
from bayleaf.heat.zone import Conditions, PadAct, Zone

Floats = NDArray[np.float64]
COARSE = Grading(0.010, 0.070, 2.0)
ROUGH = Accuracy(0.3, 128.0)
LIFTED_CONTACT = 0.1
LIFT_LOOK_S = 1200.0
LIFT_EVERY_S = 60.0


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


def clock_of(zone: Zone, acts: tuple[PadAct, ...], end_s: float) -> Floats:
    """Every 30 s until the last act, every 2 min after: the release moves fast, the cool-down does not."""
    last_s = max((act.at_s for act in acts), default=end_s)
    first = np.arange(0.0, min(last_s + 300.0, end_s), 30.0)
    rest = np.arange(first[-1] + 30.0, end_s, 120.0)
    return np.concatenate([first, rest, [end_s]])


def family_of(
    zone: Zone,
    acts: tuple[PadAct, ...],
    end_s: float,
    size: int = 5,
    tick: Callable[[float], None] | None = None,
) -> Family:
    """Runs every member under the plan's acts on a coarse mesh; `tick` is told the share done, may raise."""
    layout, times_s = layout_of(zone, mesh_of(zone, COARSE)), clock_of(zone, acts, end_s)
    contact, loss = factors(zone.contact_band, size), factors(zone.loss_band, size)
    rows = []
    for number, c in enumerate(contact):
        rows.append(tuple(_member(zone, layout, Conditions(c, f), acts, times_s) for f in loss))
        if tick:
            tick((number + 1) / len(contact))
    lifting = tuple(_lifting(zone, layout, pad.id, acts) for pad in zone.pads if pad.contact_W_m2K)
    return Family(contact, loss, times_s, tuple(rows), lifting)


def _sensors(zone: Zone) -> tuple[Place, ...]:
    return tuple(Place(sensor.layer, sensor.x_m, sensor.y_m) for sensor in zone.sensors)


def _member(
    zone: Zone, layout: Layout, under: Conditions, acts: tuple[PadAct, ...], times_s: Floats
) -> Member:
    run = simulate(zone, layout, under, acts=acts, until_s=float(times_s[-1]), accuracy=ROUGH)
    bond = _curves(run, places_of(zone, zone.layer(zone.bondline)), times_s)
    metal = tuple(p for layer in zone.layers if layer.role == "metal" for p in places_of(zone, layer))
    metal_C = _curves(run, metal, times_s).max(axis=1) if metal else bond.max(axis=1)
    return Member(under, _curves(run, _sensors(zone), times_s), bond.min(axis=1), bond.max(axis=1), metal_C)


def _curves(run: Run, places: tuple[Place, ...], times_s: Floats) -> Floats:
    if not places:
        return np.zeros((len(times_s), 0))
    return at_times(run, histories(run, places), times_s)


def _lifting(zone: Zone, layout: Layout, pad: str, acts: tuple[PadAct, ...]) -> Lifting:
    """The pad loses nine tenths of its contact half way to the first act; how the sensors part from then on."""
    begins_s = 0.5 * min((act.at_s for act in acts), default=zone.duration_s)
    healthy = simulate(zone, layout, until_s=begins_s + LIFT_LOOK_S, accuracy=ROUGH)
    row = int(np.argmin(np.abs(healthy.times_s - begins_s)))
    at_s, node_C = float(healthy.times_s[row]), healthy.node_C[row]
    lifted = Conditions(pad_contact=((pad, LIFTED_CONTACT),))
    both = [
        simulate(zone, layout, under, until_s=at_s + LIFT_LOOK_S, start=(at_s, node_C), accuracy=ROUGH)
        for under in (Conditions(), lifted)
    ]
    clock = at_s + np.arange(0, LIFT_LOOK_S + 1, LIFT_EVERY_S)
    curves = [_curves(run, _sensors(zone), clock) for run in both]
    return Lifting(pad, curves[0] - curves[1])


def workable_band(family: Family, workable_C: float) -> tuple[float, float]:
    """Earliest and latest workable time over the family, s; infinity where a member never is."""
    times = [reached_s(family.times_s, m.coldest_C, workable_C) for row in family.members for m in row]
    return min(times, default=math.inf), max(times, default=math.inf)
