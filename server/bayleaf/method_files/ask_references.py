"""Checks what an ask says of others: options, points, deadlines, materials, groups, earlier answers."""

from __future__ import annotations

from collections.abc import Iterator

from .book import Book
from .compute_references import compute_faults
from .faults import Fault, Path, shown
from .index import AskAt, Index, named_ask, named_step
from .words import option_id, slug

SCENARIO: Path = ("scenario",)
TIMES = ("s", "min", "h", "d")
TIMED = ("tick", "text", "choice", "reading", "lot", "photo")
LADDERS = {
    "taking_out": ("in_place", "mandrel_out", "head_drilled", "head_off", "shank_out"),
    "setting": ("hole_checked", "rivet_seated", "set", "set_and_checked"),
}


def ask_faults(book: Book, index: Index, ask: AskAt) -> Iterator[Fault]:
    """Every fault of one ask; those of heat runs are found over the whole file."""
    yield from _when(book, index, ask)
    match ask.kind:
        case "choice":
            yield from _choice(book, ask.path)
        case "reading":
            yield from _against(book, index, ask)
            yield from _since(book, index, ask)
        case "photo":
            yield from _photo(book, index, ask)
        case "lot":
            yield from _lot(book, ask.path)
        case "tally":
            yield from _tally(book, ask.path)
        case "compute":
            yield from compute_faults(book, index, ask)


def _when(book: Book, index: Index, ask: AskAt) -> Iterator[Fault]:
    condition = book.at((*ask.path, "when"))
    for name, option in condition.items() if isinstance(condition, dict) else []:
        path = (*ask.path, "when", name)
        choice = index.asks.get((ask.step.id, name))
        known = [one.id for one in index.asks_of(ask.step) if one.kind == "choice"]
        if choice is None or choice.kind != "choice":
            yield book.unknown(path, name, f"choice of {ask.step.id}", known)
            continue
        if choice.place >= ask.place:
            found = f"{shown(name)}, a choice that comes later"
            yield book.fault(path, found, "needed: a choice that stands before this ask in the same step")
        options = [word for _, word in book.words((*choice.path, "options"))]
        if isinstance(option, str) and option_id(option) not in {option_id(word) for word in options}:
            yield book.unknown(path, option, f"option of {name}", options)


def _choice(book: Book, path: Path) -> Iterator[Fault]:
    options = [word for _, word in book.words((*path, "options"))]
    for stop_path, stop in book.words((*path, "stop_if")):
        if stop not in options:
            yield book.unknown(stop_path, stop, "option of this ask", options)


def _against(book: Book, index: Index, ask: AskAt) -> Iterator[Fault]:
    path = (*ask.path, "against")
    word = book.word(path)
    if word is None:
        return
    named = named_ask(book, index, path, word, ask)
    if isinstance(named, Fault):
        yield named
        return
    earlier, point = named
    if earlier.kind != "reading":
        yield book.fault(path, f"{shown(word)}, a {earlier.kind}", "needed: a reading")
        return
    for key in ("unit", "decimals"):
        here, there = ask.row.get(key), earlier.row.get(key)
        if here != there:
            found = f"{shown(word)}, whose {key} is {shown(there)}"
            yield book.fault(path, found, f"needed: a reading with {key} {shown(here)}, as this one")
    missing = [one for one in ask.points if one not in earlier.points] if not point else []
    if missing or (earlier.points and not ask.points and not point):
        found = f"{shown(word)}, read at {', '.join(earlier.points) or 'one place'}"
        yield book.fault(path, found, f"needed: the points of this one: {', '.join(ask.points) or 'none'}")
    if "min" not in ask.row and "max" not in ask.row:
        yield book.fault(path, "`against` without min or max", "needed: the limit of the difference")


def _since(book: Book, index: Index, ask: AskAt) -> Iterator[Fault]:
    path = (*ask.path, "since")
    word = book.word(path)
    if word is None:
        return
    named = named_ask(book, index, path, word, ask)
    if isinstance(named, Fault):
        yield named
    elif named[0].kind not in TIMED:
        yield book.fault(path, f"{shown(word)}, a {named[0].kind}", f"needed: one of {', '.join(TIMED)}")
    unit = book.word((*ask.path, "unit"))
    if unit is not None and unit not in TIMES:
        allowed = f"needed with `since`: a unit of time: {', '.join(TIMES)}"
        yield book.fault((*ask.path, "unit"), shown(unit), allowed)


def _photo(book: Book, index: Index, ask: AskAt) -> Iterator[Fault]:
    drawings = book.ids((*SCENARIO, "drawings"))
    yield from _named(book, (*ask.path, "outline"), "drawing", drawings)
    path = (*ask.path, "deadline", "before_step")
    word = book.word(path)
    if word is None:
        return
    step = named_step(book, index, path, word, ask.step.method)
    if isinstance(step, Fault):
        yield step
    elif step.method != ask.step.method:
        found = f"{shown(word)}, a step of the method {step.method}"
        yield book.fault(path, found, "needed: a step of the same method")
    elif step.place <= ask.step.place:
        found = f"{shown(word)}, which does not come after {ask.step.id}"
        yield book.fault(path, found, "needed: the later step that makes the photo impossible")


def _lot(book: Book, path: Path) -> Iterator[Fault]:
    """With a list of materials a lot names one of them; without, its own words are the material."""
    words = book.word((*path, "of"))
    materials = book.ids((*SCENARIO, "materials"))
    if words is None:
        return
    if not slug(words):
        yield book.fault((*path, "of"), shown(words), "needed: a material in letters or digits")
    elif book.at((*SCENARIO, "materials")) is not None and slug(words) not in materials:
        yield book.unknown((*path, "of"), words, "material", materials)


def _tally(book: Book, path: Path) -> Iterator[Fault]:
    yield from _named(book, (*path, "group"), "rivet group", book.ids((*SCENARIO, "rivet_groups")))
    ladder, state = book.word((*path, "ladder")), book.word((*path, "to"))
    if ladder and state and state not in LADDERS[ladder]:
        yield book.fault(
            (*path, "to"), shown(state), f"states of the ladder {ladder}: {', '.join(LADDERS[ladder])}"
        )


def _named(book: Book, path: Path, what: str, known: list[str]) -> Iterator[Fault]:
    word = book.word(path)
    if word is not None and word not in known:
        yield book.unknown(path, word, what, known)
