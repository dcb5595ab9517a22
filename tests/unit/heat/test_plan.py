"""What a plan answers before the pads are switched on."""

from __future__ import annotations

import json
import math
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from click.testing import CliRunner

from bayleaf.cli import main
from bayleaf.heat.asked import asked_run
from bayleaf.heat.bondline import layer_curves, reached_s
from bayleaf.heat.colours import colour
from bayleaf.heat.exposure import exposure_of
from bayleaf.heat.family import factors
from bayleaf.heat.model import MODEL_ID
from bayleaf.heat.picture import picture
from bayleaf.heat.plan import FIRST, Plan, plan_of
from bayleaf.heat.plan_json import answer_sentence, plan_json
from bayleaf.heat.plan_words import plan_lines
from bayleaf.heat.release import order_of_release
from bayleaf.heat.troubles import Trouble, mending_change, troubles_of
from unit.heat.zones import SEED, joint, joint_zone

RELEASED: dict[str, Any] = {
    "limits": {"cooling_K_min": 8, "count_above_C": [150]},
    "supply": {"voltage_V": 230, "circuit_A": 16},
    "earlier_runs": [
        {"layer": "metal", "above_C": 150, "minutes": 5},
        {"layer": "metal", "above_C": 150, "minutes": 7, "zone": "the joint beside"},
    ],
    "neighbours": [
        {"id": "rest", "kind": "still_bonded", "at_mm": [399, 80], "layer": "metal", "limit_C": 250},
        {"id": "seal", "kind": "seal", "at_mm": [200, 40], "layer": "metal", "limit_C": 90},
        {"id": "loom", "kind": "loom", "at_mm": [200, 155], "layer": "laminate", "limit_C": 80},
    ],
}


@pytest.fixture(scope="module")
def plan() -> Plan:
    return plan_of(joint_zone(**RELEASED), family_size=3)


def test_the_nominal_answer_lies_inside_its_band(plan: Plan) -> None:
    assert plan.workable_from_s < plan.workable_s < plan.workable_to_s
    metal = next(one for one in plan.exposures if one.layer == "metal")
    assert plan.metal_band_C[0] < metal.peak_C < plan.metal_band_C[1]


def test_the_release_keeps_the_cooling_limit_and_ends_beside_the_still_bonded_stretch(plan: Plan) -> None:
    assert plan.release is not None
    assert plan.release.keeps_limit
    assert plan.release.steepest_K_min <= 8
    assert plan.cooling_K_min <= 8 * 1.03
    off = [act.pad for act in plan.acts if act.act == "off"]
    assert off == [pad.id for pad in order_of_release(plan.zone)] == ["A", "B"]


def test_the_release_begins_when_workable_soaked_and_wedged(plan: Plan) -> None:
    assert plan.heat_until_s == pytest.approx(plan.workable_s + 240, abs=15)
    assert min(act.at_s for act in plan.acts) == pytest.approx(plan.heat_until_s)


def test_every_place_is_workable_while_it_is_wedged(plan: Plan) -> None:
    assert len({window.x_m for window in plan.windows}) == len({place.x_m for place in plan.bond.places})
    assert all(window.from_s <= plan.heat_until_s - 120 for window in plan.windows)
    assert all(window.until_s >= plan.heat_until_s for window in plan.windows)


def test_the_lagging_place_is_named_with_its_nearest_sensor(plan: Plan) -> None:
    assert plan.lagging.T_C <= plan.leading.T_C
    assert plan.lagging.sensor in {"a", "b", "c"}
    assert plan.lagging.sensor_away_m > 0
    assert plan.lagging.sensor_reads_K > 0


def test_minutes_above_a_limit_are_summed_with_earlier_runs(plan: Plan) -> None:
    metal = next(one for one in plan.exposures if one.layer == "metal")
    above = next(one for one in metal.above if one.above_C == 150)
    assert above.earlier_min == 12
    assert above.total_min == pytest.approx(12 + above.run_min)
    assert above.zones == (("the joint beside", 7),)
    assert metal.ageing_share is not None
    assert metal.ageing_share > 0


def test_minutes_of_the_bondline_above_its_maximum_are_counted_too(plan: Plan) -> None:
    bond = next(one for one in plan.exposures if one.layer == "bond")
    assert [(one.above_C, one.is_limit) for one in bond.above] == [(250, True)]


