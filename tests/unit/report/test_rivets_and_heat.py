"""The chapters of the fastener map and of heat runs, from hand-made entries to the words and lines shown."""

from __future__ import annotations

from typing import Any

from bayleaf.report.contents import contents_of
from unit.report.jobs import READINGS, heat, rivets, well
from unit.report.made_up import Log


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
    (drawn,) = report_of(well())["rivets"]["maps"]
    assert (drawn["w"], drawn["h"]) == (300, 120)
    assert [(one["id"], one["x"], one["shape"]) for one in drawn["places"]] == [
        ("H1", 60, "shank_out"), ("H2", 150, "shank_out"), ("H3", 240, "shank_out"),
    ]  # fmt: skip


def test_a_heat_run_is_held_line_by_line_against_its_limits() -> None:
    (run,) = report_of(well())["runs"]
    assert [(line["what"], line["found"], line["verdict"]) for line in run["verdict"]] == [
        ("Soak with the lagging sensor at 125\u00a0\u00b0C or above",
         "10\u00a0min counted, at least 10\u00a0min asked for", "inside"),
        ("Bondline, highest", "142\u00a0\u00b0C at sensor a, at most 185\u00a0\u00b0C", "inside"),
        ("Metal beside the pad, highest", "181\u00a0\u00b0C at sensor m, at most 190\u00a0\u00b0C", "inside"),
        ("Moments reached", "on, soaked, lifted, off and cold", ""),
    ]  # fmt: skip
    assert [(act["at"], act["what"]) for act in run["acts"]][:3] == [
        ("0:00", "On"), ("30:00", "Soaked"), ("31:00", "Pad U1 turned down"),
    ]  # fmt: skip


def test_metal_over_its_maximum_is_outside_with_figure_and_limit() -> None:
    log = opened()
    heat(log, {**READINGS, "m": [(s, value + 15) for s, value in READINGS["m"]]})
    report = report_of(log)
    line = report["runs"][0]["verdict"][2]
    assert (line["found"], line["verdict"]) == (
        "196\u00a0\u00b0C at sensor m, at most 190\u00a0\u00b0C",
        "outside",
    )
    said = [text for issue in report["issues"] for text in issue["what"]]
    assert (
        "over the maximum: zone upper, sensor m, 196\u00a0\u00b0C; "
        "limits bondline 185\u00a0\u00b0C and metal 190\u00a0\u00b0C"
    ) in said


def test_the_curve_is_drawn_from_the_readings_and_shades_only_what_counts() -> None:
    picture = report_of(well())["runs"][0]["picture"]
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
