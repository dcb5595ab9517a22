"""Remarks of a method check: what the file does not say, and what was taken for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from .book import Book
from .build_heat import GAP_MAX_S, RAMP_S
from .build_scenario import SENSORS_OF, materials_of
from .faults import Path
from .heat_references import pads_of
from .index import AskAt, Index
from .length_tables import table_remarks
from .maps import unmarked
from .tree import label

SCENARIO: Path = ("scenario",)
SETTINGS: Path = (*SCENARIO, "heat_settings")
UNSOURCED = "common practice, no source"


@dataclass(frozen=True, order=True)
class Remark:
    """Something that is no fault, but that whoever writes the method should have seen."""

    line: int
    field: str
    said: str

    def __str__(self) -> str:
        return f"line {self.line}: {self.field}: {self.said}"


def remarks_on(book: Book, index: Index, drawings: Mapping[str, bytes]) -> list[Remark]:
    """All remarks on a file without faults, by line."""
    found = [
        *_times(book),
        *_sensors(book),
        *_materials(book),
        *_releases(book, index),
        *(_remark(book, path, said) for path, said in table_remarks(book, index)),
        *_unmarked(book, drawings),
    ]
    return sorted(set(found))


def _remark(book: Book, path: Path, said: str) -> Remark:
    return Remark(book.source.line(path), label(book.source.values, path), said)


def _times(book: Book) -> Iterator[Remark]:
    for purpose in ("removal", "cure"):
        path = (*SETTINGS, purpose)
        figures = book.at(path)
        if not isinstance(figures, dict):
            continue
        if "gap_max_seconds" not in figures:
            yield _remark(book, path, f"no `gap_max_seconds`; {GAP_MAX_S} taken ({UNSOURCED})")
        if "ramp_expected_minutes" not in figures:
            yield _remark(book, path, f"no `ramp_expected_minutes`; {RAMP_S // 60} taken ({UNSOURCED})")


def _sensors(book: Book) -> Iterator[Remark]:
    for path, row in book.rows((*SCENARIO, "sensors_per_zone")):
        if "of" not in row and row["id"] in SENSORS_OF:
            told = SENSORS_OF[row["id"]]
            yield _remark(book, path, f"no `of` at the sensor {row['id']}; {told} taken by its letter")


def _materials(book: Book) -> Iterator[Remark]:
    taken = [row["id"] for row in materials_of(book.source.values)]
    if book.at((*SCENARIO, "materials")) is None and taken:
        yield _remark(book, SCENARIO, f"no `materials`; taken from the lots: {', '.join(taken)}")


def _releases(book: Book, index: Index) -> Iterator[Remark]:
    """Runs whose order of release nothing says, and runs that no step brings to their end."""
    runs: dict[str, list[AskAt]] = {}
    for ask in index.asks.values():
        if ask.kind == "heat_run":
            begun = str(ask.row.get("continues", f"{ask.step.id}.{ask.id}"))
            runs.setdefault(begun, []).append(ask)
    for asks in runs.values():
        first = asks[0]
        pads = pads_of(book, str(first.row["zone"]))
        if not any("release_order" in ask.row for ask in asks) and len(pads) > 1:
            yield _remark(
                book, first.path, f"no `release_order`; {', '.join(pads)} taken, as the zone lists them"
            )
        parts = {part for ask in asks for part in ask.row.get("parts", ["release", "cool_down"])}
        if not {"release", "cool_down"} <= parts:
            yield _remark(book, first.path, "no step records the run's release and cool_down")


def _unmarked(book: Book, drawings: Mapping[str, bytes]) -> Iterator[Remark]:
    for path, positions in unmarked(book, drawings):
        yield _remark(book, path, f"the drawing has no place for {', '.join(positions)}")
