"""The notes that say in the record where a logger's readings came from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final, TypedDict

from bayleaf.readings_ports import ReadingFile
from bayleaf.usecases.readings_run import RunAt
from bayleaf.usecases.server_pen import Draft

LINES_NAMED: Final = 20


class Outcome(TypedDict):
    """What came of a file so far; `noted` are the entries that a note names already."""

    rows: int
    readings: int
    taken: int
    unread: list[dict[str, Any]]
    unread_total: int
    before_on: int
    blank: int
    hashes: list[str]
    noted: list[str]


def note_of(at: RunAt, file: ReadingFile, outcome: Outcome, about: Sequence[str]) -> Draft:
    """Of a file that was read in: which, how much of it, and what was left out."""
    left = [
        _unread(outcome),
        _counted(outcome["before_on"], "row", "before switch-on left out"),
        _counted(outcome["blank"], "empty cell", "left out"),
    ]
    text = " ".join(
        [
            f"Readings of a logger\u2019s file: {file.name}, logger {file.logger}, SHA-256 {file.sha256}.",
            f"{outcome['taken']} readings taken from {outcome['rows']} rows.",
            *(f"{one}." for one in left if one),
        ]
    )
    return Draft("note", {**_at_step(at), "text": text, "about": sorted(about)})


def note_of_key(at: RunAt, logger: str) -> Draft:
    """Of a logger that may write into the run by itself."""
    text = f"Logger {logger} was let in to write the readings of zone {at.zone.name} into this run."
    return Draft("note", {**_at_step(at), "text": text, "about": [at.run]})


def _at_step(at: RunAt) -> dict[str, str]:
    return {name: at.on.body[name] for name in ("method", "digest", "step")}


def _unread(outcome: Outcome) -> str:
    total = outcome["unread_total"]
    lines = sorted({one["line"] for one in outcome["unread"]})
    named = ", ".join(map(str, lines[:LINES_NAMED])) + (" and more" if len(lines) > LINES_NAMED else "")
    where = "line" if len(lines) == 1 else "lines"
    return _counted(total, "row or cell", f"could not be read, in {where} {named}") if total else ""


def _counted(amount: int, what: str, then: str) -> str:
    if amount == 0:
        return ""
    plural = {"row or cell": "rows or cells"}.get(what, f"{what}s")
    return f"{amount} {what if amount == 1 else plural} {then}"
