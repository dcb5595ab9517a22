"""Margin of the coldest surface over the dew point, with its band, and its way since the earlier result.

The band is what a hygrometer off by 3 % and thermometers off by 0.5 K leave open (root sum of squares).
"""

from __future__ import annotations

import math
from typing import Final

from bayleaf.bonding import dew_point as air
from bayleaf.bonding import margin
from bayleaf.bonding.refusal import Refused
from bayleaf.step_computations.figures import MS_PER_MIN, figure, is_over, number_of, reached
from bayleaf.step_computations.inputs import Earlier, Quantity
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value

AIR_OFF_K: Final = 0.5
HUMIDITY_OFF_PERCENT: Final = 3.0
SURFACE_OFF_K: Final = 0.5
_MIN_PER_H: Final = 60


def dew_point_margin(question: Question) -> Answer:
    """Surface minus dew point against `least`; with `earlier` also the slope and when it would fall short."""
    found = _air(question)
    dew = _dew(found)
    surface, least = question.quantity("surface"), question.quantity("least")
    apart = number_of(surface) - dew.counts_C
    off = math.hypot(air.dew_uncertainty(found, AIR_OFF_K, HUMIDITY_OFF_PERCENT).combined_K, SURFACE_OFF_K)
    shown = figure("margin", apart, "K", 1)
    low, high = figure("margin_low", apart - off, "K", 1), figure("margin_high", apart + off, "K", 1)
    values = [figure("dew_point", dew.counts_C, "C", 1), shown, low, high]
    limit = Value("least", least.value, least.unit, least.decimals)
    outside = is_over(least, shown)
    lines = [Line("frost")] if dew.over_ice_C is not None else []
    if shown.value <= 0:
        lines.append(Line("water_now", "stop"))
    if outside:
        lines.append(Line("under_least", "stop", (), (shown, limit)))
    elif is_over(least, low):
        lines.append(Line("band_reaches_least", "note", (), (low, limit)))
    trended, said = _trend(question, shown, surface, least)
    return Answer(
        margin.MODEL,
        (*values, *trended),
        "outside" if outside else "inside",
        (*lines, *said),
        ("magnus", "three_kelvin"),
    )


def _air(question: Question) -> air.Air:
    temperature, humidity = question.quantity("air"), question.quantity("humidity")
    if not 0 < number_of(humidity) <= 100:  # noqa: PLR2004 - per cent
        raise Unanswerable("humidity", "humidity_range")
    try:
        return air.Air(number_of(temperature), number_of(humidity))
    except Refused as refused:
        raise Unanswerable("air", "air_range") from refused


def _dew(found: air.Air) -> air.DewPoint:
    try:
        return air.dew_point(found)
    except Refused as refused:
        raise Unanswerable("humidity", "too_dry") from refused


def _trend(
    question: Question, now: Value, surface: Quantity, least: Quantity
) -> tuple[list[Value], list[Line]]:
    earlier = question.find("earlier", Earlier)
    before = None if earlier is None else earlier.figure("margin")
    if earlier is None or before is None or surface.at_ms - earlier.at_ms < MS_PER_MIN:
        return [], []
    minutes = (surface.at_ms - earlier.at_ms) / MS_PER_MIN
    way = margin.trend(number_of(before), number_of(now), minutes, number_of(least))
    slope = figure("per_hour", way.slope_K_per_min * _MIN_PER_H, "K/h", 1)
    if slope.value >= 0 or way.time_to_limit_min is None:
        return [slope], [Line("rising" if slope.value > 0 else "steady", "note", (), (slope,))]
    until = Value("until_least", reached(way.time_to_limit_min), "min", 0)
    return [slope, until], [Line("falling", "note", (), (slope, until))]
