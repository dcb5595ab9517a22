"""Documents about air, surface and clocks: dew point, margin, trend, sheet limits, open time."""

from __future__ import annotations

import math
from typing import Any

from bayleaf.bonding import burn, clocks, dew_point, limits, margin, open_time
from bayleaf.bonding.dew_point import Air
from bayleaf.bonding.limits import Limit
from bayleaf.bonding.margin import Margin
from bayleaf.bonding.open_time import OpenTimeSheet
from bayleaf.computations import bonding_sources as src
from bayleaf.computations.fields import (
    NUMBER_KEY,
    celsius,
    listed,
    mapped,
    minutes,
    number,
    record,
    text,
    tupled,
    whole,
)
from bayleaf.computations.shapes import Computation, Inputs, Outcome, Schema

REQUIRED = number("margin asked for, K; 3 from ISO 8502-4", low=0, high=30, default=margin.REQUIRED_K)
FACTOR = number("speed per 10 K; 2 is common practice", above=1, high=10, default=2.0)


def _dew(asked: Inputs) -> Outcome:
    air = Air(asked["air_temperature_C"], asked["relative_humidity_percent"])
    dew = dew_point.dew_point(air)
    off = dew_point.dew_uncertainty(
        air, asked["air_temperature_uncertainty_K"], asked["relative_humidity_uncertainty_percent"]
    )
    result: dict[str, Any] = {
        "dew_point_C": dew.counts_C,
        "counts_as": dew.counts_as,
        "dew_point_over_water_C": dew.over_water_C,
        "frost_point_over_ice_C": dew.over_ice_C,
        "dew_point_per_air_temperature_K_per_K": off.per_air_K,
        "dew_point_per_relative_humidity_K_per_percent": off.per_percent,
        "dew_point_uncertainty_K": off.combined_K,
    }
    band: dict[str, Any] = {"dew_point_C": _around(dew.counts_C, off.combined_K)}
    if "surface_temperature_C" in asked or "surface_temperatures_C" in asked:
        name, surface = _coldest(asked)
        found = margin.margin(surface, dew.counts_C, asked["required_margin_K"])
        spread = math.hypot(off.combined_K, asked["surface_temperature_uncertainty_K"])
        band["margin_K"] = _around(found.margin_K, spread)
        result |= {"coldest_surface": name, "surface_temperature_C": surface, **_margin_told(found)}
        result["band_reaches_limit"] = abs(found.margin_K - found.required_K) <= spread
    remarks = ("below 0 C water settles as frost first: the frost point counts",) if dew.over_ice_C else ()
    return Outcome(result, band, remarks)


def _coldest(asked: Inputs) -> tuple[str, float]:
    named: dict[str, float] = asked.get("surface_temperatures_C") or {
        "surface": asked["surface_temperature_C"]
    }
    return margin.coldest(named)


def _margin(asked: Inputs) -> Outcome:
    found = margin.margin(asked["surface_temperature_C"], asked["dew_point_C"], asked["required_margin_K"])
    return Outcome(_margin_told(found))


def _margin_told(found: Margin) -> dict[str, Any]:
    return {
        "margin_K": found.margin_K,
        "required_margin_K": found.required_K,
        "meets_rule": found.meets_rule,
        "water_on_surface": found.water_on_surface,
    }


def _trend(asked: Inputs) -> Outcome:
    found = margin.trend(
        asked["margin_first_K"],
        asked["margin_second_K"],
        asked["between_readings_min"],
        asked["required_margin_K"],
    )
    result = {"slope_K_per_min": found.slope_K_per_min, "time_to_limit_min": found.time_to_limit_min}
    return Outcome(result, remarks=("a straight line through two readings",))


def _limits(asked: Inputs) -> Outcome:
    judged = limits.judge([Limit(name=name, **one) for name, one in asked["readings"].items()])
    told = {one.name: {"whole": one.whole, "inside": one.inside, "says": one.sentence} for one in judged}
    return Outcome({"inside": all(one.inside for one in judged), "readings": told})


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
    rows = asked.get("sheet_open_time_min_by_C") or {
        asked["sheet_temperature_C"]: asked["sheet_open_time_min"]
    }
    return OpenTimeSheet({float(at): took for at, took in rows.items()}, asked["rate_factor_per_10K"])


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


def _around(middle: float, off: float) -> list[float]:
    return [middle - off, middle + off]


READING: Schema = record(
    "a reading and the sheet's limits for it",
    {
        "found": number("what was read"),
        "unit": text("its unit"),
        "decimals": whole("decimals that the reading has", high=4),
    },
    {"minimum": number("sheet's minimum"), "maximum": number("sheet's maximum")},
)
STEP_MIN_C = tupled("minutes, C", minutes("duration"), celsius("temperature"))
AIR_MAY: dict[str, Schema] = {
    "surface_temperature_C": celsius("the coldest surface, C"),
    "surface_temperatures_C": mapped("surfaces by name; the coldest counts, C", celsius("C")),
    "required_margin_K": REQUIRED,
    "air_temperature_uncertainty_K": number("thermometer in air, K", low=0, high=10, default=0.5),
    "relative_humidity_uncertainty_percent": number("hygrometer, %", low=0, high=30, default=3.0),
    "surface_temperature_uncertainty_K": number("thermometer on the surface, K", low=0, high=10, default=0.5),
}
CLOCKS = ("surface since abrading", "primer", "mixer", "other")

COMPUTATIONS = (
    Computation(
        "dew-point",
        "Dew and frost point of the air with their band; with surfaces also the margin of the coldest",
        dew_point.MODEL,
        (src.MAGNUS, src.THREE_K, src.GUM),
        _dew,
        asks={
            "air_temperature_C": celsius(
                "air; range of the Magnus coefficients", low=dew_point.AIR_C.low, high=dew_point.AIR_C.high
            ),
            "relative_humidity_percent": number(
                "relative humidity over water; at 0 there is no dew point", above=0, high=100
            ),
        },
        may=AIR_MAY,
    ),
    Computation(
        "margin",
        "Margin of a surface over a dew point, against the 3 K rule",
        margin.MODEL,
        (src.THREE_K,),
        _margin,
        asks={
            "surface_temperature_C": celsius("surface, C"),
            "dew_point_C": celsius("dew point, C", low=-100),
        },
        may={"required_margin_K": REQUIRED},
    ),
    Computation(
        "margin-trend",
        "Two margins in time: slope, and minutes until the limit; none if it does not fall",
        margin.MODEL,
        (src.PRACTICE,),
        _trend,
        asks={
            "margin_first_K": number("earlier margin, K", low=-100, high=100),
            "margin_second_K": number("later margin, K", low=-100, high=100),
            "between_readings_min": minutes("between them, min", zero=False),
        },
        may={"required_margin_K": REQUIRED},
    ),
    Computation(
        "sheet-limits",
        "Readings against the sheet's limits, in whole steps of each unit",
        limits.MODEL,
        (src.SHEET,),
        _limits,
        asks={"readings": mapped("readings by name", READING)},
    ),
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
