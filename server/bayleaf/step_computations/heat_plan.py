"""The method's own times and limits of a heat run, where no plan was worked out for it.

Nothing here is a forecast: model "method-times-1" repeats what the method sets, and says so.
"""

from __future__ import annotations

import math
from typing import Final

from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value

MODEL: Final = "method-times-1"
_TEMPERATURES: Final = ("setpoint", "lagging_min", "leading_max", "metal_max", "neighbour_max")
_RATES: Final = ("ramp_max", "cooling_max")
_ENDS: Final = ("lift_below", "cold_below")
_S_PER_MIN: Final = 60


def heat_plan(question: Question) -> Answer:
    """Times in whole minutes, rounded up; limits as the method has them."""
    settings = question.settings
    if "soak_s" not in settings:
        raise Unanswerable("settings", "no_run")
    minutes = [
        Value(name, math.ceil(settings[setting].value / _S_PER_MIN), "min", 0)
        for name, setting in (("ramp", "ramp_s"), ("soak", "soak_s"))
    ]
    limits = [
        Value(name, settings[name].value, settings[name].unit, settings[name].decimals)
        for name in (*_TEMPERATURES, *_RATES, *_ENDS)
        if name in settings
    ]
    return Answer(MODEL, (*minutes, *limits), "none", (Line("no_forecast"),), ("method_limits",))
