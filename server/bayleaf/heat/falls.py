"""How a heated zone falls when one pad loses power or contact, to first order: examples for the shapes."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.factors import solver_of
from bayleaf.heat.system import System

Floats = NDArray[np.float64]
POWER_STEPS_S = ((15.0, 4), (60.0, 4), (240.0, 6))  # so long each, so often
LIFT_STEPS_S = ((120.0, 10),)
LIFT_LOOK_S = 1200.0


def power_falls(system: System, around_C: Floats) -> Floats:
    """Change of every node after each pad alone loses 1 W/m2; shape (times, nodes, pads)."""
    return _falls(system, around_C, -system.heating.toarray(), POWER_STEPS_S)


def contact_falls(system: System, before: System, around_C: Floats) -> Floats:
    """Change of every node after the contacts `before` became those of `system`; shape (times, nodes)."""
    given_W = (before.conduction - system.conduction) @ around_C
    return _falls(system, around_C, given_W, LIFT_STEPS_S)


def _falls(
    system: System, around_C: Floats, given_W: Floats, steps_s: tuple[tuple[float, int], ...]
) -> Floats:
    """Implicit Euler on the equations made linear around a state, under a heat flow from now on."""
    capacity_J_K = system.capacity_at(around_C).reshape(-1, *[1] * (given_W.ndim - 1))
    changes = [np.zeros_like(given_W)]
    for step_s, times in steps_s:
        solver = solver_of(system, step_s, around_C)
        for _ in range(times):
            changes.append(solver.solve(capacity_J_K * changes[-1] + step_s * given_W))
    return np.array(changes[1:])
