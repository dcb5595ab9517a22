"""Documents about time and touch: clocks, open time, burn threshold."""

from __future__ import annotations

from typing import Any

from bayleaf.bonding import burn, clocks, open_time
from bayleaf.bonding.open_time import OpenTimeSheet
from bayleaf.computations import bonding_sources as src
from bayleaf.computations.fields import (
    NUMBER_KEY,
    celsius,
    listed,
    mapped,
    minutes,
    number,
    text,
    tupled,
)
from bayleaf.computations.numbered import by_number
from bayleaf.computations.shapes import Computation, Inputs, Outcome

FACTOR = number("speed per 10 K; 2 is common practice", above=1, high=10, default=2.0)


def _clock(asked: Inputs) -> Outcome:
    window = clocks.Window(asked.get("maximum_min"), asked["minimum_min"])
    view = clocks.read_clock(window, asked["since_min"], asked["step_duration_min"])
    result = {
        "clock": asked["clock"],
        "stand": view.stand.value,
        "wait_min": view.wait_min,
        "minutes_left_min": view.minutes_left_min,
        "starts_outside": view.starts_outside,
        "ends_outside": view.ends_outside,
        "over_by_min": view.over_by_min,
        "warns": view.warns,
    }
    return Outcome(result)


def _open_time(asked: Inputs) -> Outcome:
    sheet = _sheet(asked)
    result: dict[str, Any] = {}
    if "temperature_C" in asked:
        result["open_time_min"] = open_time.open_time_min(sheet, asked["temperature_C"])
    if "steps_min_C" in asked:
        used = open_time.used_fraction(sheet, [(took, at) for took, at in asked["steps_min_C"]])
        result["used_fraction"] = used
        result["remaining_min"] = open_time.remaining_min(sheet, used, asked["then_temperature_C"])
    return Outcome(result, remarks=("from the first gram mixed; a new mixer does not restart it",))


def _sheet(asked: Inputs) -> OpenTimeSheet:
    field, factor = "sheet_open_time_min_by_C", asked["rate_factor_per_10K"]
    if field in asked:
        return OpenTimeSheet(by_number(field, asked[field]), factor)
    return OpenTimeSheet({asked["sheet_temperature_C"]: asked["sheet_open_time_min"]}, factor)


def _step(asked: Inputs) -> Outcome:
    since = asked["minutes_since_application_min"]
    view = clocks.read_clock(clocks.Window(asked["open_time_min"]), since, asked["step_duration_min"])
    result = {
        "minutes_left_min": view.minutes_left_min,
        "starts_after_open_time": view.starts_outside,
        "ends_after_open_time": view.ends_outside,
        "over_by_min": view.over_by_min,
    }
    return Outcome(result)


def _burn(asked: Inputs) -> Outcome:
    row = burn.burn_row(asked["contact_s"], asked["surface"])
    result: dict[str, Any] = {"threshold_low_C": row.low_C, "threshold_high_C": row.high_C, "row": row.source}
    if "surface_temperature_C" in asked:
        result["burn_possible"] = burn.can_burn(asked["surface_temperature_C"], row)
    return Outcome(result, {"threshold_C": [row.low_C, row.high_C]})


STEP_MIN_C = tupled("minutes, C", minutes("duration"), celsius("temperature"))


CLOCKS = ("surface since abrading", "primer", "mixer", "other")

COMPUTATIONS = (
    Computation(
        "clock",
        "A clock against its window: surface since abrading, primer, mixer; would a step end outside?",
        clocks.MODEL,
        (src.SHEET,),
        _clock,
        asks={"clock": text("which clock", choices=CLOCKS), "since_min": minutes("minutes since its start")},
        may={
            "minimum_min": number("not before, min", low=0, high=1e6, default=0.0),
            "maximum_min": minutes("not after, min"),
            "step_duration_min": number("the step's length, min", low=0, high=1e6, default=0.0),
        },
    ),
    Computation(
        "open-time",
        "Open time at a temperature, or what is left of it after steps; never longer than the sheet says",
        open_time.MODEL,
        (src.SHEET, f"half per 10 K, cap, sum of used fractions: {src.PRACTICE}"),
        _open_time,
        may={
            "sheet_open_time_min": minutes("the sheet's open time, min", zero=False),
            "sheet_temperature_C": celsius("the temperature that it holds for, C"),
            "sheet_open_time_min_by_C": mapped(
                "rows of the sheet, min by C", minutes("min", zero=False), keys=NUMBER_KEY
            ),
            "rate_factor_per_10K": FACTOR,
            "temperature_C": celsius("bay and parts, C"),
            "steps_min_C": listed("what has passed since the first gram", STEP_MIN_C),
            "then_temperature_C": celsius("from now on, C"),
        },
        one_of=tuple(
            (*sheet, *asks)
            for sheet in (("sheet_open_time_min", "sheet_temperature_C"), ("sheet_open_time_min_by_C",))
            for asks in (("temperature_C",), ("steps_min_C", "then_temperature_C"))
        ),
    ),
    Computation(
        "open-time-step",
        "Would a step start or end after the open time?",
        clocks.MODEL,
        (src.SHEET,),
        _step,
        asks={
            "open_time_min": minutes("open time, min"),
            "minutes_since_application_min": minutes("since the first gram mixed, min"),
            "step_duration_min": minutes("the step's length, min"),
        },
    ),
    Computation(
        "burn",
        "Burn threshold of bare metal for a contact, and whether a surface can burn",
        burn.MODEL,
        (src.BURN,),
        _burn,
        asks={
            "contact_s": number("contact with bare skin, s", above=0, high=burn.CONTACT_S.high),
            "surface": text("only bare metal is known"),
        },
        may={"surface_temperature_C": celsius("surface, C", high=2000)},
    ),
)
