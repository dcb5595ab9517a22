"""Pieces against rivets: what the map says, and what somebody counted in the tray.

Taking out: each kind of piece by itself. Setting: one spent mandrel for every rivet that was set, the
replaced ones too; a set rivet that came out again owes its own three pieces.
"""

from __future__ import annotations

from typing import Final

from bayleaf.fastening import tally
from bayleaf.step_computations.inputs import Quantity, Rivets
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Value, verdict_of

_COUNTED: Final = {"head": "heads", "mandrel": "mandrels", "shank": "shanks"}
_BEFORE_SET: Final = ("", "hole_checked", "rivet_seated")


def tally_reconciliation(question: Question) -> Answer:
    """By the ladder that the tallies climb."""
    rivets = question.want("tallies", Rivets)
    return _set(question, rivets) if rivets.ladder == "setting" else _taken_out(question, rivets)


def _taken_out(question: Question, rivets: Rivets) -> Answer:
    found = tally.tally_reconciliation(rivets.rivets)
    values = [Value(name, value, "pieces", 0) for name, value in found.figures()]
    lines = _positions(question)
    for piece, count in found.pieces.items():
        if count.lost:
            lines.append(Line(f"lost_{piece}", "stop", _where_lost(rivets, piece)))
        if count.difference + count.lost:
            lines.append(Line(f"differs_{piece}", "stop"))
        counted = question.find(_COUNTED[piece], Quantity)
        if counted is None:
            continue
        in_tray = Value(f"counted_{piece}", counted.value, "pieces", 0)
        values.append(in_tray)
        if counted.value != count.taken:
            taken = Value("taken", count.taken, "pieces", 0)
            lines.append(Line(f"tray_differs_{piece}", "stop", (), (in_tray, taken)))
    return Answer(tally.MODEL, tuple(values), verdict_of(lines), tuple(lines), ("counting",))


def _set(question: Question, rivets: Rivets) -> Answer:
    were_set = [one for one in rivets.rivets if one.generation > 0 and one.state not in _BEFORE_SET]
    replaced = tuple(sorted({one.position for one in were_set if _is_replaced(one, were_set)}))
    positions = [position for group in question.groups for position in group.positions]
    missing = tuple(name for name in positions if name not in {one.position for one in were_set})
    owed = Value("owed_mandrel", len(were_set), "pieces", 0)
    values = [Value("positions", len(positions), "pcs", 0), owed]
    lines = _positions(question)
    lines += [Line("not_set", "stop", missing)] if missing else []
    lines += [Line("replaced", "note", replaced)] if replaced else []
    counted = question.find("mandrels", Quantity)
    if counted is not None:
        spent = Value("counted_mandrel", counted.value, "pieces", 0)
        values += [spent, Value("difference_mandrel", spent.value - owed.value, "pieces", 0)]
        if spent.value != owed.value:
            lines.append(Line("spent_differs", "stop", (), (spent, owed)))
    return Answer(tally.MODEL, tuple(values), verdict_of(lines), tuple(lines), ("counting",))


def _is_replaced(rivet: tally.Rivet, were_set: list[tally.Rivet]) -> bool:
    return any(other.position == rivet.position and other.generation > rivet.generation for other in were_set)


def _where_lost(rivets: Rivets, piece: str) -> tuple[str, ...]:
    return tuple(one.position for one in rivets.rivets if piece in one.lost)


def _positions(question: Question) -> list[Line]:
    """Heads that were found and numbered, against the positions of the groups."""
    found = question.find("positions", Quantity)
    on_map = sum(len(group.positions) for group in question.groups)
    if found is None or found.value == on_map:
        return []
    both = (Value("found", found.value, "pcs", 0), Value("counted", on_map, "pcs", 0))
    return [Line("positions_differ", "stop", (), both)]
