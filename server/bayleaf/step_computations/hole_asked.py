"""A measured hole with the rules that decide about it, and what they decide."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bayleaf.fastening import holes
from bayleaf.fastening.lengths import times_mm
from bayleaf.fastening.refusal import Refused
from bayleaf.step_computations.figures import difference, figure, number_of
from bayleaf.step_computations.hole_measured import MeasuredHole
from bayleaf.step_computations.hole_room import HoleRoom, room_at
from bayleaf.step_computations.inputs import Quantity
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Line, Unanswerable


@dataclass(frozen=True, slots=True)
class AskedHole:
    """The hole and its rules, which larger sizes are kept, and its room in each layer."""

    hole: holes.Hole
    rules: holes.HoleRules
    room: HoleRoom

    @property
    def larger_mm(self) -> float | None:
        """The next size, where one is kept."""
        return next((size for size in self.rules.sizes_kept_mm if size > self.hole.nominal_mm), None)


WHY: Final = {
    "smaller than its range": "smaller",
    "larger than the next size allows": "beyond_next",
    "no larger rivet is kept": "none_kept",
    "edge distance and pitch are not known: measure them before going up a size": "room_unknown",
    "edge distance too small for the next size": "edge_short",
    "pitch too small for the next size": "pitch_short",
    "the next size would still be oval": "still_oval",
    "too large or too oval for its own size": "worn",
    "edge distance too small for its own size": "own_edge_short",
    "pitch too small for its own size": "own_pitch_short",
}
OWN_SIZE: Final = {
    "edge_short": "edge distance too small for its own size",
    "pitch_short": "pitch too small for its own size",
}


def asked_hole(question: Question, measured: MeasuredHole, position: str = "") -> AskedHole:
    """By the method's nominal, its own hole, what it allows of ovality, and the larger size that is kept.

    Going up is judged in the layer that is worst for the larger size.
    """
    if measured.ovality.value < 0:
        raise Unanswerable("ovality", "under_zero")
    nominal, largest = number_of(question.quantity("nominal")), number_of(measured.largest)
    smallest = number_of(difference("smallest", measured.largest, measured.ovality, "mm"))
    larger = question.find("next_size", Quantity)
    room = room_at(question, position, measured)
    worst = room.worst(nominal if larger is None else number_of(larger))
    rules = holes.HoleRules(
        ovality_limit_mm=number_of(question.quantity("ovality_allowed")),
        edge_diameters=worst.edge_diameters,
        pitch_diameters=room.pitch_diameters,
        sizes_kept_mm=() if larger is None else (number_of(larger),),
        hole_ranges_mm={nominal: _range(question, nominal)},
    )
    hole = holes.Hole(nominal, largest, smallest, _mm(worst.edge), _mm(room.pitch.found))
    return AskedHole(hole, rules, room)


def decided(asked: AskedHole) -> holes.HoleDecision:
    """Unanswerable for a slip of unit or decimal point.

    A hole that keeps its size goes to the maker where its own edge or pitch is short: dressed, or drilled
    off its place.
    """
    try:
        found = holes.decide(asked.hole, asked.rules)
    except Refused as refused:
        field = "largest" if refused.field == "measured_max_mm" else "ovality"
        raise Unanswerable(field, "slip") from refused
    short = asked.room.lacks(asked.hole.nominal_mm)
    if found.decision in ("reuse", "open_to_nominal") and short:
        return holes.HoleDecision("ask_maker", None, None, OWN_SIZE[short])
    return found


def next_size_needs(asked: AskedHole) -> list[Line]:
    """With a larger size kept: what it needs of edge and neighbours in each layer."""
    size, layers = asked.larger_mm, asked.room.layers
    if size is None:
        return []
    return [
        Line(
            "layer_needs" if len(layers) > 1 else "next_size_needs",
            "note",
            (layer.name,) if len(layers) > 1 else (),
            (
                figure("rivet", size, "mm", 1),
                figure("edge", times_mm(layer.edge_diameters, size), "mm", 2),
                figure("pitch", times_mm(layer.pitch_diameters, size), "mm", 2),
            ),
        )
        for layer in layers
    ]


def _range(question: Question, nominal_mm: float) -> tuple[float, float]:
    """The method's own hole, else 0.1 to 0.2 mm over the nominal."""
    low, high = question.facts.get("rivet.hole_min_mm"), question.facts.get("rivet.hole_max_mm")
    if low is None or high is None:
        return holes.HoleRules().hole_mm(nominal_mm)
    return number_of(low), number_of(high)


def _mm(quantity: Quantity | None) -> float | None:
    return None if quantity is None else number_of(quantity)
