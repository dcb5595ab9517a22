"""What every hole allows, each by itself: how many are used, opened, go up a size, or wait for the maker."""

from __future__ import annotations

from collections.abc import Mapping

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
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Value

Decided = Mapping[str, holes.HoleDecision]


def hole_by_hole(question: Question) -> Answer:
    """Inside where every hole may be used as it is; positions in the order in which they were read."""
    measured = {name: measured_hole(question, name) for name in positions_of(question)}
    asked = {name: asked_hole(question, one) for name, one in measured.items()}
    found = {name: decided(one) for name, one in asked.items()}
    lines = [*_said(found), *next_size_needs(next(iter(asked.values())))]
    if question.damaged:
        lines.append(Line("damaged_holes", "stop", question.damaged))
    inside = all(one.decision == "reuse" for one in found.values()) and not question.damaged
    return Answer(
        holes.MODEL,
        (*_sizes(measured, asked), Value("damaged", len(question.damaged), "pcs", 0), *_counts(found)),
        "inside" if inside else "outside",
        tuple(lines),
        ("hole", "edge_metal"),
    )


def _sizes(measured: Mapping[str, MeasuredHole], asked: Mapping[str, AskedHole]) -> tuple[Value, ...]:
    largest = [Value("largest", one.largest.value, "mm", one.largest.decimals) for one in measured.values()]
    smallest = [difference("smallest", one.largest, one.ovality, "mm") for one in measured.values()]
    worst, least = largest[0], smallest[0]
    for one in largest:
        worst = one if is_over(one, worst) else worst
    for one in smallest:
        least = one if is_over(least, one) else least
    hole, rules = next(iter(asked.values())).hole, next(iter(asked.values())).rules
    low, high = rules.hole_mm(hole.nominal_mm)
    return worst, least, figure("hole_from", low, "mm", 2), figure("hole_to", high, "mm", 2)


def _counts(found: Decided) -> list[Value]:
    """By decision; with none left to the maker the rivet that the larger ones take, and its drill."""
    counted = {
        name: sum(1 for one in found.values() if one.decision == decision)
        for name, decision in (
            ("holes_used", "reuse"),
            ("holes_opened", "open_to_nominal"),
            ("holes_larger", "next_size"),
            ("holes_to_maker", "ask_maker"),
        )
    }
    values = [Value(name, count, "pcs", 0) for name, count in counted.items()]
    larger = {name: one for name, one in found.items() if one.decision == "next_size"}
    rivets = [figure("rivet", one.rivet_mm or 0, "mm", 1) for one in larger.values()]
    if rivets and not counted["holes_to_maker"]:
        values.append(rivets[0])
    return values


def _said(found: Decided) -> list[Line]:
    """One line a reason, with its positions; nothing is said of those that are used as they are."""
    whys = {name: WHY[one.reason] for name, one in found.items() if one.decision != "reuse"}
    return [
        Line(f"holes_{why}", "stop", at)
        for why in WHY.values()
        if (at := tuple(name for name, reason in whys.items() if reason == why))
    ]
