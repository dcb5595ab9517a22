"""Prepares what deviates for the first page: the same rows in full, shorter and briefest.

The typesetter measures which of them fit above the seal (`templates/first.typ`); the chapter says everything
in full.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from bayleaf.report.issues import Issue
from bayleaf.report.ledger import LATE
from bayleaf.report.words import clipped

MOST_ROWS: Final = 24  # more never stand on a page, and each is measured
MOST_REASON: Final = 500
SIGNATURE: Final = re.compile(r" \([^()]*\)$")
LATENESS: Final = re.compile(rf", {LATE}[^;)]*")


@dataclass(frozen=True)
class Length:
    """How many texts a cell may hold, and how many characters each, the signature not counted."""

    texts: int
    characters: int


CELLS: Final = ("what", "reason", "accepted")
SHORTER: Final = (Length(3, 170), Length(2, 110), Length(1, 50))


def first_page(issues: Sequence[Issue], reason: str) -> dict[str, Any]:
    """All issues as rows, the rows for the first page from long to brief, and the reason as it fits."""
    rows = [issue_row(issue) for issue in issues]
    some = rows[:MOST_ROWS]
    return {
        "issues": rows,
        "first_issues": [some, *([_short(row, length) for row in some] for length in SHORTER)],
        "short_reason": clipped(reason, MOST_REASON),
    }


def issue_row(issue: Issue) -> dict[str, Any]:
    """An issue as the table shows it."""
    return {
        "kind": issue.kind,
        "step": issue.step,
        "title": issue.title,
        "what": list(issue.what),
        "reason": list(issue.reason),
        "accepted": list(issue.accepted),
        "lacks": issue.lacks,
    }


def _short(row: dict[str, Any], length: Length) -> dict[str, Any]:
    return {**row, **{cell: [_clip(one, length) for one in row[cell][: length.texts]] for cell in CELLS}}


def _clip(text: str, length: Length) -> str:
    """Who signed, and when, stays; when it reached the office can be read in the chapter."""
    found = SIGNATURE.search(text)
    signature = LATENESS.sub("", found[0]) if found else ""
    return clipped(text[: found.start()] if found else text, length.characters) + signature
