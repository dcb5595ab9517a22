"""The smallest edge distance against its minimum in rivet diameters."""

from __future__ import annotations

from bayleaf.fastening import edges
from bayleaf.step_computations.figures import difference, figure, is_over, number_of
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value


def edge_distance(question: Question) -> Answer:
    """`edge` against `least` times `nominal`; a value on the minimum is good."""
    edge, nominal, least = (question.quantity(name) for name in ("edge", "nominal", "least"))
    if nominal.value <= 0:
        raise Unanswerable("nominal", "not_above_zero")
    decimals = nominal.decimals + least.decimals
    minimum = Value("minimum", nominal.value * least.value, "mm", decimals)
    room = difference("room", edge, minimum, "mm")
    in_diameters = figure("in_diameters", number_of(edge) / number_of(nominal), "diameters", 2)
    outside = is_over(minimum, edge)
    lines = [Line("edge_short", "stop", (), (room, minimum))] if outside else []
    return Answer(
        edges.MODEL,
        (minimum, room, in_diameters),
        "outside" if outside else "inside",
        tuple(lines),
        ("edge_metal" if number_of(least) < 3 else "edge_laminate",),  # noqa: PLR2004 - diameters
    )
