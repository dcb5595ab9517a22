"""Documents about air and surface: dew point, margin, trend, sheet limits."""

from __future__ import annotations

import math
from typing import Any

from bayleaf.bonding import dew_point, limits, margin
from bayleaf.bonding.dew_point import Air
from bayleaf.bonding.limits import Limit
from bayleaf.bonding.margin import Margin
from bayleaf.computations import bonding_sources as src
from bayleaf.computations.fields import (
    celsius,
    mapped,
    minutes,
    number,
    record,
    text,
    whole,
)
from bayleaf.computations.shapes import Computation, Inputs, Outcome, Schema

REQUIRED = number("margin asked for, K; 3 from ISO 8502-4", low=0, high=30, default=margin.REQUIRED_K)


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
    alone = {"surface": asked["surface_temperature_C"]} if "surface_temperature_C" in asked else {}
    return margin.coldest({**alone, **asked.get("surface_temperatures_C", {})})


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


AIR_MAY: dict[str, Schema] = {
    "surface_temperature_C": celsius("a surface, C; with others the coldest counts"),
    "surface_temperatures_C": mapped("surfaces by name; the coldest counts, C", celsius("C")),
    "required_margin_K": REQUIRED,
    "air_temperature_uncertainty_K": number("thermometer in air, K", low=0, high=10, default=0.5),
    "relative_humidity_uncertainty_percent": number("hygrometer, %", low=0, high=30, default=3.0),
    "surface_temperature_uncertainty_K": number("thermometer on the surface, K", low=0, high=10, default=0.5),
}

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
)
