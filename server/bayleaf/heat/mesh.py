"""The plane grid of a zone: lines on every edge of pads, layers, profile; fine there, coarser between."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import astuple, dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.zone import Box, Edge, Side, Zone

Floats = NDArray[np.float64]
SAME_M = 1e-9
FINENESS = 401
Stop = tuple[float, bool]  # place; whether a layer ends there


@dataclass(frozen=True)
class Grading:
    """Cell sizes at the ends of layers and of pads, by how much they grow with distance, and the largest.

    A laminate under an adhesive forgets the adhesive's end within some 9 mm, sqrt(k t / U); the metal under a
    pad forgets the pad's end within some 60 mm: the one needs finer cells than the other.
    """

    layer_end_m: float = 0.0025
    layer_growth: float = 0.28  # of the distance
    pad_end_m: float = 0.016
    pad_growth: float = 0.7
    largest_m: float = 0.050
    largest_share: float = 0.34  # of a stretch between two ends

    def finer(self, times: float) -> Grading:
        """Every cell cut into so many along and across."""
        return Grading(*(size / times for size in astuple(self)))


STANDARD = Grading()
QUICK = Grading(0.004, 0.4, 0.016, 0.8, 0.060)


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
    cells = (None, None) if zone.cells_m is None else zone.cells_m
    along = _stops(zone, ("x_low", "x_high"), zone.size_m[0], lambda box: (box.x0, box.x1))
    across = _stops(zone, ("y_low", "y_high"), zone.size_m[1], lambda box: (box.y0, box.y1))
    return Mesh(_lines(along, grading, cells[0]), _lines(across, grading, cells[1]))


def _stops(
    zone: Zone, sides: tuple[Side, Side], size_m: float, ends: Callable[[Box], tuple[float, float]]
) -> list[Stop]:
    """Where a line must lie; the ends of layers behind the heated one are told apart."""
    low, high = (zone.edges.get(side, Edge()).runs_on_m for side in sides)
    boxes = [pad.box for pad in zone.pads] + ([zone.profile.box] if zone.profile else [])
    boxes += zone.layers[0].covers
    gentle = {0.0, size_m, -low, size_m + high, *(end for box in boxes for end in ends(box))}
    steep = {end for layer in zone.layers[1:] for box in layer.covers for end in ends(box)}
    wanted = sorted([(at_m, False) for at_m in gentle] + [(at_m, True) for at_m in steep])
    stops = wanted[:1]
    for at_m, is_steep in wanted[1:]:
        if at_m - stops[-1][0] > SAME_M:
            stops.append((at_m, is_steep))
        else:
            stops[-1] = (stops[-1][0], stops[-1][1] or is_steep)
    return stops


def _lines(stops: list[Stop], grading: Grading, cell_m: float | None) -> Floats:
    parts = [np.array([stops[0][0]])]
    for (start, _), (end, _) in pairwise(stops):
        cells = _even(start, end, cell_m) if cell_m else _graded(start, end, stops, grading)
        parts.append(cells)
        parts[-1][-1] = end
    return np.asarray(np.concatenate(parts))


def _even(start: float, end: float, cell_m: float) -> Floats:
    count = max(1, round((end - start) / cell_m))
    return np.asarray(start + (end - start) / count * np.arange(1, count + 1), dtype=np.float64)


def _graded(start: float, end: float, stops: list[Stop], grading: Grading) -> Floats:
    """Ends of cells whose sizes grow with the distance from every stop, scaled to fill the stretch."""
    at_m = np.linspace(start, end, FINENESS)
    size_m = np.full(FINENESS, min(grading.largest_m, grading.largest_share * (end - start)))
    for stop_m, is_steep in stops:
        first_m, growth = (
            (grading.layer_end_m, grading.layer_growth)
            if is_steep
            else (grading.pad_end_m, grading.pad_growth)
        )
        size_m = np.minimum(size_m, first_m + growth * np.abs(at_m - stop_m))
    passed = np.concatenate([[0.0], np.cumsum(np.diff(at_m) * (1 / size_m[1:] + 1 / size_m[:-1]) / 2)])
    count = max(1, round(passed[-1]))
    return np.asarray(np.interp(np.arange(1, count + 1) * (passed[-1] / count), passed, at_m))
