"""The first page answers: what was done, does it conform, what deviates, what is missing."""

from __future__ import annotations

from typing import Any

from bayleaf.report.contents import contents_of
from unit.report.jobs import READINGS, accept, book_in, bowed, measure, well, write_act
from unit.report.made_up import Log, at


def report_of(log: Log, **filed: Any) -> dict[str, Any]:
    found: dict[str, Any] = contents_of(log.source(**filed))["report"]
    return found


def test_a_job_in_which_all_is_well_conforms_in_one_sentence() -> None:
    report = report_of(well(), filed="4 10:00")
    assert report["verdict"] == {
        "kind": "conforms",
        "words": "The record conforms: every step is done, every hold point passed, nothing deviates.",
    }
    assert report["done"] == "4 of 4 steps done, 1 of 1 hold points passed, one heat run, one photo."
    assert report["stages_done"] == "Receive; Work"
    assert (report["issues"], report["missing"], report["preview"]) == ([], [], "")


def test_the_job_is_named_with_vehicle_part_methods_lots_and_days() -> None:
    report = report_of(well(), filed="4 10:00")
    assert report["facts"] == [
        ["Vehicle", "invented van"],
        ["VIN", "INVENTED0000000T7"],
        ["Part", "invented bracket, left side"],
        ["Methods", "Take a small bracket off, revision made-1"],
        ["Lots", "flange cleaner CL-88"],
        ["Heat runs", "1 upper joint, removal: conforms"],
        ["Worked", "2026-11-03 09:00 to 2026-11-03 12:20"],
        ["Filed", "2026-11-04 10:00 by Ada Quill"],
        [
            "Times",
            "UTC on every page, not the shop\u2019s local time; each as its author\u2019s own clock had it",
        ],
    ]
    assert report["invented"].startswith("INVENTED")
    assert report["seal"]["groups"][:4] == ["0123", "4567", "89ab", "cdef"]


def test_a_heat_run_that_deviates_is_told_in_the_sentence_and_with_figure_and_limit() -> None:
    report = report_of(well(readings=READINGS), filed="4 10:00")
    assert report["verdict"] == {
        "kind": "accepted",
        "words": "The record conforms, with one heat run that deviates.",
    }
    assert dict(report["facts"])["Heat runs"] == (
        "1 upper joint, removal: conforms, with deviations (last reading, hottest sensor "
        "130\u00a0\u00b0C, at most 45\u00a0\u00b0C and longest time without a reading "
        "600\u00a0s, at most 300\u00a0s)"
    )


def test_an_aborted_run_is_told_on_the_first_page() -> None:
    log = well()
    write_act(log, run_of(log), "abort", 1200, text="a pad smoked")
    facts = dict(report_of(log, filed="4 10:00")["facts"])
    assert facts["Heat runs"] == "1 upper joint, removal: conforms, with deviations; it was aborted"


def run_of(log: Log) -> str:
    return next(one.hash for one in log.entries if one.kind == "heat" and one.body["act"] == "on")


def test_a_deviation_stands_with_step_figure_limit_reason_and_that_nobody_accepted_it() -> None:
    log = Log()
    bowed(log)
    report = report_of(log, filed="4 10:00")
    assert report["verdict"]["words"] == "The record does not conform: one deviation that nobody accepted."
    (issue,) = report["issues"]
    assert issue == {
        "kind": "deviation",
        "step": "2 two",
        "title": "Measure the aperture",
        "what": [
            "outside its limits: bow 0.74\u00a0mm; limit at most 0.50\u00a0mm",
            "the hold point is passed by this deviation",
        ],
        "reason": ["Flange was bent before we began, see photo 1. (Mara Ilves, 2026-11-03 09:13)"],
        "accepted": [],
        "lacks": "not accepted",
    }


