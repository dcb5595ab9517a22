"""A measured hole with the rules that decide about it, and what they decide."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bayleaf.fastening import holes
from bayleaf.fastening.lengths import times_mm
from bayleaf.fastening.refusal import Refused
from bayleaf.step_computations.figures import difference, figure, number_of
from bayleaf.step_computations.hole_measured import MeasuredHole
from bayleaf.step_computations.inputs import Quantity
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Line, Unanswerable


@dataclass(frozen=True, slots=True)
class AskedHole:
    """The hole and its rules, and which larger sizes are kept."""

    hole: holes.Hole
    rules: holes.HoleRules


WHY: Final = {
    "smaller than its range": "smaller",
    "larger than the next size allows": "beyond_next",
    "no larger rivet is kept": "none_kept",
    "edge distance and pitch are not known: measure them before going up a size": "room_unknown",
    "edge distance too small for the next size": "edge_short",
    "pitch too small for the next size": "pitch_short",
    "the next size would still be oval": "still_oval",
    "too large or too oval for its own size": "worn",
}


def asked_hole(question: Question, measured: MeasuredHole) -> AskedHole:
    """By the method's nominal, its own hole, what it allows of ovality, and the larger size that is kept."""
    if measured.ovality.value < 0:
        raise Unanswerable("ovality", "under_zero")
    nominal, largest = number_of(question.quantity("nominal")), number_of(measured.largest)
    smallest = number_of(difference("smallest", measured.largest, measured.ovality, "mm"))
    larger = question.find("next_size", Quantity)
    rules = holes.HoleRules(
        ovality_limit_mm=number_of(question.quantity("ovality_allowed")),
        sizes_kept_mm=() if larger is None else (number_of(larger),),
        hole_ranges_mm={nominal: _range(question, nominal)},
    )
    hole = holes.Hole(nominal, largest, smallest, _mm(measured.edge), _mm(measured.pitch))
    return AskedHole(hole, rules)


def decided(asked: AskedHole) -> holes.HoleDecision:
    """Unanswerable for a slip of unit or decimal point."""
    try:
        return holes.decide(asked.hole, asked.rules)
    except Refused as refused:
        field = "largest" if refused.field == "measured_max_mm" else "ovality"
        raise Unanswerable(field, "slip") from refused


def next_size_needs(asked: AskedHole) -> list[Line]:
    """With a larger size kept: what it would need of edge and neighbours, checked again for it."""
    larger = sorted(size for size in asked.rules.sizes_kept_mm if size > asked.hole.nominal_mm)
    if not larger:
        return []
    size, rules = larger[0], asked.rules
    needs = (
        figure("rivet", size, "mm", 1),
        figure("edge", times_mm(rules.edge_diameters, size), "mm", 2),
        figure("pitch", times_mm(rules.pitch_diameters, size), "mm", 2),
    )
    return [Line("next_size_needs", "note", (), needs)]


def _range(question: Question, nominal_mm: float) -> tuple[float, float]:
    """The method's own hole, else 0.1 to 0.2 mm over the nominal."""
    low, high = question.facts.get("rivet.hole_min_mm"), question.facts.get("rivet.hole_max_mm")
    if low is None or high is None:
        return holes.HoleRules().hole_mm(nominal_mm)
    return number_of(low), number_of(high)


def _mm(quantity: Quantity | None) -> float | None:
    return None if quantity is None else number_of(quantity)
