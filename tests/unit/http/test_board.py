"""The board says of each job what is done, what waits, what is hot, and what is to look into."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient

from harness.server import Bench


@pytest.fixture
def server(new_server: Bench) -> Bench:
    """Each test writes to a store of its own."""
    return new_server


class Desk:
    """An office browser at one job."""

    def __init__(self, server: Bench) -> None:
        self.digest, self.job = server.method(), server.job("technician")
        self.office: FlaskClient = server.office()

    def write(self, kind: str, **body: Any) -> str:
        answer = self.office.post(f"/api/jobs/{self.job}/entries", json={"kind": kind, "body": body})
        assert answer.status_code == 201, answer.text
        return str(answer.get_json()["hash"])

    def of(self, step: str) -> dict[str, str]:
        return {"method": "spine", "digest": self.digest, "step": step}

    def done(self, step: str) -> str:
        return self.write("tick", **self.of(step), ask="", value="done", reason="", over=[])

    def row(self) -> dict[str, Any]:
        rows = self.office.get("/api/jobs").get_json()["jobs"]
        return next(dict(row) for row in rows if row["job"] == self.job)


@pytest.fixture
def desk(server: Bench) -> Desk:
    return Desk(server)


def test_a_done_step_counts_and_the_next_one_is_named(desk: Desk) -> None:
    desk.done("spn-01")
    row = desk.row()
    assert row["steps_done"] == 1
    assert (row["next"]["step"], row["next"]["method"]) == ("spn-02", "spine")
    assert row["findings"] == 5  # its five asks are open


def test_a_hold_is_held_once_its_turn_has_come(desk: Desk) -> None:
    assert desk.row()["holds"] == []
    desk.done("spn-01")
    assert [hold["step"] for hold in desk.row()["holds"]] == ["spn-02", "spn-03"]


def test_a_begun_heat_run_stands_on_the_board_until_it_is_cold(desk: Desk, server: Bench) -> None:
    step = desk.of("spn-09")
    on = {"act": "on", "ask": "run", "zone": "upper", "purpose": "removal", "pads": ["U1", "U2"], "plan": ""}
    run = desk.write("heat", **step, **on)
    (shown,) = desk.row()["runs"]
    assert (shown["run"], shown["zone"], shown["moment"], shown["soak_s"]) == (run, "upper joint", "on", 90)
    assert shown["on_ms"] == server.clock.now_ms()
    act = {"run": run, "pad": "", "run_ms": 1000, "run_doubt": False, "typed_time": False, "text": ""}
    desk.write("heat", act="workable", **act)
    assert desk.row()["runs"][0]["moment"] == "workable"
    desk.write("heat", act="cold", **act)
    assert desk.row()["runs"] == []


def test_a_deviation_is_open_until_the_office_accepts_it(desk: Desk) -> None:
    about = {"text": "no time", "about": [], "passes_hold": False}
    deviation = desk.write("deviation", **desk.of("spn-04"), **about)
    assert (desk.row()["deviations"], desk.row()["deviations_open"]) == (1, 1)
    accept = {"code": "deviation", "at": ["spine", "spn-04"], "hashes": [deviation], "reason": "seen"}
    accepted = desk.write("accept", **accept)
    assert (desk.row()["deviations"], desk.row()["deviations_open"]) == (1, 0)
    desk.write("strike", target=accepted, reason="too early")
    assert desk.row()["deviations_open"] == 1


def test_a_photo_whose_bytes_are_not_here_fills_its_slot_and_is_counted(desk: Desk) -> None:
    before = desk.row()["photos_wanted"]
    photo = {
        "sha256": "a" * 64,
        "bytes": 10,
        "type": "image/jpeg",
        "width": 4,
        "height": 3,
        "thumb": "b" * 64,
    }
    desk.write("photo", **photo, **desk.of("spn-01"), slot="damage", position="", caption="")
    row = desk.row()
    assert row["photos_wanted"] == before - 1
    assert row["photos_not_here"] == 1


def test_a_step_that_does_not_apply_wants_no_photo(desk: Desk) -> None:
    before = desk.row()["photos_wanted"]
    desk.write("tick", **desk.of("spn-04"), ask="", value="not_applicable", reason="no lift", over=[])
    assert desk.row()["photos_wanted"] == before - 1


def test_a_hold_says_of_whom_it_waits_and_what_can_be_done_meanwhile(desk: Desk) -> None:
    assert desk.row()["free"]["step"] == "spn-01"
    desk.done("spn-01")
    first, second = desk.row()["holds"]
    assert (first["step"], first["asks"], first["of"]) == ("spn-02", 1, ["office"])
    assert (second["step"], second["asks"], second["of"]) == ("spn-03", 2, ["second_person"])
    assert "free" not in desk.row()  # all else needs one of the two


def test_the_rule_has_a_letter_for_every_step(desk: Desk) -> None:
    before = desk.row()["marks"]
    assert len(before) == 12
    assert before.lower() == "o" * 12
    desk.done("spn-01")
    assert desk.row()["marks"][0].lower() == "d"


def test_an_aborted_run_stands_on_the_board_while_its_zone_is_hot(desk: Desk) -> None:
    step = desk.of("spn-09")
    on = {"act": "on", "ask": "run", "zone": "upper", "purpose": "removal", "pads": ["U1", "U2"], "plan": ""}
    run = desk.write("heat", **step, **on)
    act = {"run": run, "pad": "", "run_ms": 1000, "run_doubt": False, "typed_time": False}
    desk.write("heat", act="abort", text="breaker", **act)
    (shown,) = desk.row()["runs"]
    assert (shown["aborted"], shown["pads"], shown["pads_down"]) == (True, 2, 0)
    desk.write("heat", act="cold", text="", **act)
    assert desk.row()["runs"] == []


def test_a_filed_job_leaves_the_board_and_is_named_once_entries_came(desk: Desk) -> None:
    assert desk.office.post(f"/api/jobs/{desk.job}/file", json={"reason": "as it stands"}).status_code == 200
    assert desk.office.get("/api/jobs").get_json()["jobs"] == []
    assert desk.office.get("/api/jobs").get_json()["late"] == []
    desk.done("spn-01")
    (late,) = desk.office.get("/api/jobs").get_json()["late"]
    assert (late["job"], late["after_filing"]) == (desk.job, 1)
    answer = desk.office.post(f"/api/jobs/{desk.job}/addendum", json={"reason": "came late"})
    assert answer.status_code == 200, answer.text
    assert desk.office.get("/api/jobs").get_json()["late"] == []
    (row,) = desk.office.get(f"/api/jobs/{desk.job}/filed").get_json()["filed"]
    assert row["dossier"] == answer.get_json()["dossier"]
    report = desk.office.get(f"/api/filed/{row['dossier']}/report")
    assert report.status_code == 200
    assert b"came late" in report.data or report.content_type == "application/pdf"
    zipped = desk.office.get(f"/api/filed/{row['earlier'][0]['dossier']}/dossier")
    assert zipped.data[:2] == b"PK"


def test_an_order_number_that_is_taken_is_said(desk: Desk) -> None:
    order = desk.row()["order"]
    (known,) = desk.office.get(f"/api/orders?order={order}").get_json()["jobs"]
    assert (known["job"], known["filed"]) == (desk.job, False)
    assert desk.office.get("/api/orders?order=none").get_json()["jobs"] == []
