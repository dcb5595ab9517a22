"""What every hole allows, each by itself: how many are used, opened, go up a size, or wait for the maker."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bayleaf.fastening import holes
from bayleaf.step_computations.figures import difference, figure, is_over
from bayleaf.step_computations.hole_asked import (
    WHY,
    AskedHole,
    asked_hole,
    decided,
    next_size_needs,
)
from bayleaf.step_computations.hole_measured import MeasuredHole, measured_hole, positions_of
from bayleaf.step_computations.hole_room_lines import room_lines
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Value


@dataclass(frozen=True, slots=True)
class FoundHole:
    """A hole as it was read, with its room, and what it allows."""

    position: str
    measured: MeasuredHole
    asked: AskedHole
    decision: holes.HoleDecision


def found_holes(question: Question) -> tuple[FoundHole, ...]:
    """In the order in which they were read. Unanswerable for a slip, and where one diameter is missing."""
    return tuple(found_hole(question, name) for name in positions_of(question))


def hole_by_hole(question: Question) -> Answer:
    """Inside where every hole may be used as it is."""
    found = found_holes(question)
    lines = [*_said(found), *next_size_needs(found[0].asked)]
    for one in found:
        lines += room_lines(one.position, one.asked, one.decision)
    if question.damaged:
        lines.append(Line("damaged_holes", "stop", question.damaged))
    inside = all(one.decision.decision == "reuse" for one in found) and not question.damaged
    return Answer(
        holes.MODEL,
        (*_sizes(found), Value("damaged", len(question.damaged), "pcs", 0), *_counts(found)),
        "inside" if inside else "outside",
        tuple(lines),
        ("hole", "edge_metal", *(("edge_laminate",) if len(found[0].asked.room.layers) > 1 else ())),
    )


def found_hole(question: Question, position: str) -> FoundHole:
    """One of them, by itself."""
    measured = measured_hole(question, position)
    asked = asked_hole(question, measured, position)
    return FoundHole(position, measured, asked, decided(asked))


def _sizes(found: Sequence[FoundHole]) -> tuple[Value, ...]:
    largest = [
        Value("largest", one.measured.largest.value, "mm", one.measured.largest.decimals) for one in found
    ]
    smallest = [difference("smallest", one.measured.largest, one.measured.ovality, "mm") for one in found]
    worst, least = largest[0], smallest[0]
    for one in largest:
        worst = one if is_over(one, worst) else worst
    for one in smallest:
        least = one if is_over(least, one) else least
    asked = found[0].asked
    low, high = asked.rules.hole_mm(asked.hole.nominal_mm)
    return worst, least, figure("hole_from", low, "mm", 2), figure("hole_to", high, "mm", 2)


def _counts(found: Sequence[FoundHole]) -> list[Value]:
    """By decision; with none left to the maker the rivet that the larger ones take."""
    counted = {
        name: sum(1 for one in found if one.decision.decision == decision)
        for name, decision in (
            ("holes_used", "reuse"),
            ("holes_opened", "open_to_nominal"),
            ("holes_larger", "next_size"),
            ("holes_to_maker", "ask_maker"),
        )
    }
    values = [Value(name, count, "pcs", 0) for name, count in counted.items()]
    larger = [one.decision for one in found if one.decision.decision == "next_size"]
    if larger and not counted["holes_to_maker"]:
        values.append(figure("rivet", larger[0].rivet_mm or 0, "mm", 1))
    return values


def _said(found: Sequence[FoundHole]) -> list[Line]:
    """One line a reason, with its positions; nothing is said of those that are used as they are."""
    whys = {one.position: WHY[one.decision.reason] for one in found if one.decision.decision != "reuse"}
    return [
        Line(f"holes_{why}", "stop", at)
        for why in WHY.values()
        if (at := tuple(name for name, reason in whys.items() if reason == why))
    ]
