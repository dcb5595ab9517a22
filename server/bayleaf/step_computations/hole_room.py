"""The room round a hole: each layer's edge by its own rule, and the neighbours, for a rivet of some size.

The worst layer counts: for the edge the one that is shortest of its minimum, for the pitch the one that asks
for most. Neighbours are those nearest by the method's own places of the rivets; between two of different
size the larger sets the minimum.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bayleaf.fastening.lengths import hundredths, times_mm
from bayleaf.step_computations.figures import number_of, reached
from bayleaf.step_computations.hole_layers import Layer, layers_at
from bayleaf.step_computations.hole_measured import MeasuredHole
from bayleaf.step_computations.inputs import Quantity
from bayleaf.step_computations.question import Question

NEAR: Final = 1.5  # a row's next but one is farther than that


@dataclass(frozen=True, slots=True)
class Pitch:
    """To the nearest neighbour; None where nobody gave or read it."""

    found: Quantity | None
    is_read: bool
    neighbours: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class HoleRoom:
    """The layers at a hole, and its neighbours."""

    layers: tuple[Layer, ...]
    pitch: Pitch

    @property
    def pitch_diameters(self) -> float:
        return max(layer.pitch_diameters for layer in self.layers)

    def worst(self, rivet_mm: float) -> Layer:
        """The layer with the least to spare; one whose edge nobody knows is worse than all."""
        return min(self.layers, key=lambda layer: _to_spare(layer, rivet_mm))

    def lacks(self, rivet_mm: float) -> str:
        """`edge_short` or `pitch_short`; "" where nothing is short, or nothing is known."""
        known = [layer for layer in self.layers if layer.edge is not None]
        if any(_to_spare(layer, rivet_mm) < 0 for layer in known):
            return "edge_short"
        pitch, least = self.pitch.found, times_mm(self.pitch_diameters, rivet_mm)
        return "pitch_short" if pitch and hundredths(number_of(pitch)) < hundredths(least) else ""


def room_at(question: Question, position: str, measured: MeasuredHole) -> HoleRoom:
    """By what was read at the hole, else by the method's figures and places."""
    return HoleRoom(layers_at(question, position, measured.edge), _pitch(question, position, measured.pitch))


def _to_spare(layer: Layer, rivet_mm: float) -> float:
    """Hundredths over the minimum."""
    if layer.edge is None:
        return -math.inf
    return hundredths(number_of(layer.edge)) - hundredths(times_mm(layer.edge_diameters, rivet_mm))


def _pitch(question: Question, position: str, read: Quantity | None) -> Pitch:
    own = next((place for place in question.places if place.id == position), None)
    others = [place for place in question.places if place.id != position]
    if own is None or not others:
        return Pitch(read, read is not None)
    far = sorted((math.dist(own.at_mm, place.at_mm), place.id) for place in others)
    return Pitch(read or _tenths(far[0][0]), read is not None, _near(far))


def _near(far: Sequence[tuple[float, str]]) -> tuple[str, ...]:
    return tuple(name for mm, name in far if hundredths(mm) <= hundredths(NEAR * far[0][0]))


def _tenths(mm: float) -> Quantity:
    """Rounded down: a tenth more would not be there."""
    return Quantity(reached(mm * 10), "mm", 1)
