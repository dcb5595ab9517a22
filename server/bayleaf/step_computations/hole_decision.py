"""What the worst hole allows: use it, open it, take the next size, or ask the maker.

The largest diameter and the largest ovality of all holes are taken together as one hole, the worst there
can be. A hole that is marked damaged goes to the maker's rule, whatever the figures say.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bayleaf.fastening import holes
from bayleaf.fastening.lengths import times_mm
from bayleaf.fastening.refusal import Refused
from bayleaf.step_computations.figures import difference, figure, number_of
from bayleaf.step_computations.inputs import Quantity
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value


@dataclass(frozen=True, slots=True)
class _Asked:
    """The hole and its rules, and which larger sizes are kept."""

    hole: holes.Hole
    rules: holes.HoleRules


def hole_decision(question: Question) -> Answer:
    """Inside where every hole may be used as it is."""
    asked = _asked(question)
    largest, ovality = question.quantity("largest"), question.quantity("ovality")
    smallest = difference("smallest", largest, ovality, "mm")
    found = _decided(asked)
    low, high = asked.rules.hole_mm(asked.hole.nominal_mm)
    values = [
        Value("largest", largest.value, "mm", largest.decimals),
        smallest,
        figure("hole_from", low, "mm", 2),
        figure("hole_to", high, "mm", 2),
        Value("damaged", len(question.damaged), "pcs", 0),
    ]
    if found.rivet_mm is not None and found.decision != "ask_maker":
        values.append(figure("rivet", found.rivet_mm, "mm", 1))
    if found.drill_to_mm is not None:
        values.append(figure("drill_to", found.drill_to_mm, "mm", 2))
    lines = [_said(found, asked), *_next_size(asked)]
    if question.damaged:
        lines.append(Line("damaged_holes", "stop", question.damaged))
    inside = found.decision == "reuse" and not question.damaged
    return Answer(
        holes.MODEL, tuple(values), "inside" if inside else "outside", tuple(lines), ("hole", "edge_metal")
    )


def _asked(question: Question) -> _Asked:
    nominal, largest = number_of(question.quantity("nominal")), number_of(question.quantity("largest"))
    ovality = question.quantity("ovality")
    if ovality.value < 0:
        raise Unanswerable("ovality", "under_zero")
    smallest = number_of(difference("smallest", question.quantity("largest"), ovality, "mm"))
    larger = question.find("next_size", Quantity)
    kept = () if larger is None else (number_of(larger),)
    rules = holes.HoleRules(
        ovality_limit_mm=number_of(question.quantity("ovality_allowed")),
        sizes_kept_mm=kept,
        hole_ranges_mm={nominal: _range(question, nominal)},
    )
    edge, pitch = question.find("edge", Quantity), question.find("pitch", Quantity)
    hole = holes.Hole(nominal, largest, smallest, _mm(edge), _mm(pitch))
    return _Asked(hole, rules)


def _range(question: Question, nominal_mm: float) -> tuple[float, float]:
    """The method's own hole, else 0.1 to 0.2 mm over the nominal."""
    low, high = question.facts.get("rivet.hole_min_mm"), question.facts.get("rivet.hole_max_mm")
    if low is None or high is None:
        return holes.HoleRules().hole_mm(nominal_mm)
    return number_of(low), number_of(high)


def _mm(quantity: Quantity | None) -> float | None:
    return None if quantity is None else number_of(quantity)


def _decided(asked: _Asked) -> holes.HoleDecision:
    try:
        return holes.decide(asked.hole, asked.rules)
    except Refused as refused:
        field = "largest" if refused.field == "measured_max_mm" else "ovality"
        raise Unanswerable(field, "slip") from refused


def _said(found: holes.HoleDecision, asked: _Asked) -> Line:
    tone = "note" if found.decision == "reuse" else "stop"
    oval = holes.HoleRules(ovality_limit_mm=asked.rules.ovality_limit_mm).ovality_limit_mm
    limit = figure("ovality_allowed", oval, "mm", 2)
    at = () if found.decision == "reuse" else (_WHY[found.reason],)
    return Line(found.decision, tone, at, (limit,))  # type: ignore[arg-type]


_WHY: Final = {
    "smaller than its range": "smaller",
    "larger than the next size allows": "beyond_next",
    "no larger rivet is kept": "none_kept",
    "edge distance and pitch are not known: measure them before going up a size": "room_unknown",
    "edge distance too small for the next size": "edge_short",
    "pitch too small for the next size": "pitch_short",
    "the next size would still be oval": "still_oval",
    "too large or too oval for its own size": "worn",
}


def _next_size(asked: _Asked) -> list[Line]:
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
