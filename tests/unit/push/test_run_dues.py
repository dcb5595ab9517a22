"""When a run's next moment is due, by the method's own times or by the plan that the run was begun by."""

from __future__ import annotations

import json
from base64 import b64decode
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from bayleaf.domain.asks import HeatSettings
from bayleaf.domain.part import Sensor, Zone
from bayleaf.domain.state import RunState
from bayleaf.seed_folder import SEED_FOLDER
from bayleaf.usecases.run_dues import Due, RunFacts, dues_of
from bayleaf.usecases.run_planned import PlannedRun, PlannedStep, planned_of, planned_run

MIN = 60_000
SETTINGS = HeatSettings(
    sensors_unit="C", decimals=0, lagging_min=110, leading_max=130, soak_s=1800, gap_max_s=300,
    ramp_s=2700, release=("U1", "U2"), cold_below=40, metal_max=140, cooling_max=5, lift_below=60,
)  # fmt: skip


def zone() -> Zone:
    return Zone(
        id="upper",
        name="upper",
        pads=(),
        sensors=(Sensor("a", "a"), Sensor("b", "b"), Sensor("m", "m", of="metal")),
    )


def run(**changed: Any) -> RunState:
    made: dict[str, Any] = {
        "run": "r", "method": "m", "step": "s", "ask": "a", "zone": "upper", "purpose": "removal",
        "acts": [], "readings": [], "turned_down": [], "lifted": [], "moments": ["on"], "aborted": False,
        "off": False, "soak_ms": 0, "soak_counts_to_ms": 0, "peaks": [],
    }  # fmt: skip
    return {**made, **changed}  # type: ignore[typeddict-item]  # a run in pieces


def read(minute: int, **values: int) -> list[dict[str, Any]]:
    return [{"sensor": name, "points": [[minute * MIN, value]]} for name, value in values.items()]


def dues(state: RunState, readings: list[dict[str, Any]], *acts: dict[str, Any]) -> list[Due]:
    return dues_of(RunFacts(state, SETTINGS, zone(), acts, readings))


def test_without_readings_the_first_one_is_due_when_the_ramp_should_be_over() -> None:
    assert dues(run(), []) == [Due("read", 0, 45 * MIN)]


def test_after_a_reading_late_in_the_ramp_the_next_one_is_due_a_gap_later() -> None:
    assert dues(run(), read(44, a=90, b=100, m=110)) == [Due("read", 44 * MIN, 49 * MIN)]


def test_a_reading_of_one_bond_sensor_alone_is_no_moment() -> None:
    assert dues(run(), read(44, a=90, m=110)) == [Due("read", 0, 45 * MIN)]


def test_in_the_soak_both_the_next_reading_and_its_end_are_due() -> None:
    """10 of 30 minutes counted at minute 60: 20 remain, and readings every 5."""
    state = run(soak_ms=10 * MIN, soak_counts_to_ms=60 * MIN)
    readings = read(50, a=111, b=115) + read(60, a=112, b=116)
    assert dues(state, readings) == [
        Due("read", 60 * MIN, 65 * MIN),
        Due("soaked", 50 * MIN, 80 * MIN),
    ]


def test_a_lagging_sensor_that_fell_below_ends_the_forecast_and_not_the_readings() -> None:
    state = run(soak_ms=10 * MIN, soak_counts_to_ms=60 * MIN)
    assert dues(state, read(60, a=112, b=116) + read(64, a=109, b=116)) == [Due("read", 64 * MIN, 69 * MIN)]


def test_a_soak_that_is_over_waits_for_its_act() -> None:
    state = run(soak_ms=30 * MIN, soak_counts_to_ms=80 * MIN)
    assert dues(state, read(80, a=112, b=116)) == [Due("soaked", 50 * MIN, 80 * MIN)]


def test_the_next_pad_is_due_a_stage_after_the_one_before() -> None:
    """20 K at 5 K/min are 4 minutes."""
    state = run(moments=["on", "soaked", "workable"], turned_down=["U1"])
    turned = {"act": "turn_down", "pad": "U1", "run_ms": 90 * MIN}
    assert dues(state, [], turned) == [Due("turn_down", 90 * MIN, 94 * MIN)]


PLANNED = PlannedRun(
    23 * MIN, (PlannedStep(46 * MIN, "U1"), PlannedStep(48 * MIN, "U2"), PlannedStep(50 * MIN, "U1"))
)


def planned_dues(state: RunState, readings: list[dict[str, Any]], *acts: dict[str, Any]) -> list[Due]:
    return dues_of(RunFacts(state, SETTINGS, zone(), acts, readings, PLANNED))


def test_with_a_plan_the_first_reading_is_due_when_its_joint_is_workable() -> None:
    assert planned_dues(run(), []) == [Due("read", 0, 23 * MIN)]
    assert planned_dues(run(), read(10, a=70, b=80)) == [Due("read", 0, 23 * MIN)]


def test_a_joint_colder_than_planned_falls_back_on_the_methods_times() -> None:
    """Read after the planned minute and not yet workable: the method's 45 minutes, then a gap later."""
    assert planned_dues(run(), read(24, a=90, b=95)) == [Due("read", 0, 45 * MIN)]
    assert planned_dues(run(), read(44, a=100, b=105)) == [Due("read", 44 * MIN, 49 * MIN)]