def test_a_deviation_conforms_once_the_office_accepted_it_and_the_finding_that_it_explains() -> None:
    log = Log()
    reading, deviation = bowed(log)
    accept(log, "deviation", deviation, ["small", "two"], "Seen, old damage.")
    assert "does not conform" in report_of(log, filed="4 10:00")["verdict"]["words"]
    accept(log, "outside_limits", reading, ["small", "two", "bow"], "Within what paint fills.")
    report = report_of(log, filed="4 10:00")
    assert report["verdict"] == {
        "kind": "accepted",
        "words": "The record conforms, with one accepted deviation.",
    }
    assert report["issues"][0]["accepted"] == [
        "Ada Quill, 2026-11-04 09:00: Seen, old damage.",
        "Ada Quill, 2026-11-04 09:00: Within what paint fills.",
    ]


def test_a_finding_without_a_deviation_says_so_and_is_counted() -> None:
    log = Log()
    log.open()
    book_in(log)
    measure(log, bow=74)
    report = report_of(log)
    assert report["verdict"]["words"] == (
        "The record does not conform: one open finding, three steps not done and one hold point not passed."
    )
    assert report["issues"][0]["reason"] == []


def test_an_incomplete_filing_shows_its_reason_and_all_that_is_missing() -> None:
    log = Log()
    log.open()
    book_in(log)
    log.photo("pim", "3 09:30", "one", "damage", b"still on a phone", held=False)
    report = report_of(log, filed="4 10:00", reason="The van must leave.")
    assert report["reason"] == report["short_reason"] == "The van must leave."
    assert report["stages_done"] == "Receive (1 of 2 steps); Work (0 of 2 steps)"
    assert report["missing"] == [
        "The job is not closed.",
        "Not done: three steps (two to four).",
        "Not passed: one hold point (two).",
        "Recorded, but the picture never reached the office: one photo (2).",
    ]


def test_a_step_done_without_its_photo_is_named_as_missing_that_photo() -> None:
    log = Log()
    log.open()
    log.tick("mara", "3 09:05", "one")
    assert "No photo: one photo slot (one damage)." in report_of(log, filed="4 10:00", reason="x")["missing"]


def test_a_long_reason_is_clipped_on_the_first_page_and_whole_in_the_chapter() -> None:
    report = report_of(well(), filed="4 10:00", reason="word " * 800)
    assert len(report["short_reason"]) < 510
    assert report["short_reason"].endswith(" \u2026")
    assert len(report["reason"]) == 4000


def test_a_long_deviation_keeps_who_signed_it_however_short_it_is_said() -> None:
    log = well()
    body = {**log.step("one"), "text": "because " * 50, "about": [], "passes_hold": False}
    log.write("mara", "3 14:10", "deviation", body, came="3 17:00")
    in_full, *shorter = report_of(log, filed="4 10:00")["first_issues"]
    assert "late: reached the office 2026-11-03 17:00)" in in_full[0]["reason"][0]
    for rows in shorter:
        assert rows[0]["reason"][0].endswith(" \u2026 (Mara Ilves, 2026-11-03 14:10)")


def test_a_preview_says_that_it_is_one_and_bears_the_time_of_the_newest_entry() -> None:
    source = well().source()
    contents = contents_of(source)
    assert contents["report"]["preview"].startswith("PREVIEW")
    assert contents["made_ms"] == at("4 08:00")
    assert ["Filed"] not in [row[:1] for row in contents["report"]["facts"]]


def test_what_is_of_the_work_stands_before_what_is_of_the_record() -> None:
    log = Log()
    log.open()
    log.tick("mara", "3 09:05", "one")
    measure(log, bow=74)
    log.tick("mara", "3 09:25", "two")
    issues = report_of(log, filed="4 10:00", reason="x")["issues"]
    assert [issue["step"] for issue in issues] == ["2 two", "1 one"]
    assert issues[1]["what"] == [
        "done with something still open: VIN against the card, Damage and Logger number and calibration due"
    ]
