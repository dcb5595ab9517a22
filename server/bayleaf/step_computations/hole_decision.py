"""What the worst hole allows: use it, open it, take the next size, or ask the maker.

One figure for all: the largest diameter and the largest ovality are taken together as one hole, the worst
there can be; measured at several positions, each is decided by itself (`hole_by_hole.py`). A hole that is
marked damaged goes to the maker's rule, whatever the figures say.
"""

from __future__ import annotations

from bayleaf.fastening import holes
from bayleaf.step_computations.figures import difference, figure
from bayleaf.step_computations.hole_asked import (
    WHY,
    AskedHole,
    asked_hole,
    decided,
    next_size_needs,
)
from bayleaf.step_computations.hole_by_hole import hole_by_hole
from bayleaf.step_computations.hole_measured import measured_hole, positions_of
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Value


def hole_decision(question: Question) -> Answer:
    """Inside where every hole may be used as it is."""
    return hole_by_hole(question) if positions_of(question) else _worst(question)


def _worst(question: Question) -> Answer:
    measured = measured_hole(question)
    asked = asked_hole(question, measured)
    largest, smallest = measured.largest, difference("smallest", measured.largest, measured.ovality, "mm")
    found = decided(asked)
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
    lines = [_said(found, asked), *next_size_needs(asked)]
    if question.damaged:
        lines.append(Line("damaged_holes", "stop", question.damaged))
    inside = found.decision == "reuse" and not question.damaged
    return Answer(
        holes.MODEL, tuple(values), "inside" if inside else "outside", tuple(lines), ("hole", "edge_metal")
    )


def _said(found: holes.HoleDecision, asked: AskedHole) -> Line:
    tone = "note" if found.decision == "reuse" else "stop"
    limit = figure("ovality_allowed", asked.rules.ovality_limit_mm, "mm", 2)
    at = () if found.decision == "reuse" else (WHY[found.reason],)
    return Line(found.decision, tone, at, (limit,))  # type: ignore[arg-type]