def test_a_plan_that_says_never_wants_readings_and_promises_no_soak() -> None:
    never = RunFacts(run(), SETTINGS, zone(), [], read(44, a=90, b=95), PlannedRun(None, ()))
    assert dues_of(never) == [Due("read", 44 * MIN, 49 * MIN)]


def test_the_next_step_of_a_plan_is_as_late_as_the_one_before_was() -> None:
    """U1 was due at 46 and turned down at 51, so U2 follows at 53, not 4 minutes of the method later."""
    state = run(moments=["on", "soaked", "workable"], turned_down=["U1"])
    first = {"act": "turn_down", "pad": "U1", "run_ms": 51 * MIN}
    second = {"act": "turn_down", "pad": "U2", "run_ms": 53 * MIN}
    assert planned_dues(state, [], first) == [Due("turn_down", 51 * MIN, 53 * MIN)]
    both = run(moments=["on", "soaked", "workable"], turned_down=["U1", "U2"])
    assert planned_dues(both, [], first, second) == [Due("turn_down", 53 * MIN, 55 * MIN)]


def test_after_the_last_step_of_a_plan_readings_are_due_until_pads_may_be_lifted() -> None:
    turned = [("U1", 46), ("U2", 48), ("U1", 50)]
    acts = [{"act": "turn_down", "pad": pad, "run_ms": minute * MIN} for pad, minute in turned]
    state = run(moments=["on", "soaked", "workable"], turned_down=["U1", "U2"])
    assert planned_dues(state, [], *acts) == [Due("read", 50 * MIN, 55 * MIN)]
    assert planned_dues(state, read(60, a=58, b=57, m=59), *acts) == []


def test_a_lifted_pad_has_no_step_left() -> None:
    state = run(moments=["on", "soaked", "workable"], turned_down=["U1"], lifted=["U2"])
    acts = [
        {"act": "turn_down", "pad": "U1", "run_ms": 46 * MIN},
        {"act": "lift", "pad": "U2", "run_ms": 47 * MIN},
    ]
    assert planned_dues(state, [], *acts) == [Due("turn_down", 47 * MIN, 50 * MIN)]


def test_the_demos_response_set_says_its_soak_and_its_release() -> None:
    """What its own sentence says: workable in 23 min, release from 46 to 48 min."""
    told = json.loads((SEED_FOLDER / "plans" / "upper.json").read_text("utf-8"))
    planned = planned_run(b64decode(told["response"]))
    assert planned is not None
    assert planned.soak_ms is not None
    assert round(planned.soak_ms / MIN) == 23
    assert [round(step.at_ms / MIN) for step in planned.steps] == [46, 48]
    assert told["sentence"].startswith("Workable in 23 min (20-34), release from 46 to 48 min")


def test_a_run_that_names_no_plan_or_one_that_is_not_here_has_none() -> None:
    assert planned_of(lambda _: b"", {"plan": ""}) is None
    assert planned_of(lambda _: b"", {"plan": "0" * 64}) is None


def test_cooling_wants_readings_until_the_metal_is_cold() -> None:
    state = run(moments=["on", "soaked", "lifted", "off"], off=True, lifted=["U1", "U2"])
    off = {"act": "off", "pad": "", "run_ms": 100 * MIN}
    assert dues(state, [], off) == [Due("read", 100 * MIN, 105 * MIN)]
    assert dues(state, read(110, a=60, b=60, m=41), off) == [Due("read", 110 * MIN, 115 * MIN)]
    assert dues(state, read(110, a=60, b=60, m=39), off) == []


def test_an_aborted_or_a_cold_run_calls_nobody() -> None:
    assert dues(run(aborted=True), []) == []
    assert dues(run(moments=["on", "cold"]), []) == []


MINUTES = st.integers(0, 300)
READINGS = st.lists(st.tuples(MINUTES, st.integers(15, 160), st.integers(15, 160)), max_size=12)


@given(READINGS, st.integers(0, 40), st.booleans(), st.sampled_from([[], ["soaked"], ["cold"]]))
def test_nothing_is_due_before_what_it_is_counted_from(
    rows: list[tuple[int, int, int]],
    soaked_min: int,
    off: bool,
    moments: list[str],
) -> None:
    readings = [one for minute, low, high in rows for one in read(minute, a=low, b=high)]
    last = max([minute for minute, _, _ in rows], default=0) * MIN
    soak = min(soaked_min * MIN, last)
    state = run(soak_ms=soak, soak_counts_to_ms=last, off=off, moments=["on", *moments])
    found = dues(state, readings)
    assert all(one.due_ms >= max(0, one.since_ms) or one.act == "soaked" for one in found)
    assert len({one.act for one in found}) == len(found)
    assert found == dues(state, list(reversed(readings)))
    assert not found or "cold" not in moments


@given(READINGS, MINUTES)
def test_a_later_reading_never_brings_a_reading_forward(
    rows: list[tuple[int, int, int]], later_min: int
) -> None:
    readings = [one for minute, low, high in rows for one in read(minute, a=low, b=high)]
    last = max([minute for minute, _, _ in rows], default=0)
    more = readings + read(last + later_min, a=100, b=105)
    before = [one.due_ms for one in dues(run(), readings) if one.act == "read"]
    after = [one.due_ms for one in dues(run(), more) if one.act == "read"]
    assert all(due >= min(before, default=0) for due in after)
