"""How a heated zone falls when one pad loses power or contact, to first order: one factorisation each."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.assembly import system_of
from bayleaf.heat.factors import factorise
from bayleaf.heat.layout import Layout
from bayleaf.heat.zone import NOMINAL, Conditions, Zone

Floats = NDArray[np.float64]
CLOCK_S = 15.0
LOOK_S = 1800.0
LIFT_CLOCK_S = 60.0
LIFT_LOOK_S = 1200.0


def power_falls(zone: Zone, layout: Layout, around_C: Floats) -> Floats:
    """Change of every node every 15 s after each pad alone loses 1 W/m2; shape (times, nodes, pads).

    Implicit Euler on the equations made linear around a state.
    """
    system = system_of(zone, layout, NOMINAL)
    factor = factorise(system, CLOCK_S, around_C)
    capacity = system.capacity_at(around_C)[:, None]
    changes = [np.zeros((layout.count, len(zone.pads)))]
    for _ in range(round(LOOK_S / CLOCK_S)):
        changes.append(factor.solve(capacity * changes[-1]) - factor.pad_K)
    return np.array(changes)


def contact_fall(zone: Zone, layout: Layout, around_C: Floats, pad_id: str, contact: float) -> Floats:
    """Change of every node every minute after one pad's contact falls to a share; (times, nodes)."""
    under = Conditions(pad_contact=((pad_id, contact),))
    system = system_of(zone, layout, under)
    lost_W = (system.conduction - system_of(zone, layout, NOMINAL).conduction) @ around_C
    factor = factorise(system, LIFT_CLOCK_S, around_C)
    capacity = system.capacity_at(around_C)
    changes = [np.zeros(layout.count)]
    for _ in range(round(LIFT_LOOK_S / LIFT_CLOCK_S)):
        changes.append(factor.solve(capacity * changes[-1] - LIFT_CLOCK_S * lost_W))
    return np.array(changes)
