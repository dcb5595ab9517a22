"""The fastener map: where each position stands, in the drawing and as a table, and the pieces owed."""

from __future__ import annotations

from collections import Counter
from typing import Any

from bayleaf.domain.entries import Entry
from bayleaf.domain.method import LADDER, PIECES
from bayleaf.domain.part import DrawingMap
from bayleaf.domain.state import MarkState, PositionState
from bayleaf.report.late_mixer import late_mixer_words
from bayleaf.report.late_once import late_lines, said_often
from bayleaf.report.late_rivets import late_rivets_words
from bayleaf.report.ledger import Ledger
from bayleaf.report.rivet_holes import holes
from bayleaf.report.words import capital, count, listed, many, number_word, word


def rivets(ledger: Ledger) -> dict[str, Any]:
    """The chapter; no groups where no method has any."""
    positions, allowed = ledger.state["positions"], holes(ledger)
    return {
        "groups": [_group(ledger, group, positions) for group in _groups(ledger, positions)],
        "maps": _maps(ledger, positions, allowed["signs"]),
        "holes": {name: allowed[name] for name in ("legend", "rows")},
        "counts": listed([f"{count(n)} {word(place)}" for place, n in _counts(positions)]),
        "pieces": _pieces(ledger),
        "late": " ".join(filter(None, (late_rivets_words(ledger), late_mixer_words(ledger)))),
        "legend": [[shape, word(shape)] for shape in sorted({_shape(one) for one in positions}, key=_rank)],
    }


def drawings(ledger: Ledger) -> list[str]:
    """The drawings that the chapter shows, by hash."""
    named = {
        method.drawings.get(drawn.drawing, "")
        for method in ledger.pinned
        for drawn in method.maps
        if drawn.places
    }
    return sorted(named & ledger.source.drawings)


def _groups(ledger: Ledger, positions: list[PositionState]) -> dict[str, str]:
    """Names by id, in the order of the methods; a group twice named stands once."""
    names = {group.id: _group_name(group.name, group.where) for one in ledger.pinned for group in one.groups}
    here = {one["group"] for one in positions}
    return {
        **{group: name for group, name in names.items() if group in here},
        **{g: g for g in here - set(names)},
    }


def _group_name(name: str, where: str) -> str:
    return f"{capital(name)}: {where}" if where else capital(name)


def _group(ledger: Ledger, group: str, positions: list[PositionState]) -> dict[str, Any]:
    names = _groups(ledger, positions)
    inside = [one for one in positions if one["group"] == group]
    rows = [_position(ledger, one) for one in inside]
    often = said_often(row["late"] for row in rows)
    kept = [{**row, "late": "" if row["late"] in often else row["late"]} for row in rows]
    return {"name": names[group], "rows": kept, "late": late_lines(often, len(rows), "position")}


def _position(ledger: Ledger, position: PositionState) -> dict[str, Any]:
    deciding = ledger.entries.get(position["deciding"])
    earlier = [
        f"rivet found here: {word(state)}" if generation == 0 else f"rivet {generation}: {word(state)}"
        for generation, state in sorted(_earlier(ledger, position).items())
    ]
    return {
        "id": position["position"],
        "shape": _shape(position),
        "state": word(position["state"]) if position["state"] else "not started",
        "rivet": number_word(position["generation"]) if position["generation"] > 1 else "",
        "by": ledger.signed(deciding) if deciding else "",
        "late": ledger.late(deciding) if deciding else "",
        "earlier": earlier,
        "marks": [_mark(ledger, one) for one in _in_order(ledger, position["marks"])],
        "trouble": position["place"] == "lost" or any(one["open"] for one in position["marks"]),
    }


def _earlier(ledger: Ledger, position: PositionState) -> dict[int, str]:
    """The furthest state of each generation before the highest."""
    furthest: dict[int, str] = {}
    for entry in ledger.standing("tally"):
        body = entry.body
        if (
            body["position"] == position["position"]
            and "state" in body
            and body["generation"] < position["generation"]
        ):
            before = furthest.get(body["generation"], body["state"])
            furthest[body["generation"]] = max(before, body["state"], key=LADDER.index)
    return furthest


def _in_order(ledger: Ledger, marks: list[MarkState]) -> list[MarkState]:
    """By their authors' clocks."""
    times = {one["hash"]: ledger.entries[one["hash"]].at_ms for one in marks if one["hash"] in ledger.entries}
    return sorted(marks, key=lambda one: (times.get(one["hash"], 0), one["hash"]))


