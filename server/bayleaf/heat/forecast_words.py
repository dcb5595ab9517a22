"""What a forecast says in words: when workable, or what the readings look like instead."""

from __future__ import annotations

import math

from bayleaf.heat.fit import Forecast


def sentence(forecast: Forecast, now_s: float) -> str:
    """'workable in 11 min (9-14)', or what the readings look like."""
    words = {
        "pad_lifting": f"pad {forecast.names} seems to lift: press it flush",
        "sensor_off": f"sensor {forecast.names} seems to have come off",
        "draught": "it cools faster than planned: a draught?",
        "wrong_stack_up": "readings fit no planned curve: wrong stack-up?",
    }
    if forecast.looks_like:
        return words[forecast.looks_like]
    if math.isinf(forecast.workable_s):
        return "not workable under this plan"
    left, soon, late = ((t - now_s) / 60 for t in (forecast.workable_s, forecast.from_s, forecast.until_s))
    if left <= 0:
        return "workable"
    latest = "never" if math.isinf(late) else f"{math.ceil(late)}"
    return f"workable in {round(left)} min ({max(0, math.floor(soon))}-{latest})"
