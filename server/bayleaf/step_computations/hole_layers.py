"""Layers of the joint at a rivet: how near each one's edge is there, and what it asks of edge and pitch.

The method gives a figure a group or a position, as the maker's drawing does; an edge that was read at the
hole stands above it, and is the flange's. What a layer asks for is the maker's, else its material's.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bayleaf.fastening.edges import RULES
from bayleaf.step_computations.figures import number_of
from bayleaf.step_computations.inputs import Quantity
from bayleaf.step_computations.question import Question

FLANGE: Final = "flange"
EDGES: Final = "rivet.edge_mm."
LEAST: Final = "rivet.least_diameters."


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer; its edge is None where nobody gave or read it."""

    name: str
    edge: Quantity | None
    is_read: bool
    edge_diameters: float
    pitch_diameters: float


def layers_at(question: Question, position: str, read: Quantity | None) -> tuple[Layer, ...]:
    """By their names; where the method names none, the flange alone."""
    names = sorted({fact.split(".")[2] for fact in question.facts if fact.startswith(EDGES)})
    return tuple(_layer(question, name, position, read) for name in names or [FLANGE])


def _layer(question: Question, name: str, position: str, read: Quantity | None) -> Layer:
    rule = RULES["aluminium" if name == FLANGE else "carbon laminate"]
    is_read = name == FLANGE and read is not None
    return Layer(
        name,
        read if is_read else _drawn(question, name, position),
        is_read,
        _least(question, name, "edge", rule.edge_diameters),
        _least(question, name, "pitch", rule.pitch_diameters),
    )


def _least(question: Question, layer: str, of: str, default: float) -> float:
    given = question.facts.get(f"{LEAST}{layer}.{of}")
    return default if given is None else number_of(given)


def _drawn(question: Question, layer: str, position: str) -> Quantity | None:
    """The position's own figure, else its group's."""
    for name in _names(question, position):
        given = question.facts.get(f"{EDGES}{layer}.{name}")
        if given is not None:
            return Quantity(given.value, "mm", given.decimals)
    return None


def _names(question: Question, position: str) -> list[str]:
    """As the drawing writes the position, then its group: a reading's point is in lower case."""
    return [
        name
        for group in question.groups
        for one in group.positions
        if one.lower() == position.lower()
        for name in (one, group.id)
    ]
