"""The two methods of the demonstration, compiled: whole, joined, and as the record reads them."""

from __future__ import annotations

import math
from itertools import combinations
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from ruamel.yaml import YAML

from bayleaf.canonical.digest import sha256_hex
from bayleaf.canonical.form import dumps
from bayleaf.domain.method import method_of
from bayleaf.method_files import check_methods, compile_methods, method_schema

SEED = Path(__file__).parents[3] / "seed_data" / "methods"
TEXT = (SEED / "rear_frame.yaml").read_text("utf-8")
DRAWINGS = {path.name: path.read_bytes() for path in SEED.glob("*.svg")}
CHECKED = check_methods(TEXT, DRAWINGS)
REMOVAL, FITTING = (method.document for method in CHECKED.methods)
STEPS = {step["id"]: step for one in (REMOVAL, FITTING) for stage in one["stages"] for step in stage["steps"]}
# The stages of spine.yaml as first issued: a step that gains nothing keeps its bytes, and so its answers.
SPINE_STAGES = "93e695465e7e32608de332076071fcd7657b136ea596b8240860fd8d362cd850"


def ask(step: str, name: str) -> dict[str, Any]:
    found: dict[str, Any] = next(one for one in STEPS[step]["asks"] if one["id"] == name)
    return found


def inputs(step: str, name: str) -> dict[str, dict[str, Any]]:
    return {one.pop("name"): one for one in [dict(row) for row in ask(step, name)["inputs"]]}


def test_both_methods_are_whole_and_say_that_they_are_invented() -> None:
    assert [len([s for stage in one["stages"] for s in stage["steps"]]) for one in (REMOVAL, FITTING)] == [
        41,
        38,
    ]
    holds = [sum(s["hold"] for stage in one["stages"] for s in stage["steps"]) for one in (REMOVAL, FITTING)]
    assert holds == [11, 10]
    assert sum(one["kind"] == "photo" for step in STEPS.values() for one in step["asks"]) == 54
    assert REMOVAL["invented"]
    assert FITTING["invented"]
    assert "EVERYTHING HERE IS INVENTED" in TEXT


def test_the_file_leaves_nothing_to_be_taken_as_usual() -> None:
    assert CHECKED.remarks == []


def test_the_record_reads_both_documents() -> None:
    assert [method_of(one).needs_method for one in (REMOVAL, FITTING)] == ["", "removal"]


def test_a_need_of_the_other_method_is_told_with_it() -> None:
    assert STEPS["fit-01"]["needs"] == ["removal/rem-41"]
    assert STEPS["rem-28"]["needs"] == ["rem-27@workable"]


def test_a_reading_is_held_against_one_of_the_other_method() -> None:
    rising = ask("fit-01", "rising")
    assert rising["against"] == {"method": "removal", "step": "rem-40", "ask": "rising"}
    assert (rising["min"], rising["max"], rising["plausible"]) == (-5, 5, [17000, 23000])


def test_a_time_is_counted_since_an_earlier_answer() -> None:
    assert ask("fit-20", "open_for")["since"] == {"method": "fitting", "step": "fit-18", "ask": "first_gram"}


def test_the_steps_of_a_run_share_its_settings_and_its_order_of_release() -> None:
    begun, ended = ask("rem-32", "run"), ask("rem-35", "release")
    assert begun["parts"] == ["ramp", "soak"]
    assert ended["parts"] == ["release", "cool_down"]
    assert ended["continues"] == {"method": "removal", "step": "rem-32", "ask": "run"}
    assert begun["settings"] == ended["settings"]
    assert begun["settings"] == {
        "sensors_unit": "C",
        "decimals": 0,
        "lagging_min": 125,
        "leading_max": 185,
        "soak_s": 900,
        "gap_max_s": 300,
        "ramp_s": 1200,
        "release": ["L2", "L1"],
        "cold_below": 45,
        "metal_max": 190,
        "neighbour_max": 80,
        "ramp_max": 10,
        "cooling_max": 8,
        "lift_below": 60,
        "setpoint": 240,
    }


def test_a_run_of_one_step_has_all_parts_and_says_none() -> None:
    warm = ask("fit-27", "run")
    assert "parts" not in warm
    assert warm["when"] == {"ask": "cure", "option": "warm"}
    assert warm["settings"]["release"] == ["L2", "U1", "L1", "U2"]
    assert warm["settings"]["soak_s"] == 3600


def test_a_zone_made_of_others_carries_their_pads_and_sensors() -> None:
    joint = next(zone for zone in REMOVAL["zones"] if zone["id"] == "joint")
    assert joint["made_of"] == ["upper", "post"]
    assert [(pad["zone"], pad["id"]) for pad in joint["pads"]] == [
        ("upper", "U1"),
        ("upper", "U2"),
        ("post", "L1"),
        ("post", "L2"),
    ]
    assert len(joint["sensors"]) == 10
    assert joint["sensors"][3]["id"] == "upper_m"
    assert joint["sensors"][3]["name"].startswith("upper: bare metal")
    assert [sensor.get("of", "bond") for sensor in joint["sensors"][5:]] == [
        "bond",
        "bond",
        "bond",
        "metal",
        "neighbour",
    ]


