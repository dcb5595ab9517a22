"""Rivets that were set after the open time stand in the report by name and minute."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bayleaf.domain.entries import Entry
from bayleaf.domain.fold import fold
from bayleaf.report.late_rivets import late_rivets_words
from bayleaf.report.ledger import Ledger
from bayleaf.report.source import Arrival, ReportSource
from harness.played import frame_methods, played_fitting

MINUTE_MS = 60_000
OPEN_MIN = 35  # invented adhesive at 23 C, as moment 9 has it


def ledger_of(entries: Sequence[Entry], arrivals: dict[str, Arrival] | None = None) -> Ledger:
    methods = frame_methods()
    state = fold(methods, entries)
    return Ledger(ReportSource("job", 0, None, "", state, entries, methods, {}, arrivals=arrivals or {}))


def first_gram(entries: Sequence[Entry]) -> Entry:
    return next(one for one in entries if one.kind == "tick" and one.body["ask"] == "first_gram")


def moved(entries: Sequence[Entry], position: str, minute: int) -> list[Entry]:
    """The job with one rivet set so many minutes after the first gram."""
    start_ms = first_gram(entries).at_ms
    return [
        replace(one, at_ms=start_ms + minute * MINUTE_MS)
        if one.kind == "tally" and one.body["position"] == position and one.body.get("state") == "set"
        else one
        for one in entries
    ]


def test_nothing_is_said_of_rivets_that_were_in_time() -> None:
    assert late_rivets_words(ledger_of(played_fitting().entries)) == ""


def test_a_rivet_that_was_set_late_is_named_with_its_minute() -> None:
    entries = moved(moved(played_fitting().entries, "F6", OPEN_MIN + 2), "F5", OPEN_MIN)
    assert late_rivets_words(ledger_of(entries)) == "Set after the open time of 35 min: F6 at minute 37."


def test_clocks_that_are_known_to_differ_are_put_right() -> None:
    entries = moved(played_fitting().entries, "F6", OPEN_MIN + 2)
    late = next(
        one
        for one in entries
        if one.kind == "tally" and one.body["position"] == "F6" and one.body.get("state") == "set"
    )
    ahead = {first_gram(entries).hash: Arrival(0, 1000), late.hash: Arrival(0, 1000 - 5 * MINUTE_MS)}
    assert late_rivets_words(ledger_of(entries, ahead)) == ""