def test_the_plan_in_words_says_each_answer_and_whose_word_comes_first(plan: Plan) -> None:
    told = plan_lines(plan_json(plan))
    text = "\n".join(told)
    assert told[-1] == FIRST
    assert "and 12 in earlier runs (7 in runs of the joint beside), together " in text
    assert "one change mends it: move seal away, or shield it" in text
    assert re.search(r"^seal: peak .* limit 90 C: over it, passes nowhere within 400 mm$", text, re.MULTILINE)
    assert re.search(
        r"^lags at x .* mm with 11[01] C when workable; . is \d+ mm away and reads", text, re.MULTILINE
    )
    for part in (
        "soak 2 min, heat until",
        "wedging, zone end to end: ",
        "safe to touch for 1 min",
        "ISO 13732-1",
        "Donovan",
        "peak power",
        "A of a circuit of 16 A",
        "model: coupled",
        "band: contact 0.5 to 1.6",
    ):
        assert part in text


def test_a_neighbour_too_near_is_told_how_far_away_it_would_pass(plan: Plan) -> None:
    seal, loom = plan.neighbours[1], plan.neighbours[2]
    assert not seal.passes
    assert seal.away_m > 0
    assert loom.passes
    assert loom.away_m == 0


def test_a_metal_face_is_safe_to_touch_later_the_longer_the_contact(plan: Plan) -> None:
    moments = [one.from_s for one in plan.touch if one.layer == "metal"]
    assert moments == sorted(moments)
    assert moments[0] > plan.heat_until_s
    assert math.isfinite(moments[0])


def test_energy_and_current_are_those_of_the_pads(plan: Plan) -> None:
    full_W = 2 * 15000 * 0.19 * 0.06
    assert plan.electric.connected_W == pytest.approx(full_W)
    assert plan.electric.current_A == pytest.approx(full_W / 230)
    assert plan.electric.energy_kWh < full_W * (plan.acts[-1].at_s / 3600) / 1000 + 1e-6


def test_the_plan_as_data_has_no_figure_that_json_cannot_say_and_carries_the_line(plan: Plan) -> None:
    text = json.dumps(plan_json(plan), allow_nan=False)
    assert FIRST in text
    assert json.loads(text)["band"] == {"contact_factor": [0.5, 1.6], "loss_factor": [0.7, 1.4]}
    assert json.loads(text)["heat_balance_error"] < 1e-3


def test_the_trouble_and_what_mends_it_stand_in_the_answer(plan: Plan) -> None:
    assert [one.code for one in plan.troubles] == ["neighbour_too_hot:seal"]
    assert answer_sentence(plan).startswith("Not feasible: seal reaches ")
    assert plan.mend == "move seal away, or shield it"


def test_the_picture_is_well_formed_and_draws_every_pad_and_sensor(plan: Plan) -> None:
    drawn = ET.fromstring(picture(plan))  # noqa: S314  our own text
    words = {one.text for one in drawn.iter("{http://www.w3.org/2000/svg}text")}
    assert {"A", "B", "a", "b", "c", "leads", "lags", FIRST} <= words
    assert "band: contact 0.5 to 1.6 and loss 0.7 to 1.4 times what the zone says" in words
    assert f"model {MODEL_ID}; inputs: zone short, {plan.zone.digest[:16]}" in words


def test_colours_grow_evenly_lighter() -> None:
    def grey(code: str) -> float:
        r, g, b = (int(code[k : k + 2], 16) / 255 for k in (1, 3, 5))
        y = 0.2126 * r**2.2 + 0.7152 * g**2.2 + 0.0722 * b**2.2
        return float(116 * y ** (1 / 3) - 16)

    steps = np.diff([grey(colour(share)) for share in np.linspace(0, 1, 21)])
    assert steps.min() > 0.6 * steps.mean()


def test_pads_faces_at_320_on_a_flange_make_the_bondline_workable_within_45_min_and_the_metal_hot() -> None:
    """Common practice, no source: pad face about 320 C; and what the metal then sees."""
    pads = [{**pad, "power_W_cm2": 4.0} for pad in joint()["pads"]]
    zone = joint_zone(pads=pads)
    run = asked_run(zone)
    coldest = layer_curves(run, zone, "bond").coldest_C
    assert reached_s(layer_curves(run, zone, "bond").times_s, coldest, 110) < 45 * 60
    assert exposure_of(run, zone, zone.layer("metal")).peak_C > 200


def test_a_circuit_too_small_is_told_with_the_rating_that_mends_it() -> None:
    zone = joint_zone(supply={"voltage_V": 230, "circuit_A": 1})
    run = asked_run(zone)
    assert [one.code for one in troubles_of(zone, run)] == ["circuit_overloaded"]
    assert mending_change(zone, troubles_of(zone, run)) == "use a circuit of 2 A or more"


def test_pads_too_weak_are_told_as_never_workable_and_what_mends_it() -> None:
    pads = [{**pad, "power_W_cm2": 0.5} for pad in joint()["pads"]]
    zone = joint_zone(pads=pads)
    troubles = troubles_of(zone, asked_run(zone))
    assert [one.code for one in troubles] == ["never_workable"]
    assert mending_change(zone, troubles) == "use pads of 1.25 times the power"


