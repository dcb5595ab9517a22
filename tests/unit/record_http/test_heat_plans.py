"""Heat zones and plans by the routes: faults, progress, cancelling, restart, the store."""

from __future__ import annotations

from typing import Any

import pytest

from bayleaf.heat.model import MODEL_ID
from bayleaf.seed_folder import SEED_FOLDER
from bayleaf.usecases.plan_heat import begin_planning, plan_next
from harness.at_work import Shop
from harness.server import error_of
from unit.heat.zones import joint
from unit.record_http.planning_office import Prompt, added, listed, planned, work, zone_named


def test_a_zone_is_kept_and_says_what_it_leaves_out(shop: Shop) -> None:
    office = shop.server.office()
    answer = office.post("/api/heat/zones", json={"document": zone_named("kept")}).get_json()
    assert any(remark.startswith("supply:") for remark in answer["remarks"])
    assert not answer["known"]
    found = office.get(f"/api/heat/zones/{answer['digest']}").get_json()
    assert found["document"] == zone_named("kept")
    assert found["plan"]["state"] == "none"
    row = listed(shop, answer["digest"])
    assert (row["id"], row["invented"], row["state"], row["jobs"]) == ("kept", True, "none", [])
    assert office.post("/api/heat/zones", json={"document": zone_named("kept")}).get_json()["known"]


def test_a_zone_with_faults_is_refused_with_line_field_and_mend(shop: Shop) -> None:
    text = (SEED_FOLDER / "zones" / "upper.yaml").read_text("utf-8")
    wrong = text.replace("thickness_mm: 3\n", "thickness_mm: -3\n", 1)
    line = 1 + next(n for n, one in enumerate(wrong.splitlines()) if "thickness_mm: -3" in one)
    refused = shop.server.office().post("/api/heat/zones", json={"text": wrong})
    assert error_of(refused) == (422, "zone_faults")
    fault = refused.get_json()["faults"][0]
    assert (fault["line"], fault["field"]) == (line, "layers[0].thickness_mm")
    assert "above 0" in fault["mend"]


@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"text": "a: [1,"}, "zone_faults"),
        ({"text": "a: &x [1]\nb: *x\n"}, "zone_faults"),
        ({"document": {k: v for k, v in joint().items() if k != "bondline"}}, "zone_faults"),
        ({}, "broken_request"),
        ({"text": "a: 1", "document": {}}, "broken_request"),
    ],
)
def test_what_is_no_zone_is_refused(shop: Shop, given: dict[str, Any], code: str) -> None:
    assert error_of(shop.server.office().post("/api/heat/zones", json=given))[1] == code


def test_a_plan_is_waited_for_with_its_progress_and_then_answered(shop: Shop) -> None:
    office, digest = shop.server.office(), added(shop, "progress")
    asked = office.post("/api/heat/plans", json={"zone": digest})
    assert (asked.status_code, asked.get_json()["state"]) == (202, "waiting")
    seen: list[dict[str, Any]] = []
    work(shop, Prompt(meanwhile=lambda: seen.append(office.get(f"/api/heat/plans/{digest}").get_json())))
    assert [(one["state"], one["doing"], one["share"]) for one in seen] == [("running", "family", 0.6)]
    done = office.get(f"/api/heat/plans/{digest}").get_json()
    assert (done["state"], done["share"], done["current"]) == ("done", 1.0, True)
    assert done["answer"]["sentence"] == "Workable in 9 min."
    assert office.get(f"/api/heat/plans/{digest}/field").get_json() == {}
    assert listed(shop, digest)["sentence"] == "Workable in 9 min."


def test_the_same_zone_again_comes_from_the_store(shop: Shop) -> None:
    digest, planner = planned(shop, "again"), Prompt()
    answer = shop.server.office().post("/api/heat/plans", json={"zone": digest}).get_json()
    work(shop, planner)
    assert answer["state"] == "done"
    assert planner.asked == []


def test_a_plan_that_runs_is_cancelled_and_one_that_is_done_stays(shop: Shop) -> None:
    office, digest = shop.server.office(), added(shop, "cancelled")
    office.post("/api/heat/plans", json={"zone": digest})
    work(shop, Prompt(meanwhile=lambda: office.delete(f"/api/heat/plans/{digest}")))
    assert office.get(f"/api/heat/plans/{digest}").get_json()["state"] == "cancelled"
    assert error_of(office.get(f"/api/heat/plans/{digest}/field")) == (409, "not_planned")
    done = planned(shop, "not cancelled")
    assert office.delete(f"/api/heat/plans/{done}").get_json()["state"] == "done"


def test_a_plan_that_ran_when_the_server_ended_goes_on_after_its_restart(shop: Shop) -> None:
    digest, office = added(shop, "restart"), shop.server.parts.office
    shop.server.office().post("/api/heat/plans", json={"zone": digest})
    assert office.heat.take(MODEL_ID) is not None
    begin_planning(office.heat, Prompt())
    work(shop, Prompt())
    assert listed(shop, digest)["state"] == "done"


def test_a_plan_that_is_stopped_with_the_server_is_put_back(shop: Shop) -> None:
    digest, office = added(shop, "stopped"), shop.server.parts.office
    shop.server.office().post("/api/heat/plans", json={"zone": digest})
    plan_next(office.heat, Prompt(), office.clock, ends=lambda: True)
    assert listed(shop, digest)["state"] == "waiting"
    work(shop, Prompt())
    assert listed(shop, digest)["state"] == "done"


def test_what_is_not_there_is_refused(shop: Shop) -> None:
    office, nobody = shop.server.office(), "0" * 64
    digest = added(shop, "not asked for")
    assert error_of(office.get(f"/api/heat/zones/{nobody}")) == (404, "unknown_zone")
    assert error_of(office.post("/api/heat/plans", json={"zone": nobody})) == (404, "unknown_zone")
    assert error_of(office.get(f"/api/heat/plans/{digest}")) == (404, "unknown_plan")
    assert error_of(office.delete(f"/api/heat/plans/{digest}")) == (404, "unknown_plan")
    assert error_of(office.get(f"/api/heat/responses/{nobody}")) == (404, "not_found")


def test_a_zone_that_no_job_uses_is_taken_away(shop: Shop) -> None:
    digest, office = added(shop, "taken away"), shop.server.office()
    assert office.delete(f"/api/heat/zones/{digest}").status_code == 204
    assert error_of(office.get(f"/api/heat/zones/{digest}")) == (404, "unknown_zone")
