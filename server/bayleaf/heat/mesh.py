"""The plane grid of a zone: lines on every edge of pads, layers, profile; fine there, coarser between."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.zone import Box, Edge, Zone

Floats = NDArray[np.float64]
SAME_M = 1e-9


@dataclass(frozen=True)
class Grading:
    """Cell size at an edge, largest cell, and growth from one cell to the next."""

    edge_m: float = 0.004
    largest_m: float = 0.050
    growth: float = 1.6
    along_edge_m: float | None = 0.007  # along the joint, where gradients are gentler; as across if left out


STANDARD = Grading()
QUICK = Grading(0.006, 0.060, 1.8, 0.012)


@dataclass(frozen=True)
class Mesh:
    """Grid lines in m; the zone itself starts at 0, edges that run on reach below 0 and beyond its size."""

    x_lines: Floats
    y_lines: Floats

    @property
    def dx(self) -> Floats:
        return np.diff(self.x_lines)

    @property
    def dy(self) -> Floats:
        return np.diff(self.y_lines)

    @property
    def x(self) -> Floats:
        return (self.x_lines[1:] + self.x_lines[:-1]) / 2

    @property
    def y(self) -> Floats:
        return (self.y_lines[1:] + self.y_lines[:-1]) / 2

    @property
    def shape(self) -> tuple[int, int]:
        return len(self.x_lines) - 1, len(self.y_lines) - 1

    def inside(self, box: Box) -> NDArray[np.bool_]:
        """Which cells have their centre in the box, shape (nx, ny)."""
        along = (self.x > box.x0) & (self.x < box.x1)
        across = (self.y > box.y0) & (self.y < box.y1)
        return along[:, None] & across[None, :]


def mesh_of(zone: Zone, grading: Grading = STANDARD) -> Mesh:
    """The zone's grid: even if the zone asks for a cell size, graded otherwise."""
    boxes = [pad.box for pad in zone.pads] + [box for layer in zone.layers for box in layer.covers]
    boxes += [zone.profile.box] if zone.profile else []
    low, high = zone.edges.get("x_low", Edge()), zone.edges.get("x_high", Edge())
    x_stops = _stops(zone.size_m[0], [(b.x0, b.x1) for b in boxes], (low.runs_on_m, high.runs_on_m))
    low, high = zone.edges.get("y_low", Edge()), zone.edges.get("y_high", Edge())
    y_stops = _stops(zone.size_m[1], [(b.y0, b.y1) for b in boxes], (low.runs_on_m, high.runs_on_m))
    cells = zone.cells_m
    along = replace(grading, edge_m=grading.along_edge_m or grading.edge_m)
    return Mesh(
        _lines(x_stops, along, None if cells is None else cells[0]),
        _lines(y_stops, grading, None if cells is None else cells[1]),
    )


def _stops(size_m: float, spans: list[tuple[float, float]], beyond_m: tuple[float, float]) -> list[float]:
    wanted = sorted(
        {0.0, size_m, -beyond_m[0], size_m + beyond_m[1], *(end for span in spans for end in span)}
    )
    stops = [wanted[0]]
    for stop in wanted[1:]:
        if stop - stops[-1] > SAME_M:
            stops.append(stop)
    return stops


def _lines(stops: list[float], grading: Grading, cell_m: float | None) -> Floats:
    parts = [np.array(stops[:1])]
    for start, end in pairwise(stops):
        sizes = _even(end - start, cell_m) if cell_m else _graded(end - start, grading)
        parts.append(start + np.cumsum(sizes))
        parts[-1][-1] = end
    return np.concatenate(parts)


def _even(length_m: float, cell_m: float) -> Floats:
    count = max(1, round(length_m / cell_m))
    return np.full(count, length_m / count)


def _graded(length_m: float, grading: Grading) -> Floats:
    """Cell sizes that start at the edge size on both ends and grow towards the middle, filling the length."""
    if length_m <= 2 * grading.edge_m:
        return _even(length_m, min(grading.edge_m, length_m / 2))
    half, size = [grading.edge_m], grading.edge_m
    while 2 * sum(half) < length_m:
        size = min(size * grading.growth, grading.largest_m)
        half.append(size)
    sizes = np.array(half + half[::-1])
    if len(half) > 1 and 2 * sum(half) - length_m > half[-1]:
        sizes = np.array(half + half[-2::-1])
    return np.asarray(sizes * (length_m / sizes.sum()))
