"""When each metal face is safe to touch: burn thresholds of bare metal by contact time."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from bayleaf.heat.bondline import Curves

SOURCE = "ISO 13732-1, burn thresholds of uncoated metal; figures from memory, check against the standard"
BARE_METAL_C: tuple[tuple[str, float], ...] = (
    ("1 s", 65.0),
    ("1 min", 51.0),
    ("10 min", 48.0),
    ("8 h", 43.0),
)


@dataclass(frozen=True)
class TouchSafe:
    """From when on (s after switch-on) the hottest spot of a metal stays under a contact's threshold."""

    layer: str
    contact: str
    threshold_C: float
    from_s: float  # infinity: not within the time computed


def touch_safe(curves: Curves, layer: str) -> tuple[TouchSafe, ...]:
    return tuple(TouchSafe(layer, contact, limit, _from_s(curves, limit)) for contact, limit in BARE_METAL_C)


def _from_s(curves: Curves, limit_C: float) -> float:
    hot = np.flatnonzero(curves.hottest_C >= limit_C)
    if not len(hot):
        return 0.0
    after = int(hot[-1]) + 1
    return float(curves.times_s[after]) if after < len(curves.times_s) else math.inf