def _mark(ledger: Ledger, mark: MarkState) -> str:
    piece = f"{mark['piece']} " if mark["piece"] else ""
    entry = ledger.entries.get(mark["hash"])
    still = ", not found" if mark["mark"] == "lost" and mark["open"] else ""
    return f"{piece}{word(mark['mark'])}{still}" + (f" ({ledger.signed(entry)})" if entry else "")


def _shape(position: PositionState) -> str:
    """The picture of a place in the count: the state, or the rivet mark that outranks it."""
    if position["place"] == "lost":
        return "lost"
    if any(one["mark"] == "damaged_hole" for one in position["marks"]):
        return "damaged_hole"
    return position["state"] or "untouched"


def _rank(shape: str) -> int:
    order = ("untouched", *LADDER, "damaged_hole", "lost")
    return order.index(shape) if shape in order else len(order)


def _counts(positions: list[PositionState]) -> list[tuple[str, int]]:
    found = Counter(one["place"] for one in positions)
    return sorted(found.items(), key=lambda row: _rank(row[0]))


def _pieces(ledger: Ledger) -> dict[str, Any]:
    """What the rivets taken out owe, what of it is lost, and the lost pieces that were found."""
    pieces, entries = ledger.state["pieces"], list(ledger.standing("tally"))
    lost = {one.hash: one for one in entries if one.body.get("mark") == "lost"}
    found = [one for one in entries if one.body.get("mark") == "found" and one.body.get("lost") in lost]
    rows = [
        {
            "piece": f"{piece}s",
            "owed": count(_of(pieces["owed"], piece)),
            "lost": count(_of(pieces["lost"], piece)),
            "found": count(sum(1 for one in found if lost[one.body["lost"]].body["piece"] == piece)),
        }
        for piece in PIECES
    ]
    still = sum(_of(pieces["lost"], piece) for piece in PIECES)
    return {"rows": rows, "still": still, "sentence": _pieces_sentence(ledger, lost, found)}


def _of(counts: Any, piece: str) -> int:
    return int(counts[piece])


def _pieces_sentence(ledger: Ledger, lost: dict[str, Entry], found: list[Entry]) -> str:
    owed = sum(_of(ledger.state["pieces"]["owed"], piece) for piece in PIECES)
    answered = {one.body["lost"] for one in found}
    still = [one for digest, one in lost.items() if digest not in answered]
    if still:
        names = listed([f"{one.body['piece']} at {one.body['position']}" for one in still])
        return f"{capital(many(len(still), 'piece'))} not accounted for: {names}."
    if not owed:
        return "No rivet has been taken out."
    again = f" {capital(many(len(found), 'lost piece'))} found again." if found else ""
    return f"All {count(owed)} pieces of the rivets taken out are accounted for.{again}"


def _maps(ledger: Ledger, positions: list[PositionState], signs: dict[str, str]) -> list[dict[str, Any]]:
    """Each drawing with places, once, with a mark at every place and its number on the outer side."""
    shapes = {one["position"]: _shape(one) for one in positions}
    maps: dict[str, dict[str, Any]] = {}
    for method in ledger.pinned:
        for drawn in method.maps:
            sha256 = method.drawings.get(drawn.drawing, "")
            if sha256 in ledger.source.drawings and drawn.places:
                maps.setdefault(sha256, _map(drawn, sha256, shapes, signs))
    return list(maps.values())


def _map(drawn: DrawingMap, sha256: str, shapes: dict[str, str], signs: dict[str, str]) -> dict[str, Any]:
    width, height = drawn.size
    places = [
        {"id": one.id, "x": one.x, "y": one.y, "shape": shapes.get(one.id, "untouched")}
        | {"hole": signs.get(one.id, "")}
        | {"side": _outer_side(one.x / width, one.y / height)}
        for one in drawn.places
    ]
    return {"drawing": sha256[:16], "w": width, "h": height, "places": places}


def _outer_side(x: float, y: float) -> str:
    """The side of a place that is nearest to the drawing's edge; there its number stands."""
    rooms = {"left": x, "right": 1 - x, "above": y, "below": 1 - y}
    return min(rooms, key=lambda side: rooms[side])
