"""What a family of runs rests on: three full runs, how the zone falls, and the shapes they are made of."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.assembly import system_of
from bayleaf.heat.falls import contact_falls, power_falls
from bayleaf.heat.layout import Layout
from bayleaf.heat.modes import Modes, modes_of
from bayleaf.heat.places import Place, sampler
from bayleaf.heat.reduced import Base, Reduced, base_of
from bayleaf.heat.reduced_run import FamilyRun, Stretch, run_family
from bayleaf.heat.run import Run, lifted_by, limits_W_m2, simulate
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.system import System
from bayleaf.heat.zone import NOMINAL, Conditions, Pad, PadAct, Zone

Floats = NDArray[np.float64]
LIFTED_CONTACT = 0.1
CORNERS = Accuracy(1.0)  # their states only show how the zone may look
FIRST_STEP_S = 4.0
LONGEST_STEP_S = 64.0
STEP_GROWTH = 1.4


@dataclass(frozen=True)
class Ground:
    """The nominal run heated to its end, the shapes, and all the states that they were taken from."""

    zone: Zone
    layout: Layout
    nominal: Run
    modes: Modes
    states_C: Floats  # (nodes, states)
    hot_C: Floats  # at the end of heating
    _bases: dict[frozenset[str], Base] = field(default_factory=dict)

    def read(self, places: tuple[Place, ...]) -> Floats:
        """What takes the shapes' amounts to rises at places, (places, shapes)."""
        return np.asarray(sampler(self.layout, places) @ self.modes.shapes)

    def base(self, lifted: frozenset[str]) -> Base:
        """The equations on the shapes with these pads lifted."""
        if lifted not in self._bases:
            self._bases[lifted] = base_of(self.zone, self.layout, self.modes, self.states_C, lifted)
        return self._bases[lifted]

    def amounts_of(self, node_C: Floats) -> Floats:
        """The shapes' amounts of a full state."""
        capacity = self.nominal.systems[0].capacity_J_K
        return np.asarray(self.modes.shapes.T @ (capacity * (node_C - self.modes.ambient_C)))


def ground_of(
    zone: Zone, nominal: Run, heat_until_s: float, tick: Callable[[float], None] = lambda _share: None
) -> Ground:
    """From a nominal run under the zone's own acts; `tick` is told the share done and may raise to cancel."""
    layout = nominal.layout
    tick(0.0)
    (poor, good), (still, windy) = zone.contact_band, zone.loss_band
    corners = [
        simulate(zone, layout, Conditions(contact, loss), acts=zone.acts, accuracy=CORNERS).node_C
        for contact, loss in ((good, still), (poor, windy))
    ]
    tick(0.6)
    row = int(np.argmin(np.abs(nominal.times_s - heat_until_s)))
    hot_C = nominal.node_C[row]
    system = system_of(zone, layout, NOMINAL)
    fallen = power_falls(system, hot_C) * np.maximum(nominal.power_W_m2[row], 1.0)
    fallen = np.moveaxis(fallen, 1, 0).reshape(layout.count, -1)
    tick(0.8)
    lifts = [_lift_falls(zone, system, hot_C, pad) for pad in liftable(zone)]
    heated = np.concatenate([nominal.node_C, *corners]).T
    changes = np.concatenate([fallen, *lifts], axis=1)
    rises = np.concatenate([heated - zone.ambient_C, changes], axis=1)
    modes = modes_of(nominal.systems[0].capacity_J_K, rises, zone.ambient_C)
    states_C = np.concatenate([heated, hot_C[:, None] + changes], axis=1)
    tick(1.0)
    return Ground(zone, layout, nominal, modes, states_C, hot_C)


def _lift_falls(zone: Zone, before: System, hot_C: Floats, pad: Pad) -> Floats:
    """The zone's changes after a pad lost most of its contact, (nodes, times)."""
    lifted = system_of(zone, before.layout, Conditions(pad_contact=((pad.id, LIFTED_CONTACT),)))
    return contact_falls(lifted, before, hot_C).T


def liftable(zone: Zone) -> tuple[Pad, ...]:
    """The pads whose lifting a sensor may tell."""
    return tuple(pad for pad in zone.pads if pad.contact_W_m2K and zone.sensors)


@dataclass
class Kin:
    """The members of a family, with their equations for each set of pads lifted."""

    ground: Ground
    under: tuple[Conditions, ...]
    _reduced: dict[frozenset[str], Reduced] = field(default_factory=dict)

    def only(self, members: list[int]) -> Kin:
        """Some of the members."""
        known = {lifted: one.only(members) for lifted, one in self._reduced.items()}
        return Kin(self.ground, tuple(self.under[n] for n in members), known)

    def reduced(self, lifted: frozenset[str]) -> Reduced:
        """The equations with these pads lifted."""
        if lifted not in self._reduced:
            self._reduced[lifted] = self.ground.base(lifted).under(self.under)
        return self._reduced[lifted]

    def cold(self) -> Floats:
        """Amounts of every member at the zone's start."""
        zone, layout = self.ground.zone, self.ground.layout
        start = self.ground.amounts_of(np.full(layout.count, zone.start_C))
        return np.tile(start, (len(self.under), 1))

    def run(self, acts: tuple[PadAct, ...], start_s: float, end_s: float, amounts: Floats) -> FamilyRun:
        """All members under the same acts, from these amounts at start_s."""
        stops = sorted({start_s, end_s, *(act.at_s for act in acts if start_s < act.at_s < end_s)})
        stretches = []
        for begin_s, stop_s in pairwise(stops):
            done = [act for act in acts if act.at_s <= begin_s]
            limit = limits_W_m2(self.ground.zone, done)
            stretches.append(Stretch(self.reduced(lifted_by(done)), limit, easing_clock(begin_s, stop_s)))
        return run_family(stretches, amounts)


def easing_clock(begin_s: float, end_s: float) -> Floats:
    """Times from begin to end, close together after the begin, where much changes."""
    steps: list[float] = []
    length_s = FIRST_STEP_S
    while sum(steps) < end_s - begin_s:
        steps.append(length_s)
        length_s = min(STEP_GROWTH * length_s, LONGEST_STEP_S)
    clock = np.concatenate([[0.0], np.cumsum(steps)])
    return np.asarray(begin_s + clock * ((end_s - begin_s) / clock[-1]))
