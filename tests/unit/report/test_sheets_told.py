"""Which suppliers' sheets the card was worked out with, and which of them were withdrawn since."""

from __future__ import annotations

from dataclasses import replace

from bayleaf.report.contents import contents_of
from bayleaf.report.source import ReportSource, SheetTold
from unit.report.made_up import Log, at
from unit.report.setting import text_of, typeset

EPOXY = SheetTold("5e" * 32, "Invented epoxy", "Paste 4 data", "C", "2026-01-15")


def logged() -> Log:
    """A figure that was worked out with the epoxy's sheet."""
    log = Log()
    log.open()
    body = {**log.step("two"), "ask": "worked", "model": "made/1", "inputs": [], "tables": [EPOXY.sha256]}
    log.write("mara", "3 10:00", "result", {**body, "values": [], "verdict": "inside", "over": []})
    return log


def with_result(*sheets: SheetTold) -> ReportSource:
    return logged().source(filed="4 10:00", sheets=sheets)


def test_sheets_that_results_rest_on_stand_with_their_steps_and_on_the_first_page() -> None:
    report = contents_of(with_result(EPOXY))["report"]
    assert dict(report["facts"])["Sheets"] == "Invented epoxy: Paste 4 data, revision C"
    (row,) = report["sheets"]
    assert (row["sheet"], row["dated"], row["steps"]) == ("Paste 4 data, revision C", "2026-01-15", "2 two")
    assert row["withdrawn"] == ""


def test_a_sheet_that_was_withdrawn_since_says_so_with_the_reason() -> None:
    withdrawn = replace(EPOXY, withdrawn_ms=at("4 08:30"), why="the open time was typed wrong")
    report = contents_of(with_result(withdrawn))["report"]
    said = "withdrawn 2026-11-04 08:30: the open time was typed wrong"
    assert report["sheets"][0]["withdrawn"] == said
    assert dict(report["facts"])["Sheets"] == f"Invented epoxy: Paste 4 data, revision C ({said})"


def test_the_chapter_is_set_in_type_with_the_reason() -> None:
    withdrawn = replace(EPOXY, withdrawn_ms=at("4 08:30"), why="the open time was typed wrong")
    said = text_of(typeset(logged(), filed="4 10:00", sheets=[withdrawn]).pdf)
    assert "Suppliers\u2019 sheets" in said
    assert "withdrawn 2026-11-04 08:30: the open time was typed wrong" in said