def test_a_soak_that_does_not_fit_into_the_run_is_told_with_the_time_that_mends_it() -> None:
    """Workable after some 5 min, and 2 min of soak and 2 of wedging: over 6 min, under 1.5 times 7 min."""
    zone = joint_zone(duration_min=7)
    troubles = troubles_of(zone, asked_run(zone))
    assert [one.code for one in troubles] == ["run_too_short"]
    assert re.search(r"soaked and wedged after \d+ min, the longest run is 7 min", troubles[0].sentence)
    assert mending_change(zone, troubles) == "heat for 10 min"


def test_a_pad_that_is_off_is_what_mends_a_cold_end() -> None:
    pads = joint()["pads"]
    zone = joint_zone(pads=[pads[0], {**pads[1], "power_share": 0}], duration_min=20)
    troubles = troubles_of(zone, asked_run(zone))
    assert [one.code for one in troubles] == ["never_workable"]
    assert mending_change(zone, troubles) == "give B full power"


def test_nothing_is_promised_against_a_release_that_falls_too_steeply() -> None:
    steep = (Trouble("cooling_too_steep", "release falls by 9.0 K/min, the limit is 0.5 K/min"),)
    assert mending_change(joint_zone(limits={"cooling_K_min": 0.5}), steep) == ""


@pytest.fixture(scope="module")
def own_release() -> Plan:
    """One pad only, and a release of the document's own: off after 20 min."""
    acts = [{"at_min": 20, "pad": "A", "act": "off"}]
    bondline = {**joint()["bondline"], "workable_C": 60}
    return plan_of(
        joint_zone(pads=joint()["pads"][:1], acts=acts, bondline=bondline, duration_min=30), family_size=3
    )


def test_a_release_of_the_documents_own_is_told_by_its_own_times(own_release: Plan) -> None:
    assert "release from 20 to 20 min" in answer_sentence(own_release)


def test_there_is_no_window_of_the_whole_joint_while_one_end_stays_hard(plan: Plan) -> None:
    cold_end = replace(plan, windows=plan.windows[:-1])
    assert plan_json(cold_end)["wedging_whole_min"] == ["never", "never"]
    opens, closes = plan_json(plan)["wedging_whole_min"]
    assert opens < plan.heat_until_s / 60 - 2 < closes
    assert "wedging, zone end to end: never" in "\n".join(plan_lines(plan_json(cold_end)))


def test_factors_of_the_family_are_even_in_their_logarithm_with_nominal_in_the_middle() -> None:
    made = factors((0.5, 1.6), 5)
    assert made[2] == 1.0
    assert made[0] == 0.5
    assert made[1] ** 2 == pytest.approx(0.5)
    assert made[3] ** 2 == pytest.approx(1.6)


def run_command(*words: str | Path) -> Any:
    return CliRunner().invoke(main, [str(word) for word in words])


def test_the_command_names_each_fault_and_exits_with_one(tmp_path: Path) -> None:
    wrong = tmp_path / "zone.yaml"
    wrong.write_text((SEED / "upper.yaml").read_text().replace("thickness_mm: 3\n", "thickness_mm: 3000\n"))
    told = run_command("heat", "plan", wrong)
    assert told.exit_code == 1
    assert "layers[0].thickness_mm: found 3000, allowed a number above 0 up to 100 (mm)" in told.stderr
    scripted = json.loads(run_command("heat", "plan", wrong, "--json").stdout)
    assert scripted["ok"] is False


def test_a_zone_without_a_bondline_answers_what_its_report_asks(tmp_path: Path) -> None:
    document = joint(
        report={"places": [{"id": "p", "at_mm": [95, 80], "layer": "metal"}], "times_s": [60, 600]}
    )
    del document["bondline"], document["sensors"]
    asked = tmp_path / "zone.json"
    asked.write_text(json.dumps(document))
    told = run_command("heat", "plan", asked, "--json")
    assert told.exit_code == 0
    rows = json.loads(told.stdout)["report"]
    assert [row["t_s"] for row in rows] == [60, 600]
    assert rows[1]["T_C"] > rows[0]["T_C"] > 20
    words = run_command("heat", "plan", asked).stdout
    assert f"p at 600 s: {rows[1]['T_C']:.2f} C\n" in words
    assert "no band" in words
    assert words.endswith(f"{FIRST}\n")


def test_the_schema_is_printed_for_an_editor() -> None:
    assert json.loads(run_command("heat", "plan", "--schema").stdout)["title"] == "Bayleaf heat zone"
