"""The temperature field of a plan over time, on an even grid of whole numbers, for a picture that plays.

Form (JSON): `x_mm`, `y_mm`, the grid's places; `t_min`, the times of the frames, even to a
quarter of an hour after the last act; `layers`, heated side first,
each `{id, name, role, shown: rows of 0 and 1, frames}`. A frame is its places row by row from the lowest y,
in tenths of a degree, as differences against the frame before (the first: against 0); where a layer is not,
0. `lowest_dC` and `highest_dC` are over all layers and frames, so that one scale serves all.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.places import Place, histories
from bayleaf.heat.plan import Plan
from bayleaf.heat.probes import at_times
from bayleaf.heat.zone import Layer

Floats = NDArray[np.float64]
ALONG, ACROSS, FRAMES = 60, 24, 60
TENTHS = 10.0
COOLING_SHOWN_S = 900.0  # after the last act; the rest of the cool-down changes little in a picture


def field_of(plan: Plan) -> dict[str, Any]:
    """The document; under 300 KB gzipped for zones of ordinary size."""
    zone = plan.zone
    x_m, y_m = _middles(zone.size_m[0], ALONG), _middles(zone.size_m[1], ACROSS)
    shown_s = min(float(plan.run.times_s[-1]), plan.last_act_s + COOLING_SHOWN_S)
    times_s = np.linspace(0.0, shown_s, FRAMES)
    found = [_layer(plan, layer, (x_m, y_m), times_s) for layer in zone.layers]
    ends = [(low, high) for _, low, high in found]
    return {
        "x_mm": [round(1e3 * float(x), 1) for x in x_m],
        "y_mm": [round(1e3 * float(y), 1) for y in y_m],
        "t_min": [round(float(t) / 60, 2) for t in times_s],
        "layers": [layer for layer, _, _ in found],
        "lowest_dC": min(low for low, _ in ends),
        "highest_dC": max(high for _, high in ends),
    }


def _middles(length_m: float, count: int) -> Floats:
    return np.asarray((np.arange(count) + 0.5) * (length_m / count), dtype=np.float64)


def _layer(
    plan: Plan, layer: Layer, grid: tuple[Floats, Floats], times_s: Floats
) -> tuple[dict[str, Any], int, int]:
    """One layer, and its lowest and highest tenth."""
    x_m, y_m = grid
    at = [(float(x), float(y)) for y in y_m for x in x_m]
    shown = np.array([any(box.holds(x, y) for box in layer.covers) for x, y in at])
    places = tuple(Place(layer.id, x, y) for (x, y), here in zip(at, shown, strict=True) if here)
    whole = np.zeros((len(times_s), len(at)), dtype=np.int64)
    if places:
        whole[:, shown] = np.rint(TENTHS * at_times(plan.run, histories(plan.run, places), times_s))
    steps = np.diff(whole, axis=0, prepend=0)
    told = {
        "id": layer.id,
        "name": layer.name,
        "role": layer.role,
        "shown": [[int(one) for one in row] for row in shown.reshape(len(y_m), len(x_m))],
        "frames": [[int(one) for one in frame] for frame in steps],
    }
    seen = whole[:, shown] if places else whole
    return told, int(seen.min()), int(seen.max())
