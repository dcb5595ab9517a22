"""Moment 10. At minute 12 of the soak power is gone for nine minutes.

The logger goes on, lagging falls under the minimum, the soak stops counting and resumes; the verdict says
gap, not failure.

The script's post run has it: the soak begins at minute 22, the trip is at 34, power is back at 43. Sensor c,
the coldest, falls 48 K in those nine minutes from 136 C and crosses 125 C between minutes 36 and 37; it is
back above it at minute 48.
"""

from __future__ import annotations

from bayleaf.demo_scenario.cast import MARA
from bayleaf.demo_scenario.deeds import Logged, RunAct, SwitchedOn
from bayleaf.domain.state import RunState
from moments.day import Day, findings

MINUTE_MS = 60_000
TRIP, BACK = 34, 43


def run_of(day: Day) -> RunState:
    return next(one for one in day.state()["runs"] if one["zone"] == "post")


def test_the_soak_waits_for_the_power_and_goes_on(day: Day) -> None:
    day.upto("rem-32")
    day.do("rem-32", "3 14:05", MARA, SwitchedOn("run", "post"), Logged("post", 0, TRIP))
    assert run_of(day)["soak_ms"] == 12 * MINUTE_MS
    gone = RunAct("post", TRIP, "remark", text="Residual-current device tripped: power gone.")
    again = RunAct("post", BACK, "remark", text="Power back.")
    day.do("rem-32", "3 14:40", MARA, gone, Logged("post", TRIP + 1, BACK), again)
    assert run_of(day)["soak_ms"] == 14 * MINUTE_MS  # until minute 36
    day.do("rem-32", "3 14:50", MARA, Logged("post", BACK + 1, 47))
    assert run_of(day)["soak_ms"] == 14 * MINUTE_MS  # 119 C at minute 47: nothing counts yet
    day.do("rem-32", "3 14:54", MARA, Logged("post", 48, 49))
    resumed = run_of(day)
    assert (resumed["soak_ms"], resumed["soak_counts_to_ms"]) == (15 * MINUTE_MS, 49 * MINUTE_MS)
    day.do("rem-32", "3 14:59", MARA, Logged("post", 50, 53), RunAct("post", 53, "soaked"))
    assert run_of(day)["soak_ms"] == 19 * MINUTE_MS
    assert not {one for one in findings(day.state()) if one[0] in ("soak_short", "over_maximum", "two_runs")}


def test_the_verdict_says_gap_and_not_failure(day: Day) -> None:
    day.upto("rem-36")
    verdict = day.entry("rem-35.verdict").body
    figures = {one["name"]: (one["value"], one["unit"], one["decimals"]) for one in verdict["values"]}
    assert figures["soak_gap"] == (120, "min", 1)  # from minute 36 to 48
    assert verdict["verdict"] == "inside"
    state = day.state()
    assert not {one for one in findings(state) if one[0] in ("soak_short", "stale_result")}
