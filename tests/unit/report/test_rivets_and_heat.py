"""The chapters of the fastener map and of heat runs, from hand-made entries to the words and lines shown."""

from __future__ import annotations

from copy import deepcopy
from dataclasses import replace
from typing import Any

from bayleaf.report.contents import contents_of
from bayleaf.report.source import Arrival, RunPlan
from unit.report.jobs import READINGS, heat, rivets, well, write_act
from unit.report.made_up import METHOD, Log, at


def report_of(log: Log) -> dict[str, Any]:
    found: dict[str, Any] = contents_of(log.source(filed="9 10:00"))["report"]
    return found


def opened() -> Log:
    log = Log()
    log.open()
    return log


def test_rivets_stand_by_position_and_a_lost_shank_is_named_until_it_is_found() -> None:
    log = opened()
    rivets(log)
    lost = log.write(
        "mara",
        "3 10:20",
        "tally",
        {"position": "H2", "generation": 0, "mark": "lost", "piece": "shank", "lost": ""},
    )
    chapter = report_of(log)["rivets"]
    assert chapter["pieces"]["sentence"] == "One piece not accounted for: shank at H2."
    row = next(row for row in chapter["groups"][0]["rows"] if row["id"] == "H2")
    assert (row["shape"], row["marks"]) == (
        "lost",
        ["shank lost inside, not found (Mara Ilves, 2026-11-03 10:20)"],
    )
    log.write(
        "oskar",
        "3 15:00",
        "tally",
        {"position": "H2", "generation": 0, "mark": "found", "piece": "", "lost": lost},
    )
    pieces = report_of(log)["rivets"]["pieces"]
    assert (
        pieces["sentence"]
        == "All 9 pieces of the rivets taken out are accounted for. One lost piece found again."
    )
    assert pieces["rows"][2] == {"piece": "shanks", "owed": "3", "lost": "0", "found": "1"}


def test_the_map_has_a_mark_at_every_place_of_the_drawing() -> None:
    (drawn,) = report_of(well(readings=READINGS))["rivets"]["maps"]
    assert (drawn["w"], drawn["h"]) == (300, 120)
    assert [(one["id"], one["x"], one["shape"]) for one in drawn["places"]] == [
        ("H1", 60, "shank_out"), ("H2", 150, "shank_out"), ("H3", 240, "shank_out"),
    ]  # fmt: skip


def test_a_heat_run_is_held_line_by_line_against_its_limits() -> None:
    (run,) = report_of(well(readings=READINGS))["runs"]
    assert [(line["what"], line["found"], line["verdict"]) for line in run["verdict"]] == [
        ("Steepest rise", "7.0\u00a0K/min", "no limit set"),  # sensor a: 20 to 90 in ten minutes
        ("Soak", "10.0\u00a0min, at least 10.0\u00a0min", "within"),
        ("Gap in the soak", "0.0\u00a0min, at most 0.0\u00a0min", "within"),
        ("Hottest bond", "142\u00a0\u00b0C at sensor a, at most 185\u00a0\u00b0C", "within"),
        ("Hottest metal", "181\u00a0\u00b0C at sensor m, at most 190\u00a0\u00b0C", "within"),
        ("Metal above its limit, all runs", "0.0\u00a0min", "no limit set"),
        ("Pads out of order, or never", "0, at most 0", "within"),
        ("Steepest fall", "0.0\u00a0K/min", "no limit set"),  # one reading after the release
        ("Last reading, hottest sensor", "130\u00a0\u00b0C, at most 45\u00a0\u00b0C", "deviates"),
        ("Longest time without a reading", "600\u00a0s, at most 300\u00a0s", "deviates"),
        ("Moments reached", "on, soaked, lifted, off and cold", ""),
    ]  # fmt: skip
    assert ["Verdict", "Conforms, with deviations"] in run["facts"]
    assert [(act["at"], act["what"]) for act in run["acts"]][:3] == [
        ("0:00", "On"), ("30:00", "Soaked"), ("31:00", "Pad U1 turned down"),
    ]  # fmt: skip


