"""Checks heat runs: zone, settings, the order of release, and a run that several steps share."""

from __future__ import annotations

from collections.abc import Generator, Iterator

from .book import Book, Row
from .faults import Fault, Path, shown
from .index import AskAt, Index, named_ask

SCENARIO: Path = ("scenario",)
ZONES: Path = (*SCENARIO, "heat_zones")
PARTS = ("ramp", "soak", "release", "cool_down")


def heat_faults(book: Book, index: Index) -> Iterator[Fault]:
    """Every fault of every heat run of the file."""
    taken: dict[tuple[str, str], dict[str, str]] = {}
    for ask in index.asks.values():
        if ask.kind == "heat_run":
            yield from _scenario(book, ask)
            begun = yield from _begun(book, index, ask)
            yield from _parts(book, ask, taken.setdefault((begun.step.id, begun.id), {}))


def _scenario(book: Book, ask: AskAt) -> Iterator[Fault]:
    zone, purpose = book.word((*ask.path, "zone")), book.word((*ask.path, "purpose"))
    zones = book.ids(ZONES)
    if zone is not None and zone not in zones:
        yield book.unknown((*ask.path, "zone"), zone, "heat zone", zones)
    elif zone is not None and "release_order" in ask.row:
        yield from _release(book, (*ask.path, "release_order"), pads_of(book, zone))
    if purpose and not isinstance(book.at((*SCENARIO, "heat_settings", purpose)), dict):
        yield book.fault((*ask.path, "purpose"), shown(purpose), f"needed: scenario.heat_settings.{purpose}")
    if not book.ids((*SCENARIO, "sensors_per_zone")):
        yield book.fault(ask.path, "a heat run without sensors", "needed: scenario.sensors_per_zone")


def pads_of(book: Book, zone: str) -> list[str]:
    """The pads of a zone; of a zone that is made of others, theirs."""
    by_id = {str(row.get("id")): path for path, row in book.rows(ZONES)}
    if zone not in by_id:
        return []
    made_of = [word for _, word in book.words((*by_id[zone], "made_of"))]
    return [pad for one in made_of or [zone] if one in by_id for pad in book.ids((*by_id[one], "pads"))]


def _release(book: Book, path: Path, pads: list[str]) -> Iterator[Fault]:
    named = list(book.words(path))
    for pad_path, pad in named:
        if pad not in pads:
            yield book.unknown(pad_path, pad, "pad of this zone", pads)
    order = [pad for _, pad in named]
    missing = [pad for pad in pads if pad not in order]
    if missing:
        yield book.fault(path, f"no {', '.join(missing)}", "needed: every pad of the zone, once")
    if len(set(order)) < len(order):
        yield book.fault(path, "a pad twice", "needed: every pad of the zone, once")


def _begun(book: Book, index: Index, ask: AskAt) -> Generator[Fault, None, AskAt]:
    """Finds the ask that began the run: this one, or the one that it continues."""
    path = (*ask.path, "continues")
    word = book.word(path)
    if word is None:
        return ask
    named = named_ask(book, index, path, word, ask)
    if isinstance(named, Fault):
        yield named
        return ask
    begun = named[0]
    if begun.kind != "heat_run":
        yield book.fault(path, f"{shown(word)}, a {begun.kind}", "needed: the heat_run that begins the run")
        return ask
    if begun.step.method != ask.step.method:
        yield book.fault(path, f"{shown(word)}, of another method", "needed: a run of the same method")
    if "continues" in begun.row:
        found = f"{shown(word)}, which continues a run itself"
        yield book.fault(path, found, f"needed: the one that begins it: {begun.row['continues']}")
    for key in ("zone", "purpose"):
        if ask.row.get(key) != begun.row.get(key):
            found = f"{shown(ask.row.get(key))} in a run that was begun with {shown(begun.row.get(key))}"
            yield book.fault((*ask.path, key), found, "needed: the same in every part of a run")
    return begun


def _parts(book: Book, ask: AskAt, taken: dict[str, str]) -> Iterator[Fault]:
    path = (*ask.path, "parts")
    parts = [part for _, part in book.words(path)] if "parts" in ask.row else list(PARTS)
    where = path if "parts" in ask.row else ask.path
    if path in book.broken:
        return
    if ("ramp" in parts) == ("continues" in ask.row):
        yield book.fault(where, *_ramp(ask.row, parts))
        return
    for part in parts:
        if part in taken:
            found = f"{part}, which {taken[part]} has already"
            yield book.fault(where, found, "needed: each part of a run at one step")
        taken.setdefault(part, ask.step.id)
    if "release_order" in ask.row and "release" not in parts:
        found = "an order at a part of the run that has no release"
        yield book.fault((*ask.path, "release_order"), found, "needed: parts with release, or no order here")


def _ramp(row: Row, parts: list[str]) -> tuple[str, str]:
    if "continues" in row:
        return "ramp in a run that goes on", "needed: parts without ramp, such as [release, cool_down]"
    return (
        f"[{', '.join(parts)}], without ramp",
        "needed: ramp, or `continues` with the step.ask that begins the run",
    )
