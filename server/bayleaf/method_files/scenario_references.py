"""Checks the scenario in itself: zones made of others, and what must be as Bayleaf has it."""

from __future__ import annotations

from collections.abc import Iterator

from .ask_references import LADDERS
from .book import Book
from .faults import Fault, Path, shown
from .heat_references import ZONES, pads_of

SCENARIO: Path = ("scenario",)
RIVET_MARKS = [
    {"id": "damaged_hole", "name": "damaged hole"},
    {"id": "lost", "name": "lost inside", "piece": ["head", "mandrel", "shank"]},
    {"id": "found", "name": "found"},
]
MARKS_TOLD = (
    "{id: damaged_hole, name: damaged hole}, {id: lost, name: lost inside, piece: [head, mandrel, shank]}, "
    "{id: found, name: found}"
)


def scenario_faults(book: Book) -> Iterator[Fault]:
    """Faults of the scenario that need no step to be seen."""
    yield from _made_of(book)
    yield from _ladders(book)
    marks = book.at((*SCENARIO, "rivet_marks"))
    if marks is not None and marks != RIVET_MARKS and (*SCENARIO, "rivet_marks") not in book.broken:
        yield book.fault(
            (*SCENARIO, "rivet_marks"), "other marks than the record has", f"needed: {MARKS_TOLD}"
        )


def _made_of(book: Book) -> Iterator[Fault]:
    zones = book.ids(ZONES)
    for path, row in book.rows(ZONES):
        made_of = (*path, "made_of")
        if "made_of" in row and "pads" in row:
            yield book.fault(made_of, "pads of its own too", "needed: pads, or the zones it is made of")
        for word_path, word in book.words(made_of):
            other = next((zone for _, zone in book.rows(ZONES) if zone.get("id") == word), None)
            if other is None:
                yield book.unknown(word_path, word, "heat zone", zones)
            elif "made_of" in other:
                yield book.fault(word_path, f"{shown(word)}, made of others itself", "needed: plain zones")
        pads = pads_of(book, str(row.get("id"))) if "made_of" in row else []
        twice = sorted({pad for pad in pads if pads.count(pad) > 1})
        if twice:
            found = f"{', '.join(twice)} in two of its zones"
            yield book.fault(
                made_of, found, "needed: pads whose ids differ in zones that are heated together"
            )


def _ladders(book: Book) -> Iterator[Fault]:
    for name, states in LADDERS.items():
        path = (*SCENARIO, "ladders", name)
        given = book.at(path)
        if given is not None and given != list(states) and path not in book.broken:
            yield book.fault(path, "another ladder", f"needed, as the record has it: {', '.join(states)}")
