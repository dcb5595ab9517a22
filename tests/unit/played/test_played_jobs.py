"""The whole job as the demo plays it: both folds and both books agree on it, and it says what was planted."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

import pytest

from bayleaf.canonical.form import dumps
from bayleaf.domain.fold import fold
from bayleaf.domain.state import CardState
from bayleaf.wire.entries import read_entry
from harness.played import (
    PlayedJob,
    frame_documents,
    frame_methods,
    parsed,
    played_fitting,
    played_half,
    played_removal,
    text_of,
)
from harness.twin import folded_on_the_phone, on_the_phone

JOBS = {"half": played_half, "removal": played_removal, "fitting": played_fitting}


@pytest.fixture(scope="module")
def phone(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    return on_the_phone(frame_documents(), played_fitting().entries, tmp_path_factory.mktemp("phone"))


def shown(state: CardState) -> set[tuple[str, ...]]:
    return {(one["code"], *one["at"]) for one in state["findings"] if not one["accepted"]}


@pytest.mark.parametrize("name", JOBS)
def test_every_entry_is_one_that_the_server_takes(name: str) -> None:
    for entry in JOBS[name]().entries:
        assert not read_entry(text_of(entry)).unknown


def test_the_phone_folds_the_whole_job_to_the_same_bytes(phone: dict[str, Any]) -> None:
    assert phone["state"] == dumps(played_fitting().state())


def test_both_fold_every_step_of_the_way_in_any_order(tmp_path: Path) -> None:
    job = played_fitting()
    cuts = [job.entries[:end] for _, end in job.steps[::9]]
    logs = [random.Random(number).sample(cut, len(cut)) for number, cut in enumerate(cuts)]
    states = [dumps(fold(frame_methods(), cut)) for cut in cuts]
    assert folded_on_the_phone(frame_documents(), logs, tmp_path) == states


def test_the_phone_works_every_result_out_as_the_server_does(phone: dict[str, Any]) -> None:
    results = [entry for entry in played_fitting().entries if entry.kind == "result"]
    assert len(results) == 32
    for entry in results:
        mine = phone["results"][entry.hash]
        theirs = {name: parsed(entry)["body"][name] for name in ("inputs", "model", "values", "verdict")}
        assert {name: mine[name] for name in theirs} == theirs, entry.body["step"]


def test_the_removal_says_what_was_planted_and_nothing_else() -> None:
    state = played_removal().state()
    assert shown(state) == {("outside_limits", "removal", "rem-11", "distance")}
    removal = [one for one in state["steps"] if one["method"] == "removal"]
    assert [one["step"] for one in removal if not one["done"] or one["open"] or one["hold"] == "held"] == []


def test_the_whole_job_is_done_and_the_office_has_accepted_what_was_planted() -> None:
    state = played_fitting().state()
    assert shown(state) == set()
    assert [(one["code"], one["at"]) for one in state["findings"]] == [
        ("outside_limits", ["fitting", "fit-11", "rehearsal"]),
        ("outside_limits", ["removal", "rem-11", "distance"]),
        ("wrong_lot", ["fitting", "fit-31", "edge_sealant"]),
    ]
    assert [one["step"] for one in state["steps"] if not one["done"] or one["open"]] == []
    assert {one["step"] for one in state["steps"] if one["hold"] == "deviation"} == {"fit-11"}
    assert state["job"]["closed"]


def test_half_way_the_lost_shank_and_the_contradiction_are_in_view() -> None:
    assert shown(played_half().state()) == {
        ("two_values", "removal", "rem-14"),
        ("two_values", "removal", "rem-14", "marks"),
        ("outside_limits", "removal", "rem-11", "distance"),
        ("outside_limits", "removal", "rem-21", "pieces", "shanks"),
        ("lost_piece", "P8"),
        ("open_ask", "removal", "rem-19", "tally"),
    }


def test_the_pieces_of_the_whole_job_add_up() -> None:
    """22 rivets off the car, and P3's first one: 23 of each piece owed, none lost."""
    state = played_fitting().state()
    assert state["pieces"] == {
        "owed": {"head": 23, "mandrel": 23, "shank": 23},
        "lost": {"head": 0, "mandrel": 0, "shank": 0},
    }
    assert state["counts"] == {"set_and_checked": 22}


def test_the_runs_are_soaked_released_and_cold() -> None:
    runs = {one["zone"]: one for one in played_fitting().state()["runs"]}
    moments = ["on", "soaked", "workable", "lifted", "off", "cold"]
    assert runs["upper"]["moments"] == runs["post"]["moments"] == moments
    assert runs["joint"]["moments"] == ["on", "soaked", "lifted", "off", "cold"]
    assert [runs[zone]["soak_ms"] >= minutes * 60_000 for zone, minutes in SOAKED.items()] == [True] * 3


SOAKED = {"upper": 15, "post": 15, "joint": 60}


@pytest.mark.parametrize(
    ("step", "done"), [("rem-01", 0), ("rem-27", 26), ("rem-41", 40), ("fit-01", 41), ("fit-38", 78)]
)
def test_a_job_can_be_taken_up_to_any_step(step: str, done: int) -> None:
    job: PlayedJob = played_fitting().upto(step)
    assert sum(one["done"] != "" for one in job.state()["steps"]) == done