def test_acts_and_rivets_that_came_late_together_say_so_once() -> None:
    log = opened()
    rivets(log)
    on = heat(log)
    evening = Arrival(at("3 17:30"))
    log.arrivals |= {one.hash: evening for one in log.entries if one.kind in ("heat", "tally")}
    write_act(log, on, "remark", 4210, text="looked at again")
    report = report_of(log)
    assert report["runs"][0]["late"] == ["Late: reached the office 2026-11-03 17:30: eight acts."]
    assert {act["note"] for act in report["runs"][0]["acts"]} == {""}
    (group,) = report["rivets"]["groups"]
    assert group["late"] == ["Late: reached the office 2026-11-03 17:30: every position."]
    assert {row["late"] for row in group["rows"]} == {""}


def test_metal_over_its_maximum_is_outside_with_figure_and_limit() -> None:
    log = opened()
    heat(log, {**READINGS, "m": [(s, value + 15) for s, value in READINGS["m"]]})
    report = report_of(log)
    line = next(one for one in report["runs"][0]["verdict"] if one["what"] == "Hottest metal")
    assert (line["found"], line["verdict"], line["tone"]) == (
        "196\u00a0\u00b0C at sensor m, at most 190\u00a0\u00b0C",
        "not conforming",
        "stop",
    )
    assert ["Verdict", "Does not conform"] in report["runs"][0]["facts"]
    said = [text for issue in report["issues"] for text in issue["what"]]
    assert (
        "over the maximum: zone upper, sensor m, 196\u00a0\u00b0C; "
        "limits bondline 185\u00a0\u00b0C and metal 190\u00a0\u00b0C"
    ) in said


def test_a_fall_with_no_release_recorded_is_told_and_not_judged() -> None:
    """Sensor b falls from 135 to 110 in five minutes, 5 K/min, under a limit of 4."""
    method = deepcopy(METHOD)
    method["stages"][1]["steps"][1]["asks"][0]["settings"] |= {"cooling_max": 4, "release": []}
    log = Log(methods=[method])
    log.open()
    heat(log, released=False)
    report = report_of(log)
    line = next(one for one in report["runs"][0]["verdict"] if one["what"] == "Steepest fall")
    reason = "not judged: no turn-down, lift or switch-off was recorded"
    found = "5.0\u00a0K/min, at most 4.0\u00a0K/min"
    assert (line["found"], line["verdict"], line["tone"]) == (found, reason, "note")
    assert dict(report["facts"])["Heat runs"] == (
        f"1 upper joint, removal: conforms, with deviations (steepest fall {reason}: {found})"
    )


def test_the_curve_is_drawn_from_the_readings_and_shades_only_what_counts() -> None:
    picture = report_of(well(readings=READINGS))["runs"][0]["picture"]
    # 70 minutes from on to cold make 1000; the frame is 0 to 200 degrees.
    assert picture["lagging"][2] == [286, 630]
    assert picture["leading"][2] == [286, 650]
    assert picture["soak"] == [[286, 429]]
    assert [line["words"] for line in picture["limits"]] == [
        "bondline at least 125\u00a0\u00b0C",
        "bondline at most 185\u00a0\u00b0C",
        "metal at most 190\u00a0\u00b0C",
    ]


def test_times_and_degrees_beyond_all_sense_are_drawn_with_few_ticks() -> None:
    log = opened()
    heat(log, {"a": [(0, 20), (9_000_000_000, 10**12)], "b": [(0, 20)], "m": [(0, 20)]})
    picture = report_of(log)["runs"][0]["picture"]
    assert len(picture["ticks_x"]) < 12
    assert len(picture["ticks_y"]) < 12


def test_a_run_without_a_reading_has_no_picture_and_says_so() -> None:
    log = opened()
    heat(log, {"a": [(0, 20)]})
    empty = opened()
    heat(empty, {"unknown": [(0, 20)]})
    assert report_of(log)["runs"][0]["picture"]["lagging"] == []
    assert report_of(empty)["runs"][0]["picture"]["others"] == []


