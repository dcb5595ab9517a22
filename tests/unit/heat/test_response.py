"""The response set as a phone gets it: the plan's answer, the layout in mm, and the planned curves."""

from __future__ import annotations

import math
from itertools import accumulate
from typing import Any

import pytest

from bayleaf.heat.plan import Plan, plan_of
from bayleaf.heat.response import MOST_GZIPPED_BYTES, packed
from bayleaf.heat.response_plan import response_of
from unit.heat.zones import joint_zone


@pytest.fixture(scope="module")
def plan() -> Plan:
    loom = {"id": "loom", "name": "loom", "kind": "loom", "at_mm": [200, 150], "layer": "laminate"}
    return plan_of(joint_zone(neighbours=[{**loom, "limit_C": 90}]), family_size=3)


@pytest.fixture(scope="module")
def told(plan: Plan) -> dict[str, Any]:
    return response_of(plan)


def test_it_stays_small_and_says_its_form_and_model(told: dict[str, Any]) -> None:
    assert (told["form"], told["model"]) == (2, "coupled-plates-3")
    assert len(packed(told)) < MOST_GZIPPED_BYTES


def test_the_layout_gives_places_in_mm_and_each_sensors_layer(told: dict[str, Any]) -> None:
    layout = told["layout"]
    assert layout["size_mm"] == [400, 160]
    assert layout["bond"] == [[0, 60, 400, 100]]
    assert layout["pads"][1] == {"id": "B", "name": "B", "box_mm": [210, 50, 400, 110]}
    assert layout["sensors"][0] == {"id": "a", "at_mm": [95, 62.5], "layer": "bond", "role": "adhesive"}
    assert layout["neighbours"][0]["at_mm"] == [200, 150]
    lagging_x, lagging_y = layout["lagging"]["at_mm"]
    beside = {"a": 95, "b": 200, "c": 305}[layout["lagging"]["sensor"]]
    away_mm = math.hypot(lagging_x - beside, lagging_y - 62.5)
    assert layout["lagging"]["distance_mm"] == pytest.approx(away_mm, abs=0.06)


def test_the_planned_coldest_curve_crosses_workable_when_the_answer_says(told: dict[str, Any]) -> None:
    coldest_dC = list(accumulate(told["plan"]["c"]))
    after = next(n for n, one in enumerate(coldest_dC) if one >= 1100)
    clock_s = told["plan"]["clock_s"]
    assert clock_s[after - 1] <= told["answer"]["workable_s"] <= clock_s[after]


def test_the_planned_curves_go_on_through_the_release_until_they_are_cool(told: dict[str, Any]) -> None:
    last_act_s = max(act["at_s"] for act in told["acts"])
    assert told["plan"]["clock_s"][-1] >= last_act_s + 3540
    assert all(sum(told["plan"][key]) < 600 for key in ("c", "h", "m"))
    assert len(told["plan"]["s"]) == len(told["sensors"])


def test_what_is_never_reached_is_null() -> None:
    cold = plan_of(joint_zone(duration_min=5), family_size=3)
    answer = response_of(cold)["answer"]
    assert answer["workable_s"] is None
    assert answer["window_from_s"] is None
    assert not answer["feasible"]
    assert answer["troubles"]
