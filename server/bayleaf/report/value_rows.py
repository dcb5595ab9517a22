"""Values that replace one another (texts, choices, readings): what is shown, then what it replaced."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from bayleaf.domain.asks import Ask, ChoiceAsk, ComputeAsk, ReadingAsk, TextAsk, TickAsk
from bayleaf.domain.entries import Entry
from bayleaf.report.ledger import Ledger, Place, label, point_name
from bayleaf.report.photos import Album
from bayleaf.report.said import FEW_FIGURES, figures_words, limit_words, reading_words, value_words
from bayleaf.report.words import UNITS, figure

UNANSWERED: Final = "open"
KIND_OF: Final[Mapping[type, str]] = {
    TickAsk: "tick", TextAsk: "text", ChoiceAsk: "choice", ReadingAsk: "reading", ComputeAsk: "result",
}  # fmt: skip


@dataclass(frozen=True)
class Row:
    """What was asked and answered, within what; `mark` is empty, struck, outside, void, open or extra.

    `values` counts the entries that it tells of; `notes` say of each that was late how it came; `photos` are
    the numbers of those that it names, for the page that shows them.
    """

    name: str
    value: str
    limits: str = ""
    by: str = ""
    mark: str = ""
    notes: tuple[str, ...] = ()
    values: int = 1
    photos: tuple[int, ...] = ()


@dataclass(frozen=True)
class AtStep:
    """What the rows of a step are made from."""

    ledger: Ledger
    album: Album
    place: Place
    entries: list[Entry]

    def of(self, *kinds: str) -> Iterator[Entry]:
        return (entry for entry in self.entries if entry.kind in kinds)


def is_open(step: AtStep, ask: Ask) -> bool:
    return step.place.state is not None and ask.id in step.place.state["open"]


def unanswered(step: AtStep, ask: Ask) -> list[Row]:
    return [Row(label(ask), UNANSWERED, mark="open")] if is_open(step, ask) else []


def register_rows(step: AtStep, ask: Ask) -> list[Row]:
    """Ticks, texts, choices, readings and results."""
    kind = KIND_OF[type(ask)]
    entries = [one for one in step.of(kind) if one.body["ask"] == ask.id]
    shown = _shown(step, kind, ask)
    rows = _together(step, ask, [one for one in entries if one.hash in shown])
    rows += [_register_row(step, ask, one, shown) for one in entries if one.hash not in shown]
    return rows if shown else [*unanswered(step, ask), *rows]


def _shown(step: AtStep, kind: str, ask: Ask) -> set[str]:
    key = (kind, step.place.method.id, step.place.step.id, ask.id)
    return {
        one["shown"]
        for one in step.ledger.state["registers"]
        if (one["kind"], one["method"], one["step"], one["ask"]) == key and one["shown"]
    }


def _together(step: AtStep, ask: Ask, shown: list[Entry]) -> list[Row]:
    """Readings of several points by one person stand in one line, if none of them is in trouble."""
    plain = len(shown) > 1 and isinstance(ask, ReadingAsk) and not any(_trouble(step, one) for one in shown)
    if not plain or len({(one.by, one.device) for one in shown}) > 1:
        return [_register_row(step, ask, one, {one.hash}) for one in shown]
    assert isinstance(ask, ReadingAsk)  # noqa: S101  (plain says so)
    order = {point: place for place, point in enumerate(ask.point_ids())}
    shown.sort(key=lambda one: order.get(one.body["point"], len(order)))
    values = [
        f"{point_name(ask, one.body['point'])}\u00a0{figure(one.body['value'], one.body['decimals'])}"
        for one in shown
    ]
    value = f"{', '.join(values)}\u00a0{UNITS.get(ask.unit, ask.unit)}"
    last = max(shown, key=lambda one: one.at_ms)
    late = tuple(note for note in map(step.ledger.late, shown) if note)
    limits = limit_words(step.ledger, ask)
    return [Row(label(ask), value, limits, written_by(step, last), "", late, len(shown))]


def _trouble(step: AtStep, entry: Entry) -> bool:
    said = [note for note in notes_on(step, entry, {entry.hash}) if note != step.ledger.late(entry)]
    return bool(_is_outside(step, entry) or said)


def _is_outside(step: AtStep, entry: Entry) -> bool:
    codes = {"outside_limits", "stop_option", "wrong_lot", "expired_lot", "nothing_to_compare"}
    if entry.kind == "result" and entry.body["verdict"] == "outside":
        return True
    return any(entry.hash in one["hashes"] for one in step.ledger.state["findings"] if one["code"] in codes)


def _register_row(step: AtStep, ask: Ask, entry: Entry, shown: set[str]) -> Row:
    limits = limit_words(step.ledger, ask) if isinstance(ask, ReadingAsk) else ""
    name = step.ledger.ask_name(entry)
    notes = notes_on(step, entry, shown)
    if entry.kind == "result":
        figures = figures_words(entry.body) if len(entry.body["values"]) > FEW_FIGURES else ""
        notes += [one for one in (figures, f"worked out by {entry.body['model']}") if one]
    return Row(
        name,
        reading_words(step.ledger, entry) if entry.kind == "reading" else value_words(step.ledger, entry),
        limits,
        written_by(step, entry),
        mark_of(step, entry, shown),
        tuple(notes),
    )


def mark_of(step: AtStep, entry: Entry, shown: set[str]) -> str:
    if entry.hash in step.ledger.struck or _replacement(step, entry):
        return "struck"
    if entry.hash not in shown:
        return "extra"
    return "outside" if _is_outside(step, entry) else ""


def notes_on(step: AtStep, entry: Entry, shown: set[str]) -> list[str]:
    ledger = step.ledger
    replaced = _replacement(step, entry)
    back = [one for one in ledger.standing("send_back") if entry.hash in one.body["hashes"]]
    notes = [
        ledger.struck_by(entry.hash),
        f"replaced by {ledger.signed(replaced)}" if replaced else "",
        *(f"sent back by {ledger.signed(one)}: {one.body['remark']}" for one in back),
        ledger.late(entry),
    ]
    if entry.hash not in shown and not replaced and entry.hash not in ledger.struck and not back:
        notes.append("also stands, see what deviates")
    return [note for note in notes if note]


def _replacement(step: AtStep, entry: Entry) -> Entry | None:
    """The unstruck entry that reaches this one by a chain of `over`, struck links included."""
    reached, wave = {entry.hash}, {entry.hash}
    while wave:
        later = [
            one for one in step.entries if wave & set(one.body.get("over", ())) and one.hash not in reached
        ]
        standing = [one for one in later if one.hash not in step.ledger.struck]
        if standing:
            return standing[0]
        wave = {one.hash for one in later}
        reached |= wave
    return None


def written_by(step: AtStep, entry: Entry) -> str:
    """Who, and the time of day; the day too where it is another than the step's own."""
    tick = step.ledger.entries.get(step.place.state["tick"]) if step.place.state else None
    when = step.ledger.when(entry)
    same_day = tick is not None and step.ledger.when(tick)[:10] == when[:10]
    return f"{step.ledger.who(entry)}, {when[11:] if same_day else when}"
