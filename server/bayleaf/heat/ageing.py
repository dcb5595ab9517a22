"""Time at temperature: the ageing of a heated layer as time at one reference temperature, and minutes above
a limit.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.faces import KELVIN

Floats = NDArray[np.float64]
GAS_CONSTANT_J_MOLK = 8.314462618  # CODATA 2018


def equivalent_s(
    times_s: Sequence[float] | Floats, T_C: Sequence[float] | Floats, energy_J_mol: float, reference_C: float
) -> float:
    """Time at reference_C that ages as much: integral of exp(-E/R (1/T - 1/Tref)) dt by the trapezoidal rule.

    Arrhenius time-temperature equivalence. Give temperatures every 10 s or finer; on 30 s it reads up to 1
    % high.
    """
    kelvin = np.asarray(T_C) + KELVIN
    rate = np.exp(-energy_J_mol / GAS_CONSTANT_J_MOLK * (1 / kelvin - 1 / (reference_C + KELVIN)))
    return float(np.trapezoid(rate, np.asarray(times_s)))


def above_s(times_s: Floats, T_C: Floats, limit_C: float) -> Floats:
    """Seconds spent above a limit, straight between readings; T_C shape (times,) or (times, places)."""
    over = np.asarray(T_C) - limit_C
    first, second = over[:-1], over[1:]
    gap = np.diff(times_s).reshape(-1, *[1] * (over.ndim - 1))
    spread = np.abs(first) + np.abs(second)
    share = np.where(
        spread > 0, (np.maximum(first, 0) + np.maximum(second, 0)) / np.where(spread > 0, spread, 1), 0
    )
    both, none = (first > 0) & (second > 0), (first <= 0) & (second <= 0)
    return np.asarray((gap * np.where(both, 1.0, np.where(none, 0.0, share))).sum(axis=0))
