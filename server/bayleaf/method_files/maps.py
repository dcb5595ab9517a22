"""The maps of a method: what its drawings mark, held to the groups, zones, pads and sensors of the file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from .book import Book, Row
from .drawings import Drawing, Mark, read_drawing
from .faults import Fault, Path, shown
from .figures import positions_of

SCENARIO: Path = ("scenario",)
DRAWINGS: Path = (*SCENARIO, "drawings")
LISTS = {"data-place": "places", "data-pad": "pads", "data-sensor": "sensors", "data-zone": "zones"}
WHAT = {
    "data-place": "position",
    "data-pad": "pad (zone:pad)",
    "data-sensor": "sensor (zone:sensor)",
    "data-zone": "heat zone",
}


def read_drawings(book: Book, drawings: Mapping[str, bytes]) -> dict[Path, Drawing]:
    """Each drawing that the file names and that is there, by the path of its row."""
    return {
        path: read_drawing(drawings[row["file"]])
        for path, row in book.rows(DRAWINGS)
        if book.word((*path, "file")) in drawings
    }


def drawing_faults(book: Book, drawings: Mapping[str, bytes]) -> Iterator[Fault]:
    """Drawings that are not there, that are no plain drawing, or that mark what the file does not know."""
    for path, _ in book.rows(DRAWINGS):
        name = book.word((*path, "file"))
        if name is not None and name not in drawings:
            allowed = "needed: the drawing beside the method file"
            yield book.fault((*path, "file"), f"{shown(name)}, a file that is not there", allowed)
    known = _known(book)
    for path, drawing in read_drawings(book, drawings).items():
        for line, found, allowed in drawing.faults:
            yield _in_drawing(book, path, line, found, allowed)
        taken: set[tuple[str, str]] = set()
        for mark in drawing.marks:
            yield from _mark(book, path, mark, known[mark.kind])
            if (mark.kind, mark.says) in taken:
                found = f'{mark.kind}="{mark.says}" a second time'
                yield _in_drawing(book, path, mark.line, found, "needed: each place once")
            taken.add((mark.kind, mark.says))


def _in_drawing(book: Book, path: Path, line: int, found: str, allowed: str) -> Fault:
    file = book.word((*path, "file"))
    return book.fault((*path, "file"), f"in {file}, line {line}: {found}", allowed)


def _mark(book: Book, path: Path, mark: Mark, known: list[str]) -> Iterator[Fault]:
    if mark.says not in known:
        found = f'{mark.kind}="{mark.says}", which is no {WHAT[mark.kind]} of this file'
        yield _in_drawing(book, path, mark.line, found, f"known: {', '.join(known) or 'none'}")


def _known(book: Book) -> dict[str, list[str]]:
    """What a drawing may mark; a zone made of others has no place of its own."""
    groups = [book.word((*path, "positions")) for path, _ in book.rows((*SCENARIO, "rivet_groups"))]
    zones = [path for path, row in book.rows((*SCENARIO, "heat_zones")) if "made_of" not in row]
    names = {path: str(book.at((*path, "id"))) for path in zones}
    sensors = book.ids((*SCENARIO, "sensors_per_zone"))
    return {
        "data-place": [position for text in groups if text for position in positions_of(text)],
        "data-zone": list(names.values()),
        "data-pad": [f"{names[path]}:{pad}" for path in zones for pad in book.ids((*path, "pads"))],
        "data-sensor": [f"{names[path]}:{sensor}" for path in zones for sensor in sensors],
    }


def unmarked(book: Book, drawings: Mapping[str, bytes]) -> Iterator[tuple[Path, list[str]]]:
    """Positions that a drawing leaves out though it marks others: (path of the drawing, positions)."""
    every = _known(book)["data-place"]
    for path, drawing in read_drawings(book, drawings).items():
        marked = {mark.says for mark in drawing.marks if mark.kind == "data-place"}
        missing = [position for position in every if position not in marked]
        if marked and missing:
            yield path, missing


def maps_of(book: Book, drawings: Mapping[str, bytes]) -> list[Row]:
    """One map per drawing that marks anything, its places in the drawing's order."""
    return [
        {"drawing": book.at((*path, "id")), "size": list(drawing.size or (0, 0)), **_lists(drawing.marks)}
        for path, drawing in read_drawings(book, drawings).items()
        if drawing.marks
    ]


def _lists(marks: list[Mark]) -> dict[str, list[Row]]:
    found: dict[str, list[Row]] = {name: [] for name in LISTS.values()}
    for mark in marks:
        found[LISTS[mark.kind]].append(_spot(mark))
    return found


def _spot(mark: Mark) -> Row:
    zone, colon, name = mark.says.partition(":")
    named = {"zone": zone, "id": name} if colon else {"id": mark.says}
    return named | dict(zip(("x", "y", "w", "h"), mark.at, strict=False))
