"""Stages and steps: who did each, when and on what, and every value that it asked for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any, Final

from bayleaf.domain.entries import Entry
from bayleaf.report.answers import answer_rows
from bayleaf.report.before_holds import acts_before_holds
from bayleaf.report.late_once import said_often
from bayleaf.report.ledger import LATE, Ledger, Place
from bayleaf.report.photos import Album
from bayleaf.report.value_rows import Row
from bayleaf.report.words import capital, many, word

HOLDS: Final = {
    "held": "hold point not passed",
    "passed": "hold point passed",
    "deviation": "hold point passed by a deviation",
}
MOST_LINES: Final = 40
VALUE_KINDS: Final = ("tick", "text", "choice", "reading", "photo", "lot", "countersign", "result")


def stages(ledger: Ledger, album: Album) -> list[dict[str, Any]]:
    """Every stage of the pinned methods with its steps; an open step stands as one line."""
    grouped = groupby(ledger.places, key=lambda place: (place.method.id, place.stage_number, place.stage))
    return [
        {
            "number": number,
            "title": title,
            "method": next((one.title for one in ledger.pinned if one.id == method), method),
            "steps": [_step(ledger, album, place) for place in places],
        }
        for (method, number, title), places in grouped
    ]


def _step(ledger: Ledger, album: Album, place: Place) -> dict[str, Any]:
    state = place.state
    done = state["done"] if state else ""
    entries = ledger.by_step.get((place.method.id, place.step.id), [])
    untouched = not done and not entries
    hold = state["hold"] if state else "none"
    rows = [] if untouched else answer_rows(ledger, album, place, entries)
    often = _late_often(rows, _tick_late(ledger, place))
    return {
        "number": place.number,
        "id": place.step.id,
        "title": place.step.title,
        "mark": {"done": "done", "not_applicable": "absent"}.get(done, "open"),
        "hold": "held" if hold == "held" and not untouched else "hold" if hold != "none" else "",
        "untouched": untouched,
        "standing": _standing(ledger, place, untouched=untouched),
        "by": "" if untouched else _by(ledger, entries),
        "caution": place.step.caution,
        "rows": [_row(row, often) for row in rows],
        "lines": _capped([*_late_lines(ledger, place, rows, often), *_lines(ledger, place, entries, often)]),
    }


def _standing(ledger: Ledger, place: Place, *, untouched: bool) -> str:
    state = place.state
    if state is None or untouched:
        return "not done" + (", hold point" if place.step.hold else "")
    tick = ledger.entries.get(state["tick"])
    words = {"done": "Done", "not_applicable": "Not applicable"}.get(state["done"], "Not done")
    if state["done"] and tick is not None:
        words += f" {ledger.when(tick)} by {ledger.who(tick)}"
        words += f": {tick.body['reason']}" if tick.body.get("reason") else ""
    if state["hold"] != "none":
        words += f"; {HOLDS[state['hold']]}"
    return words


def _by(ledger: Ledger, entries: Iterable[Entry]) -> str:
    """Everybody who wrote at this step, with how their device knew them and which it was."""
    wrote = {(one.by, one.auth, one.device): one for one in entries if one.kind in VALUE_KINDS}
    said = [
        ", ".join(word for word in (ledger.who(one), ledger.how_known(one), ledger.device(one)) if word)
        for one in wrote.values()
    ]
    return "; ".join(said)


def _row(row: Row, often: Mapping[str, int]) -> dict[str, Any]:
    return {
        "name": row.name,
        "value": row.value,
        "limits": row.limits,
        "by": row.by,
        "mark": row.mark,
        "note": "; ".join(note for note in dict.fromkeys(row.notes) if note not in often),
        **({"photos": list(row.photos)} if row.photos else {}),
    }


def _tick_late(ledger: Ledger, place: Place) -> str:
    """How the step's own tick came to the office, where it was late."""
    tick = ledger.entries.get(place.state["tick"]) if place.state else None
    return ledger.late(tick) if tick is not None and tick.hash not in ledger.struck else ""


def _lates(row: Row) -> list[str]:
    return [note for note in row.notes if note.startswith(LATE)]


def _late_often(rows: Sequence[Row], tick: str) -> Mapping[str, int]:
    """What several values, or one and the tick, say alike of their way to the office: it is said once."""
    return said_often([*(late for row in rows for late in _lates(row)), tick])


def _late_lines(
    ledger: Ledger, place: Place, rows: Sequence[Row], often: Mapping[str, int]
) -> Iterator[dict[str, str]]:
    tick = _tick_late(ledger, place)
    for note, times in often.items():
        said = f"{many(times - 1, 'value')} and the tick" if note == tick else many(times, "value")
        every = times == sum(row.values for row in rows) + 1
        yield _note(f"{capital(note)}: {'every value here and the tick' if every else said}.")


def _note(text: str) -> dict[str, str]:
    return {"kind": "note", "text": text, "struck": ""}


def _lines(
    ledger: Ledger, place: Place, entries: list[Entry], told: Mapping[str, int]
) -> Iterator[dict[str, str]]:
    """What was written at the step beside its answers: the tick's troubles, notes, deviations, put off."""
    for entry in entries:
        kind = entry.kind
        if kind == "tick" and not entry.body["ask"]:
            yield from _tick_trouble(ledger, place, entry, told)
        elif kind in ("note", "deviation", "later"):
            text = entry.body.get("text") or entry.body.get("reason", "")
            notes = [note for note in (ledger.late(entry), ledger.struck_by(entry.hash)) if note]
            said = f"{capital(word(kind))}: {text} ({'; '.join([ledger.signed(entry), *notes])})"
            yield {
                "kind": "deviation" if kind == "deviation" else "note",
                "text": said,
                "struck": ledger.struck_by(entry.hash),
            }
    for said in acts_before_holds(ledger, place):
        yield {"kind": "finding", "text": said, "struck": ""}


def _capped(lines: list[dict[str, str]]) -> list[dict[str, str]]:
    """A step that was written full of notes says where the rest stands."""
    more = len(lines) - MOST_LINES
    if more <= 0:
        return lines
    rest = f"{capital(many(more, 'more line'))}: see data/report.txt of the dossier."
    return [*lines[:MOST_LINES], _note(rest)]


def _tick_trouble(
    ledger: Ledger, place: Place, tick: Entry, told: Mapping[str, int]
) -> Iterator[dict[str, str]]:
    """A tick that is not the shown one, or came late and with no value of the step."""
    shown = place.state["tick"] if place.state else ""
    late = ledger.late(tick)
    notes = [ledger.struck_by(tick.hash), "" if tick.hash == shown and late in told else late]
    notes = [note for note in notes if note]
    if tick.hash != shown or notes:
        word_of = "done" if tick.body["value"] == "done" else "not applicable"
        said = "; ".join([ledger.signed(tick), *notes])
        yield {"kind": "note", "text": f"Ticked {word_of}: {said}", "struck": ledger.struck_by(tick.hash)}