def test_a_computation_names_each_figure_by_its_answer_or_as_fixed() -> None:
    given = inputs("rem-21", "accounted")
    assert list(given) == ["heads", "mandrels", "positions", "shanks", "tallies"]
    shanks = {"method": "removal", "step": "rem-21", "ask": "pieces", "point": "shanks"}
    assert given["shanks"] == {"from": [shanks]}
    assert given["tallies"]["many"] is True
    assert [one["step"] for one in given["tallies"]["from"]] == ["rem-18", "rem-19", "rem-20"]
    assert inputs("rem-39", "decision")["ovality_allowed"] == {"value": 10, "decimals": 2, "unit": "mm"}
    assert inputs("fit-10", "pairs")["part"] == {"text": "carbon_laminate", "unit": "material"}
    assert inputs("fit-30", "body")["before_dx"] == {
        "from": [{"method": "removal", "step": "rem-04", "ask": "dx"}]
    }


def test_points_and_facts_of_the_scenario_are_in_the_document() -> None:
    datum, gaps, rivets = REMOVAL["point_sets"]
    assert datum["points"][2] == {"id": "d3", "name": "floor rear left", "at_mm": [1450, 590, 15]}
    assert gaps["points"][7] == {"id": "g8", "name": "right half, across the split line"}
    assert rivets["points"][8] == {"id": "p2", "name": "p2", "at_mm": [1500, 542, 1488]}
    facts = {fact["name"]: fact for fact in REMOVAL["facts"]}
    assert facts["rivet.edge_mm.laminate.P9"] == {
        "name": "rivet.edge_mm.laminate.P9",
        "value": 170,
        "decimals": 1,
    }
    assert list(facts) == sorted(facts)
    assert facts["rivet.hole_max_mm"] == {"name": "rivet.hole_max_mm", "value": 51, "decimals": 1}
    assert facts["adhesive.use_between_C.high"]["value"] == 28
    assert facts["split"]["text"].startswith("butt joint")


def test_a_step_of_the_bond_says_how_long_it_is_planned_to_take_and_the_vin_is_one() -> None:
    planned = {name: step["minutes"] for name, step in STEPS.items() if "minutes" in step}
    assert (planned["fit-16"], planned["fit-19"]) == (25, 6)
    assert sorted(planned) == [f"fit-{number}" for number in range(13, 25)]
    (vin,) = (ask for ask in STEPS["rem-01"]["asks"] if ask["id"] == "vin_read")
    assert vin["of"] == "vin"


def test_every_framing_sentence_has_a_line_drawing_that_is_there() -> None:
    framed = [one for step in STEPS.values() for one in step["asks"] if one.get("framing")]
    assert len(framed) == 18
    assert len({one["outline"] for one in framed}) == 18
    assert {one["outline"] for one in framed} <= set(REMOVAL["drawings"])


def test_the_map_shows_every_position_pad_sensor_and_zone_inside_the_drawing() -> None:
    (drawn,) = REMOVAL["maps"]
    width, height = drawn["size"]
    positions = [position for group in REMOVAL["groups"] for position in group["positions"]]
    assert sorted(place["id"] for place in drawn["places"]) == sorted(positions)
    assert sorted(pad["id"] for pad in drawn["pads"]) == ["L1", "L2", "U1", "U2"]
    assert len(drawn["sensors"]) == 10
    assert [zone["id"] for zone in drawn["zones"]] == ["upper", "post"]
    for spot in (*drawn["places"], *drawn["sensors"]):
        assert 0 < spot["x"] < width
        assert 0 < spot["y"] < height


def test_no_two_rivets_of_the_map_are_nearer_than_a_thumb_can_tell() -> None:
    (drawn,) = REMOVAL["maps"]
    scale = 358 / drawn["size"][0]  # as wide as a phone of 390 px shows it
    near = min(
        math.hypot(one["x"] - other["x"], one["y"] - other["y"]) * scale
        for one, other in combinations(drawn["places"], 2)
    )
    assert near >= 28  # the size of a rivet in the map


def test_a_caution_with_a_temperature_defers_to_the_maker() -> None:
    hot = [step["caution"] for step in STEPS.values() if " C " in step["caution"]]
    assert len(hot) == 3
    assert all("Maker's instruction and data sheet come first" in caution for caution in hot)


@pytest.mark.parametrize("step", ["rem-07", "rem-21", "rem-26", "rem-31", "rem-37", "rem-41", "fit-17"])
def test_a_deviation_from_these_hold_points_needs_a_second_name(step: str) -> None:
    assert STEPS[step]["hold"]
    assert STEPS[step]["hold_countersign"] == "second_person"


def test_the_published_schema_takes_the_file_as_other_tools_read_it() -> None:
    jsonschema.validate(YAML(typ="safe", pure=True).load(TEXT), method_schema())


def test_the_practice_method_keeps_its_steps_to_the_byte() -> None:
    spine = compile_methods((SEED / "spine.yaml").read_text("utf-8"), DRAWINGS)[0].document
    assert sha256_hex(dumps(spine["stages"]).encode()) == SPINE_STAGES
    assert [sensor.get("of") for sensor in spine["zones"][0]["sensors"]] == [None, None, "metal"]
