"""A whole pattern of rivets: neighbours and edges, checked again after one hole went up a size.

Between neighbours of different diameter the larger sets the minimum (common practice, no source: AC 43.13-1B
speaks of one diameter). Model "pattern-1".
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from bayleaf.fastening.edges import Distance, Point, against_minimum, to_polyline_mm
from bayleaf.fastening.lengths import hundredths

MODEL: Final = "pattern-1"


@dataclass(frozen=True, slots=True)
class Position:
    """A numbered position: centre in mm, and the nominal diameter of its rivet."""

    name: str
    centre_mm: Point
    diameter_mm: float


@dataclass(frozen=True, slots=True)
class TooClose:
    """One fault of a pattern: a pair of positions, or a position and the edge (second is "edge")."""

    first: str
    second: str
    distance: Distance


def pitch_of_pair(first_mm: float, second_mm: float, pitch_mm: float, minimum_diameters: float) -> Distance:
    """Pitch between two rivets, of which the larger diameter sets the minimum; mm."""
    return against_minimum(pitch_mm, max(first_mm, second_mm), minimum_diameters)


def nearest(added_mm: Point, positions_mm: Mapping[str, Point]) -> tuple[list[str], float]:
    """The nearest neighbours of an added position (all that are equally near), and their distance, mm."""
    far = {name: math.dist(added_mm, at) for name, at in positions_mm.items()}
    least = min(far.values())
    return [name for name, mm in far.items() if hundredths(mm) == hundredths(least)], least


def pattern_faults(
    positions: Sequence[Position],
    edge: Sequence[Point],
    edge_diameters: float,
    pitch_diameters: float,
) -> list[TooClose]:
    """Every pair that is too close and every position too near the edge, in the order of the positions."""
    faults: list[TooClose] = []
    for place, one in enumerate(positions):
        if edge:
            found = to_polyline_mm(one.centre_mm, edge)
            to_edge = against_minimum(found, one.diameter_mm, edge_diameters)
            faults += [] if to_edge.good else [TooClose(one.name, "edge", to_edge)]
        faults += _too_close_to(one, positions[place + 1 :], pitch_diameters)
    return faults


def _too_close_to(one: Position, others: Sequence[Position], pitch_diameters: float) -> list[TooClose]:
    pairs = [
        (other, pitch_of_pair(one.diameter_mm, other.diameter_mm, pitch, pitch_diameters))
        for other in others
        for pitch in (math.dist(one.centre_mm, other.centre_mm),)
    ]
    return [TooClose(one.name, other.name, pitch) for other, pitch in pairs if not pitch.good]
