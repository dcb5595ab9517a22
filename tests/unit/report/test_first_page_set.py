"""The first page as it is set: as many of what deviates as have room above the seal."""

from __future__ import annotations

import io
import re

import pytest
from pypdf import PdfReader

from unit.report.jobs import well
from unit.report.made_up import Log
from unit.report.setting import typeset

LONG = "The flange stood two millimetres out and was dressed by hand, then measured once more, "
CHAPTER = "in full in the chapter"


def deviating(times: int, words: str = LONG) -> Log:
    """A job in which all is well but for that many deviations, `reason 10` and on."""
    log = well()
    for number in range(10, 10 + times):
        body = {**log.step("one"), "text": f"reason {number}: {words}", "about": [], "passes_hold": False}
        log.write("mara", f"3 14:{number}", "deviation", body)
    return log


def pages_of(log: Log, reason: str = "") -> list[str]:
    pdf = typeset(log, filed="4 10:00", reason=reason).pdf
    return [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(pdf)).pages]


def reasons(page: str) -> list[int]:
    return [int(one) for one in re.findall(r"reason (\d+):", page)]


@pytest.mark.parametrize("times", [1, 4])
def test_what_fits_in_full_needs_no_chapter(times: int) -> None:
    pages = pages_of(deviating(times))
    assert reasons(pages[0]) == list(range(10, 10 + times))
    assert pages[0].count("then measured once more") == times
    assert "What deviates" not in " ".join(pages[1:])
    assert CHAPTER not in pages[0]


def test_eight_deviations_all_stand_on_the_first_page_each_with_who_signed_it() -> None:
    pages = pages_of(deviating(8, 3 * LONG))
    assert reasons(pages[0]) == list(range(10, 18))
    assert pages[0].count("(Mara Ilves, 2026-11-03 14:1") == 8
    assert f"All of them {CHAPTER}" in pages[0]
    assert "Dossier seal" in pages[0]
    assert reasons(" ".join(pages[1:]))[:8] == list(range(10, 18))


def test_of_too_many_the_first_stand_there_and_the_page_says_how_many_more_there_are() -> None:
    pages = pages_of(deviating(30, 3 * LONG))
    shown = reasons(pages[0])
    assert shown == list(range(10, 10 + len(shown)))
    assert len(shown) >= 8
    assert f"{30 - len(shown)} more, and all of them {CHAPTER}" in pages[0]
    assert "Dossier seal" in pages[0]


def test_a_reason_too_long_for_the_first_page_stands_whole_in_the_chapter() -> None:
    pages = pages_of(well(), reason="because " * 200)
    assert "The reason written at filing" in pages[1]
    assert "Dossier seal" in pages[0]
