"""Neighbours of a heat zone against their limits, and how far away each would pass."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from bayleaf.heat.bands import Course, peaks_C
from bayleaf.heat.places import Place, histories
from bayleaf.heat.probes import mean_weights
from bayleaf.heat.run import Run
from bayleaf.heat.zone import Neighbour, Zone

RING_M = 0.005
FARTHEST_M = 0.4
DIRECTIONS = 16


@dataclass(frozen=True)
class NeighbourAnswer:
    """Peak at a neighbour, nominal and on the hot side of the band, against its limit."""

    neighbour: Neighbour
    peak_C: float
    hot_peak_C: float
    passes: bool  # on the hot side too
    away_m: float  # how much farther away it would pass; 0 if it passes, infinity if not within 400 mm


def neighbour_answers(zone: Zone, nominal: Run, courses: tuple[Course, ...]) -> tuple[NeighbourAnswer, ...]:
    """`courses`: the members of the band."""
    return tuple(_answer(one, nominal, courses) for one in zone.neighbours)


def _answer(one: Neighbour, nominal: Run, courses: tuple[Course, ...]) -> NeighbourAnswer:
    here = (Place(one.layer, one.x_m, one.y_m),)
    peak_C = float(histories(nominal, here).max())
    hottest = max(courses, key=lambda course: float(peaks_C(course, here)[0]))
    hot_C = max(peak_C, float(peaks_C(hottest, here)[0]))
    passes = hot_C <= one.limit_C
    return NeighbourAnswer(one, peak_C, hot_C, passes, 0.0 if passes else _passing_m(one, nominal, hottest))


def _passing_m(one: Neighbour, run: Run, hottest: Course) -> float:
    """Distance to the nearest place of the same layer that stays within the limit on the hot side."""
    rings = np.arange(RING_M, FARTHEST_M + RING_M / 2, RING_M)
    turns = np.arange(DIRECTIONS) * 2 * math.pi / DIRECTIONS
    around = [
        (float(r), Place(one.layer, one.x_m + float(r * np.cos(a)), one.y_m + float(r * np.sin(a))))
        for r in rings
        for a in turns
    ]
    there = [(r, place) for r, place in around if _lies(run, place)]
    if not there:
        return math.inf
    places = tuple(place for _, place in there)
    peaks = np.maximum(histories(run, places).max(axis=0), peaks_C(hottest, places))
    passing = [r for (r, _), peak in zip(there, peaks, strict=True) if peak <= one.limit_C]
    return min(passing, default=math.inf)


def _lies(run: Run, place: Place) -> bool:
    mesh = run.layout.mesh
    inside = (
        mesh.x_lines[0] <= place.x_m <= mesh.x_lines[-1] and mesh.y_lines[0] <= place.y_m <= mesh.y_lines[-1]
    )
    return inside and bool(mean_weights(run.layout, place.layer, place.x_m, place.y_m))
