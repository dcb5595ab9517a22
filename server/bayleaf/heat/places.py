"""Fixed places where extremes are looked for: a lattice on each layer that does not move with the mesh."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy import sparse

from bayleaf.heat.layout import Layout
from bayleaf.heat.probes import mean_weights
from bayleaf.heat.run import Run
from bayleaf.heat.zone import Box, Layer, Zone

Floats = NDArray[np.float64]
INSET_M = 0.0025
ALONG_M = 0.010
ACROSS_M = 0.020
WIDE_M = 0.040
KEPT_SAMPLERS = 24


@dataclass(frozen=True)
class Place:
    """A place of one layer, m."""

    layer: str
    x_m: float
    y_m: float

    def distance_m(self, x_m: float, y_m: float) -> float:
        return float(np.hypot(self.x_m - x_m, self.y_m - y_m))


def places_of(zone: Zone, layer: Layer) -> tuple[Place, ...]:
    """The layer's lattice: every 10 mm along a narrow layer, 40 mm on a wide one, and 2.5 mm inside its
    edges.

    Pads' middles and edges are on it, so that hot spots under them are met.
    """
    return _lattice(layer.id, tuple(layer.covers), tuple(pad.box for pad in zone.pads))


@lru_cache(maxsize=KEPT_SAMPLERS)
def _lattice(layer_id: str, covers: tuple[Box, ...], pads: tuple[Box, ...]) -> tuple[Place, ...]:
    found: dict[tuple[float, float], Place] = {}
    for box in covers:
        narrow = min(box.x1 - box.x0, box.y1 - box.y0) <= 2 * WIDE_M
        xs = _line(box.x0, box.x1, ALONG_M if narrow else WIDE_M, pads, 0)
        ys = _line(box.y0, box.y1, ACROSS_M if narrow else WIDE_M, pads, 1)
        for x in xs:
            for y in ys:
                found[round(x, 6), round(y, 6)] = Place(layer_id, x, y)
    return tuple(found.values())


def _line(low: float, high: float, every: float, pads: tuple[Box, ...], axis: int) -> list[float]:
    """Evenly spaced from edge to edge, with the pads' ends (just inside) and middles; symmetric if the zone
    is.
    """
    inset = min(INSET_M, (high - low) / 4)
    count = max(2, round((high - low - 2 * inset) / every) + 1)
    spots = set(np.linspace(low + inset, high - inset, count).round(6).tolist())
    for pad in pads:
        start, end = (pad.x0, pad.x1) if axis == 0 else (pad.y0, pad.y1)
        spots |= {round(at, 6) for at in (start + inset, (start + end) / 2, end - inset) if low < at < high}
    return sorted(spots)


@lru_cache(maxsize=KEPT_SAMPLERS)
def sampler(layout: Layout, places: tuple[Place, ...]) -> sparse.csr_array:
    """Matrix that takes node temperatures to mean layer temperatures at places, shape (places, nodes)."""
    rows, columns, shares = [], [], []
    for row, place in enumerate(places):
        for node, share in mean_weights(layout, place.layer, place.x_m, place.y_m):
            rows.append(row)
            columns.append(node)
            shares.append(share)
    return sparse.csr_array((shares, (rows, columns)), shape=(len(places), layout.count))


def histories(run: Run, places: tuple[Place, ...]) -> Floats:
    """Temperatures at places at the run's own times, shape (times, places)."""
    return np.asarray(sampler(run.layout, places) @ run.node_C.T).T
