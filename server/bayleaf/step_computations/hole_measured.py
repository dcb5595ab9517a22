"""A hole as it was measured: two diameters at right angles, or the largest with the difference of the two.

Each figure is read at the positions, or is one for all of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bayleaf.step_computations.figures import difference, is_over
from bayleaf.step_computations.inputs import Points, Quantity
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Unanswerable

ALONG: Final = "along"
LARGEST: Final = "largest"


@dataclass(frozen=True, slots=True)
class MeasuredHole:
    """Largest diameter, difference of the two, and the room round it where it was measured."""

    largest: Quantity
    ovality: Quantity
    edge: Quantity | None
    pitch: Quantity | None


def positions_of(question: Question) -> tuple[str, ...]:
    """Where the holes were read, in that order; none where one figure stands for all of them."""
    read = question.find(_first_of(question), Points)
    return () if read is None else tuple(name for name, _ in question.points(_first_of(question)).at)


def measured_hole(question: Question, position: str = "") -> MeasuredHole:
    """The hole at a position. Raises Unanswerable where one of its figures was not read."""
    first, second = _first_of(question), "across" if _first_of(question) == ALONG else "ovality"
    one, other = _at(question, first, position), _at(question, second, position)
    if one is None or other is None:
        raise Unanswerable(second if one else first, "other_points" if position else "not_there")
    if first == ALONG:
        one, other = _of_two(one, other)
    return MeasuredHole(one, other, _at(question, "edge", position), _at(question, "pitch", position))


def _first_of(question: Question) -> str:
    return ALONG if ALONG in question.inputs else LARGEST


def _of_two(along: Quantity, across: Quantity) -> tuple[Quantity, Quantity]:
    """The larger of the two, and how far apart they are."""
    larger, smaller = (across, along) if is_over(across, along) else (along, across)
    ovality = difference("ovality", larger, smaller, larger.unit)
    return larger, Quantity(ovality.value, ovality.unit, ovality.decimals)


def _at(question: Question, name: str, position: str) -> Quantity | None:
    read = question.find(name, Points)
    return question.find(name, Quantity) if read is None else read.quantities().get(position)
