"""The two shipped methods, played to the end: their whole report, as an assessor looks things up."""

from __future__ import annotations

import io
from typing import Any

import pytest
from pypdf import PdfReader

from bayleaf.report.contents import contents_of
from bayleaf.report.typesetting import TypstTypesetter
from bayleaf.report_ports import Pictures, SetReport, nowhere
from unit.report.played import rear_frame
from unit.report.setting import by_hash, jpeg

SLOTS = 54


@pytest.fixture(scope="module")
def played() -> tuple[dict[str, Any], SetReport]:
    pictures = {number: jpeg(320 + number, 240) for number in range(1, SLOTS + 1)}
    log, drawings = rear_frame(pictures.__getitem__)
    contents = contents_of(log.source(filed="20 10:00"))
    held = by_hash(*pictures.values())
    return contents["report"], TypstTypesetter().typeset(
        contents, Pictures(nowhere, held.__getitem__, drawings)
    )


def test_every_step_of_both_methods_stands_with_who_did_it(played: tuple[dict[str, Any], SetReport]) -> None:
    report, _ = played
    steps = [step for stage in report["stages"] for step in stage["steps"]]
    assert [step["number"] for step in steps] == list(range(1, 80))
    assert all(step["standing"].startswith("Done 2026-11-0") for step in steps)
    assert len({stage["method"] for stage in report["stages"]}) == 2


def test_every_photo_is_shown_once_and_its_number_stands_at_its_step(
    played: tuple[dict[str, Any], SetReport],
) -> None:
    report, found = played
    rows = [row for stage in report["stages"] for step in stage["steps"] for row in step["rows"]]
    named = [row["value"] for row in rows if row["value"].startswith("Photo ")]
    assert named == [f"Photo {number}" for number in range(1, len(report["photos"]) + 1)]
    images = sum(len(page.images) for page in PdfReader(io.BytesIO(found.pdf)).pages)
    assert (images, found.faults) == (len(report["photos"]), {})


def test_all_22_positions_have_a_mark_on_the_map_and_a_row(played: tuple[dict[str, Any], SetReport]) -> None:
    report, _ = played
    (drawn,) = report["rivets"]["maps"]
    assert len(drawn["places"]) == 22
    assert {one["shape"] for one in drawn["places"]} == {"set_and_checked"}
    rows = [row for group in report["rivets"]["groups"] for row in group["rows"]]
    assert len(rows) == 22
    assert {tuple(row["earlier"]) for row in rows} == {("rivet found here: shank out",)}
    assert (
        report["rivets"]["pieces"]["sentence"] == "All 66 pieces of the rivets taken out are accounted for."
    )


def test_each_heat_run_is_drawn_with_four_limits(played: tuple[dict[str, Any], SetReport]) -> None:
    report, _ = played
    removal = [run for run in report["runs"] if run["title"].endswith("removal")]
    assert len(removal) == 2
    for run in removal:
        assert len(run["picture"]["limits"]) == 4
        assert [one["of"] for one in run["picture"]["others"]] == ["metal", "neighbour"]
        assert not {line["what"] for line in run["verdict"] if line["tone"] == "stop"}


def test_every_lot_stands_on_the_first_page_and_in_its_chapter(
    played: tuple[dict[str, Any], SetReport],
) -> None:
    report, _ = played
    lots = dict(report["facts"])["Lots"]
    assert report["lots"]
    assert all(lot["lot"] in lots for lot in report["lots"])


def test_a_reading_against_an_earlier_one_shows_the_difference(
    played: tuple[dict[str, Any], SetReport],
) -> None:
    report, _ = played
    rows = [row for stage in report["stages"] for step in stage["steps"] for row in step["rows"]]
    assert "2\u202f000.0\u00a0mm, differs by 0.0\u00a0mm" in [row["value"] for row in rows]
