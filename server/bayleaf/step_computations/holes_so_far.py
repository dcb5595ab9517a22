"""What each hole of a job allows, as far as it is read: hole by hole, recorded or not.

The same decision as the step's computation makes of all of them. A hole that is marked damaged goes to the
maker. The twin of the phone's `holes_view.ts`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final, Literal

from bayleaf.domain.asks import ComputeAsk
from bayleaf.domain.method import MethodDoc
from bayleaf.domain.state import PositionState
from bayleaf.step_computations.gathering import gather
from bayleaf.step_computations.hole_asked import WHY
from bayleaf.step_computations.hole_by_hole import FoundHole, found_hole
from bayleaf.step_computations.hole_measured import positions_of
from bayleaf.step_computations.hole_room_lines import room_lines
from bayleaf.step_computations.inputs import Input
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.record import Record
from bayleaf.step_computations.shapes import Unanswerable
from bayleaf.step_computations.sources import read_so_far

HoleWord = Literal["used", "opened", "larger", "to_maker", "not_read"]
_WORDS: Final[dict[str, HoleWord]] = {
    "reuse": "used",
    "open_to_nominal": "opened",
    "next_size": "larger",
    "ask_maker": "to_maker",
}


@dataclass(frozen=True, slots=True)
class SeenHole:
    """A position's hole; `found` is None where it is not read, or cannot be worked out."""

    position: str
    word: HoleWord
    is_damaged: bool
    found: FoundHole | None
    neighbours: tuple[str, ...] = ()
    """Those that are checked again because it goes up a size."""
    wants_room: bool = False
    """Its edge is to be read before it is drilled."""

    @property
    def why(self) -> str:
        """The code of why it is not used as it is."""
        return "" if self.found is None else WHY.get(self.found.decision.reason, "")


def holes_so_far(record: Record) -> tuple[SeenHole, ...]:
    """In the order of the positions; none before the first of them is read."""
    holes = tuple(
        hole
        for method in record.methods
        for step in method.steps()
        for ask in step.asks
        if isinstance(ask, ComputeAsk) and ask.computation == "hole_decision"
        for hole in _holes(record, method, ask)
    )
    return holes if any(hole.found for hole in holes) else ()


def _holes(record: Record, method: MethodDoc, ask: ComputeAsk) -> Iterator[SeenHole]:
    question = _question_so_far(record, method, ask)
    is_read = "along" in question.inputs or "largest" in question.inputs
    read = {name.lower(): name for name in (positions_of(question) if is_read else ())}
    positions = [one for one in record.state["positions"] if one["group"] in ask.groups]
    names = {one["position"].lower(): one["position"] for one in positions}
    for at in positions:
        point = read.get(at["position"].lower())
        yield _hole(at, None if point is None else _found_or_not(question, point), names)


def _hole(at: PositionState, found: FoundHole | None, names: dict[str, str]) -> SeenHole:
    damaged = any(mark["mark"] == "damaged_hole" for mark in at["marks"])
    if damaged or found is None:
        return SeenHole(at["position"], "to_maker" if damaged else "not_read", damaged, found)
    word = _WORDS[found.decision.decision]
    if word != "larger":
        return SeenHole(at["position"], word, damaged, found)
    lines = room_lines(found.position, found.asked, found.decision)
    return SeenHole(
        at["position"],
        word,
        damaged,
        found,
        tuple(names.get(one, one) for one in found.asked.room.pitch.neighbours),
        any(line.code == "measure_room" for line in lines),
    )


def _question_so_far(record: Record, method: MethodDoc, ask: ComputeAsk) -> Question:
    """The step's own question, with the points that are read in the place of those that are waited for."""
    question = gather(record, method, ask).question
    read: dict[str, Input] = {
        one.name: points
        for one in ask.inputs
        for ref in one.sources[:1]
        if (points := read_so_far(record, ref)) is not None
    }
    return replace(question, inputs={**question.inputs, **read})


def _found_or_not(question: Question, point: str) -> FoundHole | None:
    """A slip, or one diameter of two: nothing is said of that hole."""
    try:
        return found_hole(question, point)
    except Unanswerable:
        return None
