"""Adhesive from a mixer that had set stands in the report; the demo's mixer sets in 8 minutes."""

from __future__ import annotations

from dataclasses import replace

from bayleaf.domain.entries import Entry
from bayleaf.domain.fold import fold
from bayleaf.report.late_mixer import late_mixer_words
from bayleaf.report.ledger import Ledger
from bayleaf.report.source import Arrival, ReportSource
from harness.played import frame_methods, played_fitting

MINUTE_MS = 60_000


def told(*acts: tuple[str, int], behind_min: tuple[int, ...] = ()) -> str:
    """Of the whole job with these acts at a mixer, so many minutes after the first gram by each clock.

    `behind_min`: how far each phone's clock was behind the server's, where the office knows it.
    """
    played = played_fitting().entries
    note = next(one for one in played if one.kind == "note")
    start_ms = next(one.at_ms for one in played if one.body.get("ask") == "first_gram")
    notes: list[Entry] = [
        replace(
            note,
            hash=f"{number:064x}",
            at_ms=start_ms + minute * MINUTE_MS,
            body={**note.body, "mixer": act},
        )
        for number, (act, minute) in enumerate(acts)
    ]
    entries, methods = [*played, *notes], frame_methods()
    source = ReportSource("job", 0, None, "", fold(methods, entries), entries, methods, {})
    behind = zip(notes, behind_min, strict=False)
    arrivals = {one.hash: Arrival(one.at_ms, minute * MINUTE_MS) for one, minute in behind}
    return late_mixer_words(Ledger(replace(source, arrivals=arrivals)))


def test_a_mixer_that_flowed_again_in_time_or_was_changed_is_no_fault() -> None:
    assert told(("stands", 2), ("flows", 10)) == ""
    assert told(("stands", 2), ("changed", 14)) == ""


def test_one_that_had_stood_longer_than_its_gel_time_is_told_with_both_times() -> None:
    assert told(("stands", 2), ("flows", 11)).replace("\u00a0", " ") == (
        "Adhesive flowed again from a mixer that had stood 9 min; its gel time is 8 min."
    )


def test_two_phones_are_told_apart_by_the_servers_clock() -> None:
    assert told(("stands", 2), ("flows", 8)) == ""
    later = told(("stands", 2), ("flows", 8), behind_min=(1, 4))
    assert later.replace("\u00a0", " ").startswith("Adhesive flowed again from a mixer that had stood 9 min;")
