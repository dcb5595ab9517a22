"""Edge distance and pitch: each layer by its own rule, and the worst layer counts.

Aluminium: at least 2 diameters to the edge and 3 between centres, single row (FAA AC 43.13-1B, 1998,
chapter 4 section 4, paragraph 4-57; written for solid rivets in metal sheet and read second-hand).
Carbon laminate: 3 to the edge and 4 to 5 between centres (composite aircraft practice, MIL-HDBK-17-3F,
from memory). The maker's figure overrides both. A value on the minimum is good. Model "edge-1".
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from bayleaf.fastening.lengths import hundredths, short_by_mm, times_mm
from bayleaf.fastening.refusal import Refused

MODEL: Final = "edge-1"
USUAL_WIDEST_PITCH: Final = 8.0
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class LayerRule:
    """What one material asks for, in rivet diameters, and who says so."""

    edge_diameters: float
    pitch_diameters: float
    source: str


RULES: Final[Mapping[str, LayerRule]] = {
    "aluminium": LayerRule(2.0, 3.0, "FAA AC 43.13-1B paragraph 4-57, for solid rivets in metal sheet"),
    "carbon laminate": LayerRule(3.0, 4.0, "composite aircraft practice, pitch 4 to 5; from memory"),
}


@dataclass(frozen=True, slots=True)
class Distance:
    """A measured distance against a minimum in diameters; mm."""

    found_mm: float
    minimum_mm: float
    ratio: float
    good: bool
    short_by_mm: float


@dataclass(frozen=True, slots=True)
class LayerDistance:
    """The same for one layer of a stack-up, with whose rule it was."""

    layer: str
    distance: Distance
    source: str


def against_minimum(found_mm: float, diameter_mm: float, minimum_diameters: float) -> Distance:
    """A distance from a hole's centre, to an edge or to a neighbour's centre, against its minimum."""
    minimum = times_mm(minimum_diameters, diameter_mm)
    missing = short_by_mm(found_mm, minimum)
    return Distance(found_mm, minimum, found_mm / diameter_mm, missing == 0, missing)


def is_wider_than_usual(pitch_mm: float, diameter_mm: float, usual_diameters: float) -> bool:
    """Pitch over the usual span.

    A remark, not a fault (US Navy NAVEDTRA 14018: seldom over 8 diameters).
    """
    return hundredths(pitch_mm) > hundredths(times_mm(usual_diameters, diameter_mm))


def rule_for(material: str, maker: LayerRule | None = None, field: str = "material") -> LayerRule:
    """The maker's rule, else the default of the material; Refused at the field where there is neither."""
    if maker is not None:
        return maker
    if material not in RULES:
        allowed = f"one of {', '.join(sorted(RULES))}, or a material with the maker's figure"
        raise Refused(field, material, allowed)
    return RULES[material]


def worst(distances: Sequence[LayerDistance]) -> LayerDistance:
    """The layer that is shortest of its minimum; with none short, the one with the least room left."""
    return min(distances, key=lambda one: one.distance.found_mm - one.distance.minimum_mm)


def edge_by_layer(
    edges_mm: Mapping[str, float], diameter_mm: float, rules: Mapping[str, LayerRule]
) -> list[LayerDistance]:
    """Each layer's own edge distance (layers seldom end together) against its own rule."""
    return [
        LayerDistance(
            layer, against_minimum(mm, diameter_mm, rules[layer].edge_diameters), rules[layer].source
        )
        for layer, mm in edges_mm.items()
    ]


def pitch_by_layer(
    pitch_mm: float, diameter_mm: float, rules: Mapping[str, LayerRule]
) -> list[LayerDistance]:
    """The one pitch against each layer's rule."""
    return [
        LayerDistance(layer, against_minimum(pitch_mm, diameter_mm, rule.pitch_diameters), rule.source)
        for layer, rule in rules.items()
    ]


def to_polyline_mm(position: Point, edge: Sequence[Point]) -> float:
    """Distance to the nearest stretch of an edge, not to its nearest corner, mm."""
    if len(edge) == 1:
        return math.dist(position, edge[0])
    return min(_to_stretch_mm(position, a, b) for a, b in pairwise(edge))


def _to_stretch_mm(p: Point, a: Point, b: Point) -> float:
    along_x, along_y = b[0] - a[0], b[1] - a[1]
    length_squared = along_x * along_x + along_y * along_y
    if length_squared == 0:
        return math.dist(p, a)
    share = ((p[0] - a[0]) * along_x + (p[1] - a[1]) * along_y) / length_squared
    inside = min(1.0, max(0.0, share))
    return math.dist(p, (a[0] + inside * along_x, a[1] + inside * along_y))
