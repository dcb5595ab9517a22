"""The office adds suppliers' sheets: kept by revision, told to phones, with the jobs that used them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from harness.server import Bench, error_of

EPOXY = {
    "group": "adhesives",
    "material": "adhesive",
    "name": "Invented paste 4",
    "about": "two parts, invented",
    "sheet": "Paste 4 data",
    "revision": "C",
    "dated": "2026-02-01",
    "values": [
        {"name": "open_time", "value": "40", "low": "35", "high": "45", "unit": "min"},
        {"name": "open_time_at", "value": "23.5"},
        {"name": "tack", "value": "3", "unit": "N"},
    ],
}


def sheets_of(new_server: Bench) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = new_server.office().get("/api/sheets").get_json()["sheets"]
    return rows


def faults_of(new_server: Bench, changed: Mapping[str, Any]) -> list[tuple[str, str]]:
    answer = new_server.office().post("/api/sheets", json={**EPOXY, **changed})
    assert answer.status_code == 422
    return [(one["field"], one["message"]) for one in answer.get_json()["faults"]]


def test_a_sheet_is_kept_with_its_range_unit_and_revision(new_server: Bench) -> None:
    digest = new_server.office().post("/api/sheets", json=EPOXY).get_json()["digest"]
    (row,) = sheets_of(new_server)
    assert (row["digest"], row["sheet"], row["revision"], row["dated"], row["in_use"]) == (
        digest,
        "Paste 4 data",
        "C",
        "2026-02-01",
        True,
    )
    assert row["values"] == [
        {"name": "open_time", "value": 40, "low": 35, "high": 45, "unit": "min", "decimals": 0},
        {"name": "open_time_at", "value": 235, "low": 235, "high": 235, "unit": "C", "decimals": 1},
        {"name": "tack", "value": 3, "low": 3, "high": 3, "unit": "N", "decimals": 0},
    ]


def test_a_newer_revision_is_in_use_and_the_older_stays(new_server: Bench) -> None:
    office = new_server.office()
    office.post("/api/sheets", json=EPOXY)
    assert error_of(office.post("/api/sheets", json=EPOXY)) == (409, "known_sheet")
    office.post("/api/sheets", json={**EPOXY, "revision": "D"})
    assert [(one["revision"], one["in_use"]) for one in sheets_of(new_server)] == [("D", True), ("C", False)]
    shelf = new_server.phone("technician").client.get("/api/bundle").get_json()["shelf"]
    assert [one["revision"] for one in shelf["sheets"]] == ["D"]


def withdrawn(new_server: Bench, row: Mapping[str, Any], why: str = "typed 40 for 30") -> Any:
    return new_server.office().post(f"/api/sheets/{row['id']}/withdraw", json={"why": why})


def test_a_withdrawn_sheet_gives_way_to_the_revision_before_it_and_then_to_the_method(
    new_server: Bench,
) -> None:
    office, phone = new_server.office(), new_server.phone("technician").client
    office.post("/api/sheets", json=EPOXY)
    office.post("/api/sheets", json={**EPOXY, "revision": "D"})
    newer, older = sheets_of(new_server)
    version = phone.get("/api/bundle").get_json()["version"]

    assert withdrawn(new_server, newer).status_code == 200
    rows = sheets_of(new_server)
    told = [(one["revision"], one["in_use"], one["withdrawn_ms"] > 0, one["why"]) for one in rows]
    assert told == [("D", False, True, "typed 40 for 30"), ("C", True, False, "")]
    assert rows[0]["withdrawn_by"] == newer["by"]
    bundle = phone.get("/api/bundle").get_json()
    assert bundle["version"] != version
    assert [one["revision"] for one in bundle["shelf"]["sheets"]] == ["C"]

    withdrawn(new_server, older)
    assert phone.get("/api/bundle").get_json()["shelf"]["sheets"] == []
    assert [one["values"] for one in sheets_of(new_server)] == [newer["values"], older["values"]]


def test_a_sheet_is_withdrawn_once_and_with_a_reason(new_server: Bench) -> None:
    new_server.office().post("/api/sheets", json=EPOXY)
    (row,) = sheets_of(new_server)
    assert error_of(withdrawn(new_server, row, "  ")) == (400, "broken_request")
    assert withdrawn(new_server, row).status_code == 200
    assert error_of(withdrawn(new_server, row, "again")) == (409, "withdrawn_sheet")
    assert error_of(withdrawn(new_server, {"id": "nobody"})) == (404, "unknown_sheet")
    assert sheets_of(new_server)[0]["why"] == "typed 40 for 30"


def test_a_slip_is_mended_by_withdrawing_the_revision_and_entering_it_again(new_server: Bench) -> None:
    office = new_server.office()
    office.post("/api/sheets", json=EPOXY)
    withdrawn(new_server, sheets_of(new_server)[0])
    mended = {**EPOXY, "values": [{"name": "mixer_gel_time", "value": "8"}]}
    assert office.post("/api/sheets", json=mended).status_code == 201
    assert [(one["revision"], one["in_use"]) for one in sheets_of(new_server)] == [("C", True), ("C", False)]
    assert error_of(office.post("/api/sheets", json=mended)) == (409, "known_sheet")


def test_a_sheet_makes_another_bundle(new_server: Bench) -> None:
    phone = new_server.phone("technician")
    before = phone.client.get("/api/bundle").get_json()["version"]
    new_server.office().post("/api/sheets", json=EPOXY)
    assert phone.client.get("/api/bundle").get_json()["version"] != before


@pytest.mark.parametrize(
    ("values", "fault"),
    [
        ([], ("values", "found no figure, allowed is one or more.")),
        (
            [{"name": "cartridge", "value": "5O"}],
            (
                "values.cartridge.value",
                'found "5O", allowed is a number such as 35 or 3.25 with a point.',
            ),
        ),
        (
            [{"name": "mixer_gel_time", "value": "400"}],
            ("values.mixer_gel_time.value", "found 400 min, allowed is 0.5 to 240 min."),
        ),
        (
            [{"name": "cartridge", "value": "50", "unit": "cl"}],
            ("values.cartridge.unit", 'found "cl", allowed is mL.'),
        ),
        (
            [{"name": "cartridge", "value": "50", "low": "51"}],
            ("values.cartridge.low", "found 51, allowed is 50 or less."),
        ),
        (
            [{"name": "cartridge", "value": "50", "high": "49"}],
            ("values.cartridge.high", "found 49, allowed is 50 or more."),
        ),
        (
            [{"name": "tack", "value": "3"}],
            ("values.tack.unit", "found no unit, allowed is the one on the sheet."),
        ),
        (
            [{"name": "open_time", "value": "35"}],
            ("values.open_time_at.value", "is missing; it is given together with open_time."),
        ),
        (
            [{"name": "bondline_min", "value": "1.8"}, {"name": "bondline_max", "value": "0.8"}],
            ("values.bondline_max.value", "found 0.8, allowed is 1.8 (bondline_min) or more."),
        ),
        (
            [{"name": "tack", "value": "3", "unit": "N"}, {"name": "tack", "value": "4", "unit": "N"}],
            ("values.tack.value", "found twice, allowed is once."),
        ),
    ],
)
def test_a_fault_stands_at_its_field(
    new_server: Bench, values: list[dict[str, str]], fault: tuple[str, str]
) -> None:
    assert faults_of(new_server, {"values": values}) == [fault]
    assert sheets_of(new_server) == []


RIVET = {
    **EPOXY,
    "group": "rivets",
    "material": "rivets",
    "values": [],
    "rows": [
        {"length": "10", "low": "4.5", "high": "6.5", "part": "R 10"},
        {"length": "12.5", "low": "6.5", "high": "8.25"},
    ],
}


def test_the_rows_of_a_rivet_are_kept_and_told_to_phones_in_their_finest_decimals(new_server: Bench) -> None:
    digest = new_server.office().post("/api/sheets", json=RIVET).get_json()["digest"]
    (row,) = sheets_of(new_server)
    told = {
        "unit": "mm",
        "decimals": 2,
        "rows": [
            {"length": 1000, "low": 450, "high": 650, "part": "R 10"},
            {"length": 1250, "low": 650, "high": 825, "part": ""},
        ],
    }
    assert (row["digest"], row["table"], row["values"]) == (digest, told, [])
    shelf = new_server.phone("technician").client.get("/api/bundle").get_json()["shelf"]
    assert [one["table"] for one in shelf["sheets"]] == [told]


def test_a_sheet_without_rows_has_no_table(new_server: Bench) -> None:
    new_server.office().post("/api/sheets", json=EPOXY)
    assert [one["table"] for one in sheets_of(new_server)] == [None]


@pytest.mark.parametrize(
    ("changed", "fault"),
    [
        (
            {"rows": [{"length": "1O", "low": "4.5", "high": "6.5"}]},
            ("rows.0.length", 'found "1O", allowed is a number such as 12 or 6.5 with a point.'),
        ),
        (
            {"rows": [{"length": "10", "low": "0", "high": "6.5"}]},
            ("rows.0.low", "found 0 mm, allowed is 0.1 to 100 mm."),
        ),
        (
            {"rows": [{"length": "10", "low": "6.5", "high": "4.5"}]},
            ("rows.0.high", "found 4.5 mm, needed is 6.5 mm, where this row begins, or more."),
        ),
        (
            {"rows": [RIVET["rows"][1], RIVET["rows"][0]]},
            ("rows.1.length", "found 10 mm after 12.5 mm, needed is the shorter rivet first."),
        ),
        (
            {"values": [{"name": "grip_from", "value": "6"}, {"name": "grip_to", "value": "8"}]},
            ("values.grip_from.value", "found beside rows, allowed is one of the two: the rows say it."),
        ),
        (
            {"group": "bits", "values": [{"name": "diameter", "value": "4.9"}]},
            ("rows", "found rows of lengths, allowed for rivets alone."),
        ),
    ],
)
def test_a_fault_of_a_row_stands_at_its_field(
    new_server: Bench, changed: dict[str, Any], fault: tuple[str, str]
) -> None:
    assert faults_of(new_server, {**RIVET, **changed})[0] == fault
    assert sheets_of(new_server) == []


def test_the_form_is_told_which_figures_computations_take(new_server: Bench) -> None:
    figures = new_server.office().get("/api/sheets").get_json()["figures"]
    assert list(figures) == ["adhesives", "bits", "materials", "rivets"]
    assert figures["rivets"][0] == {"name": "grip_from", "unit": "mm", "least": 0.1, "most": 100.0}


def test_nobody_hears_of_a_sheet_that_is_not_here(new_server: Bench) -> None:
    answer = new_server.office().get(f"/api/sheets/{'0' * 64}/jobs")
    assert error_of(answer) == (404, "unknown_sheet")
