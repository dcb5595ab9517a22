"""What each hole allows, as the fastener map's chapter says it: a sign in the drawing, and a sentence."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any, Final

from bayleaf.report.ledger import Ledger
from bayleaf.report.words import count, listed, quantity
from bayleaf.step_computations.figures import rounded
from bayleaf.step_computations.hole_by_hole import FoundHole
from bayleaf.step_computations.holes_so_far import HoleWord, SeenHole, holes_so_far
from bayleaf.step_computations.record import Record

WORDS: Final[Mapping[HoleWord, str]] = {
    "used": "use as it is",
    "opened": "open to its size",
    "larger": "next size",
    "to_maker": "ask the maker",
    "not_read": "not measured",
}
WHY: Final[Mapping[str, str]] = {
    "smaller": "under its range",
    "beyond_next": "larger than the next size allows",
    "none_kept": "no larger rivet is kept",
    "room_unknown": "its edge or pitch is not known",
    "edge_short": "its edge is too near for the next size",
    "pitch_short": "its neighbours are too near for the next size",
    "still_oval": "the next size would still be oval",
    "own_edge_short": "its edge is too near for its own size",
    "own_pitch_short": "its neighbours are too near for its own size",
}


def holes(ledger: Ledger) -> dict[str, Any]:
    """Signs by position, their legend with counts, and a row for each hole that is not used as it is."""
    seen = holes_so_far(Record(ledger.state, ledger.entries, ledger.pinned))
    told = [one for one in seen if one.word not in ("used", "not_read")]
    return {
        "signs": {one.position: f"hole_{one.word}" for one in seen},
        "legend": _legend(seen),
        "rows": [{"id": one.position, "shape": f"hole_{one.word}", "words": hole_words(one)} for one in told],
    }


def hole_words(hole: SeenHole) -> str:
    """What it allows and why, as it was measured, and who stands beside it."""
    parts = [_decision(hole), *_measured(hole.found)]
    if hole.neighbours:
        parts.append(f"{listed(hole.neighbours)} checked again with the larger rivet")
    if hole.wants_room:
        parts.append("its edge was not read at the hole")
    return "; ".join(parts)


def _legend(seen: Sequence[SeenHole]) -> list[list[str]]:
    counted = Counter(one.word for one in seen)
    return [[f"hole_{word}", f"{count(counted[word])} {WORDS[word]}"] for word in WORDS if counted[word]]


def _decision(hole: SeenHole) -> str:
    if hole.is_damaged:
        return f"{WORDS['to_maker']}: marked damaged"
    said, decision = WORDS[hole.word], hole.found.decision if hole.found else None
    if hole.word == "to_maker":
        return f"{said}: {WHY[hole.why]}" if hole.why in WHY else said
    if decision is None:
        return said
    if hole.word == "larger" and decision.rivet_mm is not None:
        said = f"{said}, {quantity(rounded(decision.rivet_mm, 1), 1, 'mm')}"
    drill = decision.drill_to_mm
    return said if drill is None else f"{said}, drill to {quantity(rounded(drill, 2), 2, 'mm')}"


def _measured(found: FoundHole | None) -> list[str]:
    """Its largest and smallest diameter."""
    if found is None:
        return []
    hole = found.asked.hole
    largest, smallest = (quantity(rounded(mm, 2), 2, "mm") for mm in (hole.largest_mm, hole.smallest_mm))
    return [f"measured {largest} and {smallest}"]
