"""What a heat run will do: by the plan that the office pinned, or else by the method's own times.

Model "method-times-1" repeats what the method sets, is no forecast, and says so. With a plan the model is the
plan's own; its figures come from the heat model of the server, none is worked out here.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from bayleaf.step_computations.inputs import Plan, Quantity
from bayleaf.step_computations.plans import PlanFigures
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value, verdict_of

MODEL: Final = "method-times-1"
OTHER_AIR_DK: Final = 50  # the plan's band was made for losses to its own air; common practice, no source
_TEMPERATURES: Final = ("setpoint", "lagging_min", "leading_max", "metal_max", "neighbour_max")
_RATES: Final = ("ramp_max", "cooling_max")
_ENDS: Final = ("lift_below", "cold_below")
_S_PER_MIN: Final = 60


def heat_plan(question: Question) -> Answer:
    """Times in whole minutes; limits as the method has them."""
    if "soak_s" not in question.settings:
        raise Unanswerable("settings", "no_run")
    plan = question.find("plan", Plan)
    if plan is None:
        values = (*_method_times(question), *_limits(question))
        return Answer(MODEL, values, "none", (Line("no_forecast"),), ("method_limits",))
    lines = tuple(_lines(question, plan))
    values = (*_planned(plan.figures), *_limits(question))
    return Answer(plan.figures.model, values, verdict_of(lines), lines, ("heat_plan", "method_limits"))


def _method_times(question: Question) -> Iterator[Value]:
    for name, setting in (("ramp", "ramp_s"), ("soak", "soak_s")):
        yield Value(name, math.ceil(question.settings[setting].value / _S_PER_MIN), "min", 0)


def _limits(question: Question) -> Iterator[Value]:
    for name in (*_TEMPERATURES, *_RATES, *_ENDS):
        if name in question.settings:
            found = question.settings[name]
            yield Value(name, found.value, found.unit, found.decimals)


def _planned(found: PlanFigures) -> Iterator[Value]:
    """What begins is told early, what ends late; what never comes is left out."""
    rows = (
        ("workable", found.workable_s, math.ceil),
        ("workable_from", found.from_s, math.floor),
        ("workable_until", found.until_s, math.ceil),
        ("soak", found.soak_s, math.ceil),
        ("heat_until", found.heat_until_s, math.ceil),
        ("release_until", found.release_until_s, math.ceil),
    )
    for name, at_s, whole in rows:
        if at_s is not None:
            yield Value(name, whole(at_s / _S_PER_MIN), "min", 0)
    for name, (low, high) in (("bond_peak", found.bond_peak_dC), ("metal_peak", found.metal_peak_dC)):
        yield Value(f"{name}_cold_end", low, "C", 1)
        yield Value(f"{name}_hot_end", high, "C", 1)


def _lines(question: Question, plan: Plan) -> Iterator[Line]:
    found = plan.figures
    yield Line("planned", at=(plan.plan[:12],))
    if not found.feasible:
        yield Line("plan_infeasible", "stop")
    if found.workable_s is not None and found.until_s is None:
        yield Line("plan_never_late")
    if found.soak_s < question.settings["soak_s"].value:
        yield Line("plan_other_soak", "ask")
    peaks = ("bond", "leading_max", found.bond_peak_dC), ("metal", "metal_max", found.metal_peak_dC)
    for where, setting, (_, high) in peaks:
        limit = question.settings.get(setting)
        if limit is not None and high * 10**limit.decimals > limit.value * 10:
            at = Value("high", high, "C", 1), Value("limit", limit.value, limit.unit, limit.decimals)
            yield Line(f"plan_hot_{where}", values=at)
    yield from _air(question.find("air", Quantity), found.ambient_dC)


def _air(air: Quantity | None, ambient_dC: int) -> Iterator[Line]:
    if (
        air is not None
        and abs(air.value * 10 - ambient_dC * 10**air.decimals) > OTHER_AIR_DK * 10**air.decimals
    ):
        at = Value("air", air.value, air.unit, air.decimals), Value("planned", ambient_dC, "C", 1)
        yield Line("plan_other_air", values=at)
