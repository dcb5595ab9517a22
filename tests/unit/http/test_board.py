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
