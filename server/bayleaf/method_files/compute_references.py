"""Checks a computation that a step asks for: what it is about, and where each input comes from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from .book import Book
from .build_scenario import POINT_SETS
from .computation_inputs import ABOUT, COMPUTATIONS, LISTS, SOURCES, WORDS, Takes
from .faults import Fault, Path, shown
from .index import AskAt, Index, named_ask
from .length_tables import table_faults

SCENARIO: Path = ("scenario",)
MOST_DECIMALS = 9
TABLES = "@table"


@dataclass(frozen=True)
class Asked:
    """One input of a computation: the ask that it is for, where it stands, and what kind it must be."""

    ask: AskAt
    path: Path
    kind: str


def compute_faults(book: Book, index: Index, ask: AskAt) -> Iterator[Fault]:
    """Everything wrong with one computation of a step."""
    yield from _about(book, ask)
    takes = COMPUTATIONS.get(str(ask.row.get("computation")))
    if takes is None or (*ask.path, "computation") in book.broken:
        return
    yield from _members(book, ask, takes)
    inputs = ask.row.get("inputs", {})
    for name in inputs if isinstance(inputs, dict) else []:
        path = (*ask.path, "inputs", name)
        kind = takes.kind(name)
        if kind is None:
            found = f"`{name}`, which {ask.row['computation']} does not take"
            yield book.fault(path, found, f"it takes: {', '.join(takes.names())}")
        elif path not in book.broken:
            yield from _input(book, index, Asked(ask, path, kind))


def _about(book: Book, ask: AskAt) -> Iterator[Fault]:
    """Zone, purpose, points and groups are things of the scenario."""
    groups = book.ids((*SCENARIO, "rivet_groups"))
    for path, group in book.words((*ask.path, "groups")):
        if group not in groups:
            yield book.unknown(path, group, "rivet group", groups)
    zone = book.word((*ask.path, "zone"))
    zones = book.ids((*SCENARIO, "heat_zones"))
    if zone is not None and zone not in zones:
        yield book.unknown((*ask.path, "zone"), zone, "heat zone", zones)
    purpose = book.word((*ask.path, "purpose"))
    if purpose and not isinstance(book.at((*SCENARIO, "heat_settings", purpose)), dict):
        yield book.fault((*ask.path, "purpose"), shown(purpose), f"needed: scenario.heat_settings.{purpose}")
    points = book.word((*ask.path, "points"))
    sets = [name for name in POINT_SETS if book.at((*SCENARIO, name)) is not None]
    if points is not None and points not in sets:
        yield book.unknown((*ask.path, "points"), points, "point set", sets)


def _members(book: Book, ask: AskAt, takes: Takes) -> Iterator[Fault]:
    """What this computation is about must be said, and nothing else; its inputs must be there."""
    name = ask.row["computation"]
    for member in ABOUT:
        if member in takes.about and member not in ask.row:
            yield book.fault(ask.path, f"no `{member}`", f"needed: {member}, which {name} is about")
        if member in ask.row and member not in (*takes.about, *takes.may_be_about):
            allowed = f"{name} is about {', '.join(takes.about) or 'none of these'}: leave it out"
            yield book.fault((*ask.path, member), f"`{member}`", allowed)
    inputs = ask.row.get("inputs", {})
    given = inputs if isinstance(inputs, dict) else {}
    path = (*ask.path, "inputs") if "inputs" in ask.row else ask.path
    for wanted, kind in takes.needed.items():
        if wanted not in given:
            yield book.fault(path, f"no input `{wanted}`", f"needed: {wanted}, {_told(kind)}")
    for several in takes.one_of:
        if not any(wanted in given for wanted in several):
            yield book.fault(path, f"no input `{several[0]}`", f"needed: one of {', '.join(several)}")


def _input(book: Book, index: Index, asked: Asked) -> Iterator[Fault]:
    path, given = asked.path, book.at(asked.path)
    if isinstance(given, dict) and "rows" in given and asked.kind == TABLES:
        yield from table_faults(book, asked.ask, path)
        return
    if isinstance(given, dict):
        yield from _fixed(book, asked, given)
        return
    if isinstance(given, list) and path[-1] not in LISTS and len(given) != 1:
        yield book.fault(path, "a list", f"needed: one answer; lists are for {', '.join(sorted(LISTS))}")
    for at, words in book.words(path) if isinstance(given, list) else [(path, given)]:
        if isinstance(words, str):
            yield from _source(book, index, Asked(asked.ask, at, asked.kind), words)


def _fixed(book: Book, asked: Asked, given: dict[str, object]) -> Iterator[Fault]:
    path, kind = asked.path, asked.kind
    if "rows" in given:
        yield book.fault(path, "a table of rows", f"needed: {_told(kind)}")
        return
    is_word = isinstance(given.get("value"), str)
    if kind.startswith("@"):
        yield book.fault(path, "a fixed value", f"needed: {_told(kind)}")
    elif is_word != (kind in WORDS):
        yield book.fault((*path, "value"), shown(given.get("value")), f"needed: {_told(kind)}")
    elif given.get("unit") != kind:
        yield book.fault((*path, "unit"), shown(given.get("unit")), f'needed: the unit "{kind}"')
    value = given.get("value")
    if isinstance(value, Decimal) and -int(value.as_tuple().exponent) > MOST_DECIMALS:
        yield book.fault((*path, "value"), shown(value), f"allowed: at most {MOST_DECIMALS} decimals")


def _source(book: Book, index: Index, asked: Asked, words: str) -> Iterator[Fault]:
    ask, path, kind = asked.ask, asked.path, asked.kind
    named = named_ask(book, index, path, words, ask)
    if isinstance(named, Fault):
        yield named
        return
    source = named[0]
    if not _fits(source, kind):
        yield book.fault(path, f"{shown(words)}, {_kind_of(source)}", f"needed: {_told(kind)}")
        return
    of_set = _set_points(book, ask)
    strange = [point for point in source.points if of_set and point not in of_set]
    if strange:
        found = f"{shown(words)}, read at {', '.join(strange)}"
        yield book.fault(path, found, f"points of {ask.row['points']}: {', '.join(of_set)}")


def _fits(source: AskAt, kind: str) -> bool:
    word, _, computation = kind.partition(" ")
    if word in SOURCES:
        same = not computation or source.row.get("computation") == computation
        return source.kind in SOURCES[word] and same
    if kind in WORDS:
        return source.kind in ("lot", "choice")
    return source.kind == "reading" and source.row.get("unit") == kind


def _set_points(book: Book, ask: AskAt) -> list[str]:
    points = book.word((*ask.path, "points"))
    return book.ids((*SCENARIO, points)) if points in POINT_SETS else []


def _kind_of(source: AskAt) -> str:
    match source.kind:
        case "reading":
            return f"a reading in {source.row.get('unit')}"
        case "compute":
            return f"the result of {source.row.get('computation')}"
    return f"a {source.kind}"


def _told(kind: str) -> str:
    """What an input must be, in words."""
    word, _, computation = kind.partition(" ")
    match word:
        case "@lot" | "@choice" | "@tally":
            return f"a {word[1:]}"
        case "@run":
            return "a heat_run"
        case "@moment":
            return "an answer whose time counts (tick, text, choice or reading)"
        case "@result":
            return f"a result of {computation}"
        case "@table":
            return "a table, {unit: mm, rows: [{length: 12, grip: [6.5, 8.5]}]}"
    if kind in WORDS:
        return "the name of a material, with unit: material, or a lot or a choice"
    return f"a figure in {kind}"
