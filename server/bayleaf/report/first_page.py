"""Chooses how much of what deviates stands on the first page, so that the seal has its room there.

The page is measured by counting lines; the figures are those of `templates/page.typ` and `first.typ`, in
points, rounded up. Being a line out costs beauty, no words: the chapter says everything in full.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import ceil
from typing import Any, Final

from bayleaf.report.issues import Issue
from bayleaf.report.words import clipped

PAGE_PT: Final = 715
FIXED_PT: Final = 200  # title, seal, chapters, heads of the table
BAND_PT: Final = 32
LINE_PT: Final = 11.5
SMALL_LINE_PT: Final = 10.2
VERDICT_LINE_PT: Final = 18
GAP_PT: Final = 9
FACT_CHARS, VERDICT_CHARS, WIDE_CHARS = 92, 58, 112
CELLS: Final = (("what", 37), ("reason", 31), ("accepted", 25))
TITLE_CHARS: Final = 22
MOST_WORDS: Final = 170
MOST_TEXTS: Final = 3
LEAST_ROWS: Final = 2
MOST_REASON: Final = 500


def first_page(page: Mapping[str, Any], issues: Sequence[Issue], reason: str) -> dict[str, Any]:
    """All issues as rows, those for the first page, whether these say all, and the reason as it fits."""
    short_reason = clipped(reason, MOST_REASON)
    room = PAGE_PT - _height_before(page, short_reason)
    rows = [issue_row(issue) for issue in issues]
    short = [_short(row) for row in rows]
    kept = _that_fit(short, room)
    return {
        "issues": rows,
        "first_issues": short[:kept],
        "first_page_fits": kept == len(rows) and short == rows and short_reason == reason,
        "short_reason": short_reason,
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


def _short(row: dict[str, Any]) -> dict[str, Any]:
    return {**row, **{key: [clipped(one, MOST_WORDS) for one in row[key][:MOST_TEXTS]] for key, _ in CELLS}}


def _that_fit(rows: Sequence[Mapping[str, Any]], room: float) -> int:
    """How many of the first rows fit; a few stand there in any case."""
    kept = 0
    for row in rows:
        room -= _row_height(row)
        if room < 0 and kept >= LEAST_ROWS:
            break
        kept += 1
    return kept


def _row_height(row: Mapping[str, Any]) -> float:
    lines = [sum(_lines(one, chars) for one in row[key]) + 0.4 * len(row[key]) for key, chars in CELLS]
    lines[-1] += _lines(row["lacks"], CELLS[-1][1])
    return max(*lines, 1 + _lines(row["title"], TITLE_CHARS)) * SMALL_LINE_PT + GAP_PT


def _height_before(page: Mapping[str, Any], reason: str) -> float:
    """What stands above the table."""
    bands = BAND_PT * (bool(page["invented"]) + bool(page["preview"]))
    facts = sum(_lines(said, FACT_CHARS) for _, said in page["facts"]) + len(page["supersedes"])
    verdict = _lines(page["verdict"]["words"], VERDICT_CHARS) * VERDICT_LINE_PT
    stages = _lines(page["stages_done"], WIDE_CHARS) * SMALL_LINE_PT
    missing = sum(_lines(one, FACT_CHARS) for one in page["missing"]) + _lines(reason, FACT_CHARS)
    head = 3 * GAP_PT if missing else 0
    return FIXED_PT + bands + facts * LINE_PT + verdict + stages + 4 * GAP_PT + missing * (LINE_PT + 2) + head


def _lines(text: str, chars: int) -> int:
    return sum(max(1, ceil(len(line) / chars)) for line in text.split("\n")) if text else 0
