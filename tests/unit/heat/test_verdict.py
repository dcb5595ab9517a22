"""The verdict on a finished run: what counts, what is a deviation, and what fails, by purpose."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from bayleaf.cli import main
from bayleaf.heat.faults import ZoneFault
from bayleaf.heat.readings_document import read_run
from bayleaf.heat.verdict import Verdict, soaked_s, verdict_of

LIMITS = {
    "lagging_min_C": 120, "leading_max_C": 185, "soak_min": 10, "gap_max_s": 90, "ramp_K_min": 12,
    "cooling_K_min": 8, "metal_max_C": 200,
    "metal_above_C": 150, "metal_above_max_min": 40, "cold_below_C": 45,
}  # fmt: skip


def curve(top_C: float, *, hold_s: int = 1200, every_s: int = 60) -> list[list[float]]:
    """Up in 15 min, held, then down by about 6 K/min to 40 C."""
    rows: list[list[float]] = []
    rise_s, fall_s = 900, int((top_C - 40) / 6 * 60)
    for t in range(0, rise_s + hold_s + fall_s + 1, every_s):
        up = 20 + (top_C - 20) * min(t / rise_s, 1)
        down = max(0, t - rise_s - hold_s) / fall_s * (top_C - 40)
        rows.append([t, up - down])
    return [*rows, [rise_s + hold_s + fall_s, 40]]


def document(**more: Any) -> dict[str, Any]:
    return {
        "purpose": "removal",
        "limits": LIMITS,
        "readings": {"a": curve(150), "b": curve(130), "m": curve(180)},
        "metal_sensors": ["m"],
        "acts": [{"at_s": 2100, "act": "turn_down", "pad": "U1"}, {"at_s": 2400, "act": "off", "pad": "U1"},
                 {"at_s": 2700, "act": "off", "pad": "U2"}],
        "release_order": ["U1", "U2"],
        **more,
    }  # fmt: skip


def judged(**more: Any) -> Verdict:
    return verdict_of(read_run(json.dumps(document(**more))))


def standing(verdict: Verdict, what: str) -> str:
    return next(line.standing for line in verdict.lines if line.what == what)


def test_a_run_within_its_limits_conforms_and_each_line_has_figure_and_limit() -> None:
    verdict = judged()
    assert verdict.overall == "conforming"
    assert [line.what for line in verdict.lines][:4] == ["ramp", "soak", "gap in the soak", "bondline peak"]
    assert all(line.limit is not None for line in verdict.lines)
    assert "soak: 22.0 min, limit 10 min" in [line.sentence for line in verdict.lines]


def test_the_soak_counts_only_while_the_lagging_sensor_is_at_the_minimum() -> None:
    dip = [[t, 110 if 1300 <= t <= 1500 else T] for t, T in curve(130)]
    whole, dipped = (read_run(json.dumps(document(readings={"a": curve(150), "b": b}, metal_sensors=[])))
                     for b in (curve(130), dip))  # fmt: skip
    assert soaked_s(dipped) == soaked_s(whole) - 300


def test_a_gap_in_one_sensor_pauses_the_soak_and_is_a_deviation_not_a_failure() -> None:
    """The breaker trips for nine minutes: verdict says gap, not failure."""
    gapped = [row for row in curve(130) if not 1200 < row[0] < 1740]
    verdict = judged(readings={"a": curve(150), "b": gapped, "m": curve(180)})
    assert verdict.overall == "conforming_with_deviations"
    assert standing(verdict, "longest gap of a sensor") == "deviation"
    soak = next(line for line in verdict.lines if line.what == "soak")
    assert soak.figure == pytest.approx(22 - 9, abs=1.1)


def test_a_short_soak_is_a_deviation_of_a_removal_and_fails_a_cure() -> None:
    short = {"a": curve(150, hold_s=300), "b": curve(130, hold_s=300)}
    acts = [{"at_s": 1200, "act": "off", "pad": "U1"}, {"at_s": 1200, "act": "off", "pad": "U2"}]
    removal = judged(readings=short, metal_sensors=[], acts=acts)
    cure = judged(readings=short, metal_sensors=[], acts=acts, purpose="cure")
    assert (removal.overall, standing(removal, "soak")) == ("conforming_with_deviations", "deviation")
    assert (cure.overall, standing(cure, "soak")) == ("not_conforming", "not_conforming")


@pytest.mark.parametrize(
    ("readings", "what"),
    [
        ({"a": curve(190), "b": curve(130), "m": curve(180)}, "bondline peak"),
        ({"a": curve(150), "b": curve(130), "m": curve(205)}, "metal peak"),
        ({"a": curve(150), "b": curve(130), "m": curve(190, hold_s=2400)}, "metal above 150 C"),
    ],
)
def test_too_hot_or_too_long_does_not_conform(readings: dict[str, Any], what: str) -> None:
    verdict = judged(readings=readings)
    assert standing(verdict, what) == "not_conforming"
    assert verdict.overall == "not_conforming"


def test_a_release_out_of_order_is_a_deviation() -> None:
    acts = [{"at_s": 2100, "act": "off", "pad": "U2"}, {"at_s": 2400, "act": "off", "pad": "U1"}]
    assert standing(judged(acts=acts), "pads released out of order or not at all") == "deviation"


def test_pads_turned_down_in_order_are_a_release_in_order_whenever_they_are_lifted() -> None:
    order = ((2100, "turn_down", "U1"), (2400, "turn_down", "U2"), (2700, "lift", "U2"), (2800, "lift", "U1"))
    acts = [{"at_s": at_s, "act": act, "pad": pad} for at_s, act, pad in order]
    assert standing(judged(acts=acts), "pads released out of order or not at all") == "conforming"


def test_a_gap_after_the_release_began_is_none() -> None:
    sparse = [row for row in curve(130) if not 2160 < row[0] < 2900]
    verdict = judged(readings={"a": curve(150), "b": sparse}, metal_sensors=[])
    assert standing(verdict, "longest gap of a sensor") == "conforming"


def test_a_neighbour_over_its_limit_does_not_conform() -> None:
    more = {"neighbour_sensors": ["n"], "limits": {**LIMITS, "neighbour_max_C": 80}}
    cool, hot = curve(70), curve(85)
    readings = {"a": curve(150), "b": curve(130), "m": curve(180)}
    assert judged(readings={**readings, "n": cool}, **more).overall == "conforming"
    assert standing(judged(readings={**readings, "n": hot}, **more), "neighbour peak") == "not_conforming"


def test_minutes_of_earlier_runs_on_the_same_metal_are_added() -> None:
    own = judged()
    both = judged(earlier_metal_above_min=30)
    (alone, summed) = (next(one for one in v.lines if one.what == "metal above 150 C") for v in (own, both))
    assert summed.figure == pytest.approx(alone.figure + 30)
    assert summed.standing == "not_conforming"


def test_minutes_of_bondline_and_composite_are_judged_where_their_limits_are_stated() -> None:
    """By hand: `curve(130)` is at 130 C for 20 min, over 100 C for (130 - 100) / 110 of its 15 min before and
    for 5 min after: 29.1 min. `curve(160)`: over 100 C for 6.4 + 20 + 10 = 36.4 min.
    """
    readings = {"a": curve(130), "k": curve(160)}
    limits = {**LIMITS, "bond_above_C": 100, "bond_above_max_min": 30, "composite_max_C": 165,
              "composite_above_C": 100, "composite_above_max_min": 40}  # fmt: skip
    more = {"readings": readings, "metal_sensors": [], "composite_sensors": ["k"], "limits": limits}
    alone, summed = judged(**more), judged(**more, earlier_composite_above_min=5)
    found = {line.what: line for line in alone.lines}
    assert found["bondline above 100 C"].figure == pytest.approx(29.1, abs=0.1)
    assert found["composite above 100 C"].figure == pytest.approx(36.4, abs=0.1)
    assert found["composite peak"].figure == 160
    assert alone.overall == "conforming"
    assert standing(summed, "composite above 100 C") == "not_conforming"
    hot = {**limits, "bond_above_max_min": 29, "composite_max_C": 155}
    over = judged(**(more | {"limits": hot}))
    assert standing(over, "bondline above 100 C") == standing(over, "composite peak") == "not_conforming"


def test_a_sensor_on_the_composite_is_none_of_the_bond() -> None:
    """It reads less than the lagging minimum throughout, and the soak counts all the same."""
    readings = {"a": curve(130), "k": curve(100)}
    verdict = judged(readings=readings, metal_sensors=[], composite_sensors=["k"])
    assert standing(verdict, "soak") == "conforming"


def test_cooling_too_fast_is_a_deviation() -> None:
    steep = [[t, T] for t, T in curve(150) if t <= 2100] + [[2160, 135], [2220, 120], [2280, 40]]
    verdict = judged(readings={"a": steep, "b": curve(130)}, metal_sensors=[])
    assert standing(verdict, "cooling") == "deviation"


def test_cooling_is_told_and_not_judged_where_no_release_was_recorded() -> None:
    """By hand: from 120 C to 40 C within the last minute are 80 K/min."""
    steep = [[t, T] for t, T in curve(150) if t <= 2100] + [[2160, 135], [2220, 120], [2280, 40]]
    made = judged(readings={"a": steep, "b": curve(130)}, metal_sensors=[], acts=[], release_order=[])
    cooling = next(line for line in made.lines if line.what == "cooling")
    assert (cooling.figure, cooling.limit, cooling.standing) == (80, 8, "not_recorded")
    assert made.overall == "conforming_with_deviations"


def test_cooling_without_a_limit_is_not_judged_for_want_of_one() -> None:
    limits = {name: value for name, value in LIMITS.items() if name != "cooling_K_min"}
    assert standing(judged(acts=[], limits=limits), "cooling") == "not_judged"


def test_the_command_says_why_it_did_not_judge_the_cooling(tmp_path: Path) -> None:
    file = tmp_path / "run.json"
    file.write_text(json.dumps(document(acts=[])))
    told = CliRunner().invoke(main, ["heat", "verdict", str(file)])
    assert "limit 8 K/min: not judged: no turn-down, lift or switch-off was recorded\n" in told.output


@pytest.mark.parametrize(
    ("change", "line"),
    [
        ({"purpose": "drying"}, "purpose: found drying, allowed removal, cure"),
        ({"limits": {**LIMITS, "soak_min": -1}}, "limits.soak_min: found -1"),
        ({"limits": {**LIMITS, "leading_max_C": 100}}, "limits.leading_max_C: found 100, allowed above"),
        ({"readings": {"a": [[0, 20], [60, "hot"]]}}, "readings.a[1]: found [60, 'hot']"),
        ({"readings": {"a": [[-5, 20]]}}, "readings.a[0]: found [-5, 20]"),
        ({"readings": {}}, "readings: found none"),
        ({"reading": {}}, "reading: unknown field"),
        ({"limits": {**LIMITS, "bond_above_max_min": 9}}, "limits.bond_above_max_min: found 9, but no bond"),
        ({"readings": {"a": [], "b": curve(130)}}, "readings.a: found none"),
        ({"acts": "off"}, "acts: found off, allowed a list"),
        ({"composite_sensors": ["k"]}, "composite_sensors[0]: found k, which has no readings"),
        ({"neighbour_sensors": ["m"]}, "neighbour_sensors[0]: found m, which is in metal_sensors too"),
        ({"metal_sensors": ["a", "b", "m"]}, "readings: found no sensor on the bond"),
        ({"earlier_composite_above_min": -1}, "earlier_composite_above_min: found -1"),
    ],
)
def test_a_fault_in_the_file_is_one_line(change: dict[str, Any], line: str) -> None:
    with pytest.raises(ZoneFault) as caught:
        read_run(json.dumps(document(**change)))
    assert any(str(fault).startswith(line) for fault in caught.value.faults), caught.value.faults


def test_the_command_prints_each_line_and_exits_with_three_when_not_conforming(tmp_path: Path) -> None:
    good, bad = tmp_path / "good.json", tmp_path / "bad.json"
    good.write_text(json.dumps(document()))
    bad.write_text(json.dumps(document(readings={"a": curve(190), "b": curve(130)}, metal_sensors=[])))
    told = CliRunner().invoke(main, ["heat", "verdict", str(good)])
    assert told.exit_code == 0
    assert told.output.startswith("conforming\n")
    assert "come first" in told.output
    scripted = CliRunner().invoke(main, ["heat", "verdict", str(bad), "--json"])
    assert scripted.exit_code == 3
    assert json.loads(scripted.stdout)["verdict"] == "not_conforming"
