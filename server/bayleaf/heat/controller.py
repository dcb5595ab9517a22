"""Pads' powers inside a time step: each holds its sensor at the setpoint, within nothing and its limit."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
ROUNDS = 200
ENOUGH = 1e-10


def powers(felt_C: Floats, felt_K: Floats, setpoint_C: Floats, limit_W_m2: Floats) -> Floats:
    """Powers p in W/m2 with felt_C + felt_K p = setpoint where 0 < p < limit; clipped to the ends otherwise.

    felt_C: temperature of each pad's sensor at no power; felt_K: its rise per W/m2 of each pad, shape
    (pads, pads), with a dominant diagonal. A linear complementarity problem with bounds, solved by projected
    Gauss-Seidel: Cottle, Pang, Stone, The Linear Complementarity Problem (1992), ch. 5.
    """
    power = np.where(np.isinf(setpoint_C), limit_W_m2, 0.0)
    controlled = np.flatnonzero(~np.isinf(setpoint_C))
    if not len(controlled):
        return power
    power[controlled] = limit_W_m2[controlled]
    if np.all((felt_C + felt_K @ power)[controlled] <= setpoint_C[controlled]):
        return power
    for _ in range(ROUNDS):
        moved = 0.0
        for pad in controlled:
            short_K = setpoint_C[pad] - felt_C[pad] - felt_K[pad] @ power
            wanted = min(max(power[pad] + short_K / felt_K[pad, pad], 0.0), limit_W_m2[pad])
            moved = max(moved, abs(wanted - power[pad]))
            power[pad] = wanted
        if moved <= ENOUGH * max(float(limit_W_m2.max()), 1.0):
            break
    return power
