"""A finished heat run against its limits: the verdict of `bayleaf.heat`, as the answer of a step."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from bayleaf.heat.readings_document import FinishedRun, RunAct, RunLimits
from bayleaf.heat.verdict import Line as Judged
from bayleaf.heat.verdict import verdict_of
from bayleaf.step_computations.figures import number_of, ten_to
from bayleaf.step_computations.inputs import Run, Runs
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value

MODEL: Final = "heat_verdict/2"
_MS_PER_S: Final = 1000
_NEEDED: Final = ("lagging_min", "leading_max", "soak_s", "gap_max_s", "ramp_s", "cold_below")
_CODES: Final = {
    "ramp": "ramp",
    "soak": "soak",
    "gap in the soak": "soak_gap",
    "bondline peak": "bond_peak",
    "metal peak": "metal_peak",
    "neighbour peak": "neighbour_peak",
    "cooling": "cooling",
    "pads released out of order or not at all": "release",
    "last reading of the hottest sensor": "cold",
    "longest gap of a sensor": "sensor_gap",
}
Rows = dict[str, tuple[tuple[float, float], ...]]


def heat_verdict(question: Question) -> Answer:
    """The newest run of the ask; minutes of the metal also of earlier runs on the same metal."""
    found = question.want("run", Runs).runs
    if not found:
        raise Unanswerable("run", "not_there")
    if any(name not in question.settings for name in _NEEDED):
        raise Unanswerable("settings", "no_run")
    run = _finished(question, found[-1])
    if not run.bond:
        return Answer(MODEL, (), "none", (), ("method_limits",))
    judged = verdict_of(run)
    lines = tuple(_line(one, found[-1].decimals) for one in judged.lines)
    values = tuple(
        Value(line.code.removeprefix("heat_"), one.value, one.unit, one.decimals)
        for line in lines
        for one in line.values[:1]
    )
    outside = judged.overall == "not_conforming"
    return Answer(MODEL, values, "outside" if outside else "inside", lines, ("method_limits",))


def _finished(question: Question, run: Run) -> FinishedRun:
    earlier = question.find("earlier_runs", Runs)
    metal_max = _limit(question, "metal_max")
    limits = RunLimits(
        lagging_min_C=number_of(question.settings["lagging_min"]),
        leading_max_C=number_of(question.settings["leading_max"]),
        soak_s=number_of(question.settings["soak_s"]),
        gap_max_s=number_of(question.settings["gap_max_s"]),
        ramp_K_min=_limit(question, "ramp_max"),
        cooling_K_min=_limit(question, "cooling_max"),
        metal_max_C=metal_max,
        neighbour_max_C=_limit(question, "neighbour_max"),
        metal_above_C=metal_max,
        cold_below_C=number_of(question.settings["cold_below"]),
    )
    before = 0.0
    if earlier is not None and metal_max is not None:
        before = sum(_above_min(one, limits) for one in earlier.runs)
    return _run(run, limits, before)


def _run(run: Run, limits: RunLimits, earlier_above_min: float) -> FinishedRun:
    acts = sorted(
        (RunAct(one.run_ms / _MS_PER_S, one.act, one.pad) for one in run.acts), key=lambda act: act.at_s
    )
    bond, metal, neighbour = (_rows(run, of) for of in ("bond", "metal", "neighbour"))
    return FinishedRun(
        run.purpose, limits, bond, metal, tuple(acts), run.release, neighbour, earlier_above_min
    )


def _rows(run: Run, of: str) -> Rows:
    return {
        one.sensor: tuple(sorted((ms / _MS_PER_S, value / ten_to(run.decimals)) for ms, value in one.points))
        for one in run.sensors
        if one.of == of and one.points
    }


def _above_min(run: Run, limits: RunLimits) -> float:
    """Minutes of the metal above its limit in an earlier run."""
    alone = _run(run, limits, 0.0)
    if not alone.metal or not alone.bond:
        return 0.0
    return next((one.figure for one in verdict_of(alone).lines if one.what.startswith("metal above")), 0.0)


def _limit(question: Question, name: str) -> float | None:
    found = question.settings.get(name)
    return None if found is None else number_of(found)


def _line(one: Judged, decimals: int) -> Line:
    code = _CODES.get(one.what, "metal_minutes")
    shown = {"K/min": decimals + 1, "C": decimals, "min": 1}.get(one.unit, 0)
    tone = "stop" if one.standing == "not_conforming" else "note"
    return Line(f"heat_{code}", tone, (one.standing,), tuple(_values(one, shown)))  # type: ignore[arg-type]


def _values(one: Judged, decimals: int) -> Iterator[Value]:
    """Half up, as the run's own page has it."""
    for name, number in (("figure", one.figure), ("limit", one.limit)):
        if number is not None:
            yield Value(name, math.floor(number * ten_to(decimals) + 0.5), one.unit, decimals)
