"""The values of one step, in the order of its asks."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, Final

from bayleaf.domain.asks import (
    Ask,
    ChoiceAsk,
    ComputeAsk,
    CountersignAsk,
    HeatAsk,
    LotAsk,
    PhotoAsk,
    ReadingAsk,
    TallyAsk,
    TextAsk,
    TickAsk,
)
from bayleaf.domain.entries import Entry
from bayleaf.report.finding_words import VOID
from bayleaf.report.ledger import Ledger, Place, label
from bayleaf.report.materials import lot_troubles
from bayleaf.report.photos import Album
from bayleaf.report.said import value_words
from bayleaf.report.value_rows import (
    AtStep,
    Row,
    is_open,
    mark_of,
    notes_on,
    register_rows,
    unanswered,
    written_by,
)
from bayleaf.report.words import capital, listed, word


def answer_rows(ledger: Ledger, album: Album, place: Place, entries: list[Entry]) -> list[Row]:
    """The rows of a step that somebody has begun."""
    step = AtStep(ledger, album, place, entries)
    return [row for ask in place.step.asks for row in _ROWS[type(ask)](step, ask)]


def _photos(step: AtStep, ask: Ask) -> list[Row]:
    entries = [one for one in step.of("photo") if one.body["slot"] == ask.id]
    good = [one for one in entries if one.hash not in step.ledger.struck]
    rows = [_photo_row(step, ask, good)] if good else []
    rows += [
        replace(_photo_row(step, ask, [one]), mark="struck", notes=tuple(notes_on(step, one, {one.hash})))
        for one in entries
        if one.hash in step.ledger.struck
    ]
    return rows if good and not is_open(step, ask) else [*unanswered(step, ask), *rows]


def _photo_row(step: AtStep, ask: Ask, photos: list[Entry]) -> Row:
    numbers = tuple(sorted(step.album.numbers[one.hash] for one in photos))
    value = capital(step.album.words_for(photos))
    return Row(label(ask), value, by=written_by(step, photos[-1]), photos=numbers)


def _lots(step: AtStep, ask: Ask) -> list[Row]:
    entries = [one for one in step.of("lot") if one.body["ask"] == ask.id]
    return [*(_lot(step, ask, one) for one in entries), *unanswered(step, ask)]


def _lot(step: AtStep, ask: Ask, entry: Entry) -> Row:
    shown = {entry.hash}
    value = value_words(step.ledger, entry)
    notes = (*lot_troubles(step.ledger, entry), *notes_on(step, entry, shown))
    return Row(label(ask), value, "", written_by(step, entry), mark_of(step, entry, shown), notes)


def _tally(step: AtStep, ask: Ask) -> list[Row]:
    assert isinstance(ask, TallyAsk)  # noqa: S101  (the table says so)
    names = set(step.place.method.group_positions(ask.group))
    places = Counter(one["place"] for one in step.ledger.state["positions"] if one["position"] in names)
    said = listed([f"{number} {word(place)}" for place, number in places.items()])
    mark = "open" if is_open(step, ask) else ""
    return [
        Row(
            label(ask),
            f"{len(names)} positions, now {said}" if said else "no rivet recorded",
            f"to {word(ask.to)}",
            mark=mark,
        )
    ]


def _heat(step: AtStep, ask: Ask) -> list[Row]:
    assert isinstance(ask, HeatAsk)  # noqa: S101  (the table says so)
    return [Row(label(ask), f"zone {ask.zone}: see heat runs", mark="open" if is_open(step, ask) else "")]


def _signs(step: AtStep, ask: Ask) -> list[Row]:
    assert isinstance(ask, CountersignAsk)  # noqa: S101  (the table says so)
    why = {one["hash"]: one["why"] for one in step.ledger.state["countersigns"]}
    rows = [
        _sign(step, ask, one, why.get(one.hash, ""))
        for one in step.of("countersign")
        if one.body["ask"] == ask.id
    ]
    return [*rows, *unanswered(step, ask)]


def _sign(step: AtStep, ask: CountersignAsk, entry: Entry, why: str) -> Row:
    void = "" if not why or why == "struck" else f"does not count: {VOID.get(why, why)}"
    notes = [void, *notes_on(step, entry, {entry.hash})]
    value = f"countersigned, {step.ledger.how_known(entry)}"
    demand = f"of {word(ask.of)}" + (", at the car" if ask.at_the_car else "")
    mark = "struck" if why == "struck" else "void" if why else ""
    return Row(
        label(ask), value, demand, written_by(step, entry), mark, tuple(note for note in notes if note)
    )


_ROWS: Final[Mapping[type, Callable[[Any, Any], list[Row]]]] = {
    TickAsk: register_rows,
    TextAsk: register_rows,
    ChoiceAsk: register_rows,
    ReadingAsk: register_rows,
    ComputeAsk: register_rows,
    PhotoAsk: _photos,
    LotAsk: _lots,
    TallyAsk: _tally,
    HeatAsk: _heat,
    CountersignAsk: _signs,
}