PLAN: dict[str, Any] = {
    "sentence": "Workable in 19 min (16-23), release from 33 to 45 min, metal peaks at 178 C.",
    "band": {"contact_factor": [0.5, 1.5], "loss_factor": [0.9, 1.1]},
    "workable_min": 19.2, "workable_band_min": [16.1, 23.4], "heat_until_min": 33.0,
    "bondline_peak_band_C": [141.2, 150.6], "metal_peak_band_C": [177.6, 177.9],
    "ramp_K_min": 8.04, "cooling_K_min": 6.0,
    "release": [
        {"at_min": 33.0, "pad": "U1", "act": "turn_down", "power_share": 0.4},
        {"at_min": 45.4, "pad": "U1", "act": "lift"},
    ],
    "curves": {
        "t_s": [0, 1200, 4200, 9000], "coldest_bondline_C": [20.0, 125.0, 60.0, 30.0],
        "metal_C": [20.0, 170.0, 64.0, 31.0],
    },
}  # fmt: skip


def planned(
    pinned: str, ended: str = "", *, name: str = "upper joint, invented", digest: str = "ab"
) -> RunPlan:
    times = (at(pinned), at(ended) if ended else 0)
    return RunPlan("small", "upper", digest * 32, "coupled-plates-1", name, *times, PLAN)


def test_a_run_stands_beside_the_plan_that_held_when_it_was_switched_on() -> None:
    log = well(readings=READINGS)
    before = planned("3 08:30", "3 10:30", name="an older plan")
    log.plans = [before, planned("3 10:30"), planned("3 15:00", name="a later plan")]
    (run,) = report_of(log)["runs"]
    assert run["plan"] == [
        ["Heat plan", "upper joint, invented, abababababab, model coupled-plates-1"],
        ["Planned", PLAN["sentence"]],
        ["Its band", "contact 0.5 to 1.5 and loss 0.9 to 1.1 of their nominal figures"],
        ["Planned release", "33\u00a0min pad U1 turned down to 40\u00a0%; 45\u00a0min pad U1 lifted"],
    ]
    assert [(row["what"], row["planned"], row["found"]) for row in run["against_plan"]] == [
        ("Workable", "19\u00a0min (16 to 23)", "not recorded"),
        ("Heat until", "33\u00a0min", "31\u00a0min"),
        ("Hottest bond", "141 to 151\u00a0\u00b0C", "142\u00a0\u00b0C"),
        ("Hottest metal", "178\u00a0\u00b0C", "181\u00a0\u00b0C"),
        ("Steepest rise", "8.0\u00a0K/min", "7.0\u00a0K/min"),
        ("Steepest fall", "6.0\u00a0K/min", "0.0\u00a0K/min"),
    ]
    # 70 minutes make 1000, 0 to 200 degrees make 1000; what the plan says after the run is left out.
    assert run["picture"]["planned"] == [
        {"of": "bond", "line": [[0, 100], [286, 625], [1000, 300]]},
        {"of": "metal", "line": [[0, 100], [286, 850], [1000, 320]]},
    ]


def test_the_plan_that_the_switch_on_names_goes_before_the_one_that_held() -> None:
    log = Log()
    log.open()
    heat(log, plan="cd" * 32)
    named = replace(planned("3 15:00", name="the phone's own"), response_sha256="cd" * 32)
    log.plans = [planned("3 08:30"), named]
    (run,) = report_of(log)["runs"]
    assert run["plan"][0][1].startswith("the phone's own")


def test_a_run_without_a_plan_says_nothing_of_one() -> None:
    (run,) = report_of(well(readings=READINGS))["runs"]
    assert (run["plan"], run["against_plan"], run["picture"]["planned"]) == ([], [], [])


def test_a_run_whose_plan_never_becomes_workable_is_told_so() -> None:
    log = well(readings=READINGS)
    never = {**PLAN, "workable_min": "never", "workable_band_min": [16.0, "never"], "heat_until_min": "never"}
    log.plans = [replace(planned("3 08:30"), answer=never)]
    rows = report_of(log)["runs"][0]["against_plan"]
    assert [row["planned"] for row in rows][:2] == ["never (16 to never)", "never"]
