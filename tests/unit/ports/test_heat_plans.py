"""The promise of the store of heat plans, written once and asked of every adapter of it."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from bayleaf.adapters.database import open_engine
from bayleaf.adapters.memory_heat import MemoryHeatPlans
from bayleaf.adapters.sql_heat import SqlHeatPlans
from bayleaf.adapters.tables import metadata
from bayleaf.heat_ports import HeatPlans, HeatZone, PinnedPlan, Planned, PlanRow

ZONE, OTHER, MODEL = "a" * 64, "b" * 64, "plates-1"
KEPT = HeatZone(ZONE, "upper", "upper joint", "id: upper\n", invented=True, added_ms=5, by="person-1")
PLANNED = Planned("Workable in 9 min.", '{"workable_s":540}', '{"ramp":1}', b"response", b"field")
PIN = PinnedPlan("pin-1", "job-1", "removal", "upper", ZONE, MODEL, 30, "person-1")


def on_sqlite(folder: Path) -> HeatPlans:
    engine = open_engine(f"sqlite:///{folder / 'heat.sqlite3'}")
    metadata.create_all(engine)
    return SqlHeatPlans(engine)


@pytest.fixture(params=[on_sqlite, lambda _: MemoryHeatPlans()], ids=["sqlite", "memory"])
def heat(request: pytest.FixtureRequest, tmp_path: Path) -> HeatPlans:
    make: Callable[[Path], HeatPlans] = request.param
    return make(tmp_path)


def test_a_zone_is_kept_once_and_the_newest_comes_first(heat: HeatPlans) -> None:
    assert heat.add_zone(KEPT)
    assert not heat.add_zone(replace(KEPT, text="other words"))
    newer = replace(KEPT, digest=OTHER, added_ms=6)
    assert heat.add_zone(newer)
    assert list(heat.zones()) == [newer, KEPT]
    assert heat.zone(ZONE) == KEPT
    assert heat.zone("c" * 64) is None
    assert heat.names([ZONE, "c" * 64]) == {ZONE: KEPT.name}
    assert heat.names([]) == {}


def test_what_is_planned_once_is_not_asked_for_again(heat: HeatPlans) -> None:
    assert heat.ask(ZONE, MODEL, 10).state == "waiting"
    taken = heat.take(MODEL)
    assert taken is not None
    assert taken.state == "running"
    assert heat.take(MODEL) is None
    assert heat.progress(ZONE, MODEL, "family", 600)
    heat.finish(ZONE, MODEL, PLANNED, 20)
    done = heat.ask(ZONE, MODEL, 30)
    assert (done.state, done.share_permille, done.asked_ms, done.done_ms) == ("done", 1000, 10, 20)
    assert (done.sentence, done.figures) == (PLANNED.sentence, PLANNED.figures)
    assert done.response_sha256 == hashlib.sha256(b"response").hexdigest()
    assert done.response_bytes == len(b"response")
    assert heat.answer(ZONE, MODEL) == PLANNED.answer
    assert heat.field(ZONE, MODEL) == b"field"
    assert heat.response(done.response_sha256) == b"response"
    assert heat.response("0" * 64) == b""


def test_plans_are_taken_in_the_order_of_asking(heat: HeatPlans) -> None:
    heat.ask(OTHER, MODEL, 10)
    heat.ask(ZONE, MODEL, 11)
    taken = [heat.take(MODEL), heat.take(MODEL)]
    assert [row.digest for row in taken if row] == [OTHER, ZONE]


def test_a_cancelled_plan_takes_no_progress_and_can_be_asked_for_again(heat: HeatPlans) -> None:
    heat.ask(ZONE, MODEL, 10)
    heat.take(MODEL)
    cancelled = heat.cancel(ZONE, MODEL, 12)
    assert cancelled is not None
    assert cancelled.state == "cancelled"
    assert not heat.progress(ZONE, MODEL, "run", 500)
    heat.finish(ZONE, MODEL, PLANNED, 13)
    heat.fail(ZONE, MODEL, "too late", 13)
    assert heat.plan(ZONE, MODEL) == cancelled
    assert heat.ask(ZONE, MODEL, 14) == PlanRow(ZONE, MODEL, "waiting", 14)


def test_a_done_plan_is_not_cancelled(heat: HeatPlans) -> None:
    heat.ask(ZONE, MODEL, 10)
    heat.take(MODEL)
    heat.finish(ZONE, MODEL, PLANNED, 13)
    found = heat.cancel(ZONE, MODEL, 14)
    assert found is not None
    assert found.state == "done"
    assert heat.cancel(OTHER, MODEL, 14) is None


def test_a_failed_plan_says_why_and_can_be_asked_for_again(heat: HeatPlans) -> None:
    heat.ask(ZONE, MODEL, 10)
    heat.take(MODEL)
    heat.fail(ZONE, MODEL, "pads overlap", 13)
    failed = heat.plan(ZONE, MODEL)
    assert failed is not None
    assert (failed.state, failed.fault) == ("failed", "pads overlap")
    assert heat.ask(ZONE, MODEL, 14).state == "waiting"


def test_what_ran_at_a_restart_waits_again_and_what_is_done_stays(heat: HeatPlans) -> None:
    heat.ask(ZONE, MODEL, 10)
    heat.take(MODEL)
    heat.finish(ZONE, MODEL, PLANNED, 11)
    heat.ask(OTHER, MODEL, 12)
    heat.take(MODEL)
    assert heat.put_back(MODEL) == 1
    assert [(row.digest, row.state) for row in heat.plans()] == [(ZONE, "done"), (OTHER, "waiting")]


def test_what_waits_for_an_older_model_waits_for_this_one(heat: HeatPlans) -> None:
    heat.ask(ZONE, "plates-0", 10)
    heat.put_back(MODEL)
    assert [(row.model, row.state) for row in heat.plans()] == [(MODEL, "waiting")]


def test_another_models_answer_stays_beside_the_new_one(heat: HeatPlans) -> None:
    heat.ask(ZONE, "plates-0", 10)
    heat.take("plates-0")
    heat.finish(ZONE, "plates-0", PLANNED, 11)
    heat.ask(ZONE, MODEL, 12)
    assert [(row.model, row.state) for row in heat.plans()] == [("plates-0", "done"), (MODEL, "waiting")]


def test_plans_are_listed_of_the_zones_that_are_named(heat: HeatPlans) -> None:
    heat.ask(ZONE, MODEL, 10)
    heat.ask(OTHER, MODEL, 11)
    assert [row.digest for row in heat.plans([OTHER])] == [OTHER]
    assert [row.digest for row in heat.plans([OTHER, ZONE])] == [ZONE, OTHER]
    assert list(heat.plans([])) == []


def test_a_removed_zone_takes_its_plans_along(heat: HeatPlans) -> None:
    heat.add_zone(KEPT)
    heat.ask(ZONE, MODEL, 10)
    heat.remove_zone(ZONE)
    assert list(heat.zones()) == []
    assert list(heat.plans()) == []


def test_a_pin_ends_the_one_before_it_which_stays_known(heat: HeatPlans) -> None:
    heat.pin(PIN)
    newer = replace(PIN, id="pin-2", digest=OTHER, pinned_ms=40)
    heat.pin(newer)
    elsewhere = replace(PIN, id="pin-3", job="job-2", pinned_ms=50)
    heat.pin(elsewhere)
    assert list(heat.pins(["job-1"])) == [replace(PIN, ended_ms=40), newer]
    assert list(heat.pins()) == [replace(PIN, ended_ms=40), newer, elsewhere]
    assert heat.unpin("job-1", "removal", "upper", 60)
    assert not heat.unpin("job-1", "removal", "upper", 70)
    assert [one.ended_ms for one in heat.pins(["job-1"])] == [40, 60]
    assert list(heat.pins([])) == []
