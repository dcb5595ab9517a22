"""Air and open time: psychrolib for the dew point, arithmetic on paper for the other."""

from __future__ import annotations

import math

import psychrolib

from vectors.computations.writing import MIN, T0, Json, case, earlier, fig, moment, on_paper, q, v

psychrolib.SetUnitSystem(psychrolib.SI)
MAGNUS = "WMO-No. 8 annex 4.B written out anew in the scene (17.62, 243.12); psychrolib agrees within 0.1 K"
ISO = "ISO 8502-4: 3 K over the dew point; " + MAGNUS


def _log(air: float, humidity: float) -> float:
    return math.log(humidity / 100) + 17.62 * air / (243.12 + air)


def _dew(air: float, humidity: float) -> float:
    e = _log(air, humidity)
    dew = 243.12 * e / (17.62 - e)
    assert abs(dew - psychrolib.GetTDewPointFromRelHum(air, humidity / 100)) < 0.1
    return dew


def _off(air: float, humidity: float) -> float:
    """Root sum of squares of what 0.5 K, 3 % and 0.5 K of the surface do; slopes by small differences."""
    per_K = (_dew(air + 0.001, humidity) - _dew(air - 0.001, humidity)) / 0.002
    per_percent = (_dew(air, humidity + 0.001) - _dew(air, humidity - 0.001)) / 0.002
    return math.hypot(per_K * 0.5, per_percent * 3, 0.5)


def _air(air: int, humidity: int, surface: int, *, at_ms: int = 0, **more: Json) -> Json:
    return {
        "air": q(air, "C", 1, at_ms),
        "humidity": q(humidity, "%", 0, at_ms),
        "surface": q(surface, "C", 1, at_ms),
        "least": q(30, "K", 1),
        **more,
    }


def _margins(air: float, humidity: float, surface: float) -> list[Json]:
    dew, off = _dew(air, humidity), _off(air, humidity)
    return [
        fig("dew_point", dew, "C", 1),
        fig("margin", surface - dew, "K", 1),
        fig("margin_low", surface - dew - off, "K", 1),
        fig("margin_high", surface - dew + off, "K", 1),
    ]


def _frost() -> list[Json]:
    """-2 C and 60 %: frost point over ice (22.46, 272.62) from the vapour over water."""
    e = _log(-2, 60)
    frost = 272.62 * e / (22.46 - e)
    slope = 272.62 * 22.46 / (22.46 - e) ** 2
    off = math.hypot(slope * 17.62 * 243.12 / (243.12 - 2) ** 2 * 0.5, slope / 60 * 3, 0.5)
    margin = 0.0 - frost
    return [
        fig("dew_point", frost, "C", 1),
        fig("margin", margin, "K", 1),
        fig("margin_low", margin - off, "K", 1),
        fig("margin_high", margin + off, "K", 1),
    ]


HOUR = 60 * MIN
DEW = {
    "well_over": case(
        "20 C at 50 % settles at 9.3 C; the flange has 19.0 C.",
        ISO,
        _air(200, 50, 190),
        _margins(20, 50, 19.0),
        "inside",
        lines=[],
    ),
    "three_kelvin_exactly": case(
        "The margin that is shown is 3.0 K: on the limit is good; its band reaches under it.",
        ISO,
        _air(200, 50, on_paper(_dew(20, 50), 1) + 30),
        _margins(20, 50, (on_paper(_dew(20, 50), 1) + 30) / 10),
        "inside",
        lines=["band_reaches_least"],
    ),
    "a_tenth_short": case(
        "2.9 K is under 3.0 K.",
        ISO,
        _air(200, 50, on_paper(_dew(20, 50), 1) + 29),
        _margins(20, 50, (on_paper(_dew(20, 50), 1) + 29) / 10),
        "outside",
        lines=["under_least"],
    ),
    "water_on_the_flange": case(
        "A sill of 5 C in air of 23 C at 65 %: water stands on it now.",
        ISO,
        _air(230, 65, 50),
        _margins(23, 65, 5.0),
        "outside",
        lines=["water_now", "under_least"],
    ),
    "frost_counts_below_zero": case(
        "Below 0 C the frost point over ice is higher than the dew point over water, and counts.",
        "WMO-No. 8 annex 4.B over water; over ice 22.46, 272.62, from memory; written out in the scene",
        _air(-20, 60, 0),
        _frost(),
        "inside",
        lines=["frost", "band_reaches_least"] if _frost()[2]["value"] < 30 else ["frost"],
    ),
    "falling_since_the_morning": case(
        "8.0 K an hour ago, 6.0 K less the tenth that the air gives now: the slope and the minutes to 3 K.",
        "a straight line through two margins, on paper; " + MAGNUS,
        _air(
            220,
            55,
            on_paper(_dew(22, 55), 1) + 60,
            at_ms=T0 + HOUR,
            earlier=earlier("dew_point_margin", "inside", v("margin", 80, "K", 1), at_ms=T0),
        ),
        [
            *_margins(22, 55, (on_paper(_dew(22, 55), 1) + 60) / 10),
            fig("per_hour", -2.0, "K/h", 1),
            v("until_least", 90, "min"),
        ],
        "inside",
        lines=["falling"],
    ),
    "rising_since_the_morning": case(
        "5.0 K half an hour ago, 6.0 K now: 2.0 K an hour up.",
        "a straight line through two margins, on paper; " + MAGNUS,
        _air(
            220,
            55,
            on_paper(_dew(22, 55), 1) + 60,
            at_ms=T0 + HOUR // 2,
            earlier=earlier("dew_point_margin", "inside", v("margin", 50, "K", 1), at_ms=T0),
        ),
        [*_margins(22, 55, (on_paper(_dew(22, 55), 1) + 60) / 10), fig("per_hour", 2.0, "K/h", 1)],
        "inside",
        lines=["rising"],
    ),
    "no_humidity": case(
        "At 0 % there is no dew point.",
        "WMO-No. 8 annex 4.B",
        _air(200, 0, 190),
        refused={"field": "humidity", "code": "humidity_range"},
    ),
    "over_saturated": case(
        "101 % is no reading.",
        "WMO-No. 8 annex 4.B",
        _air(200, 101, 190),
        refused={"field": "humidity", "code": "humidity_range"},
    ),
}

RULE = "half as long per 10 K warmer and never longer than the sheet: common practice, no source; on paper"


def _open(air: int, flange: int, adhesive: int, **more: Json) -> Json:
    return {
        "air": q(air, "C", 1),
        "flange": q(flange, "C", 1),
        "adhesive": q(adhesive, "C", 1),
        "sheet_time": q(35, "min"),
        "sheet_temperature": q(23, "C"),
        **more,
    }


def _opens(minutes: int, temperature: int, *more: Json) -> list[Json]:
    return [v("open_time", minutes, "min"), v("temperature", temperature, "C", 1), *more]


SHARE = q(67, "%")
OPEN = {
    "by_the_sheet": case(
        "23.0 C at most: 35 min as the sheet says; two thirds of it are 23.45, so 23 min, and 23 were used.",
        RULE,
        _open(221, 230, 215, rehearsal=q(23, "min"), share=SHARE),
        _opens(35, 230, v("allowed", 23, "min")),
        "inside",
        lines=["by_sheet", "mixer_restarts_nothing"],
    ),
    "the_warmest_counts": case(
        "28.0 C in the cartridges: 35 / 2^0.5 = 24.7, so 24 min; 67 % of 24.75 is 16.58, so 16.",
        RULE,
        _open(221, 230, 280, rehearsal=q(17, "min"), share=SHARE),
        _opens(math.floor(35 / math.sqrt(2)), 280, v("allowed", math.floor(35 / math.sqrt(2) * 0.67), "min")),
        "outside",
        lines=["shortened", "rehearsal_long", "mixer_restarts_nothing"],
    ),
    "colder_lengthens_nothing": case(
        "18 C: the sheet has no row for it, so 35 min.",
        RULE,
        _open(180, 182, 181),
        _opens(35, 182),
        "none",
        lines=["by_sheet", "mixer_restarts_nothing"],
    ),
    "ten_kelvin_warmer": case(
        "33 C: 17.5 min, of which 17 are reached; 12 min and 30 s after the first gram 5 min are left.",
        RULE,
        _open(330, 250, 240, started=moment(T0)),
        _opens(17, 330, v("used", 12, "min"), v("left", 5, "min")),
        "inside",
        asked_at_ms=T0 + 12 * MIN + 30_000,
        lines=["shortened", "mixer_restarts_nothing"],
    ),
    "the_last_second": case(
        "35 min to the millisecond: on the limit is good.",
        RULE,
        _open(221, 230, 215, started=moment(T0)),
        _opens(35, 230, v("used", 35, "min"), v("left", 0, "min")),
        "inside",
        asked_at_ms=T0 + 35 * MIN,
    ),
    "run_out": case(
        "35 min and 1 s.",
        RULE,
        _open(221, 230, 215, started=moment(T0)),
        _opens(35, 230, v("used", 35, "min"), v("left", 0, "min")),
        "outside",
        asked_at_ms=T0 + 35 * MIN + 1_000,
        lines=["by_sheet", "open_time_over", "mixer_restarts_nothing"],
    ),
    "nothing_was_read": case(
        "No temperature, no open time.",
        RULE,
        {"sheet_time": q(35, "min"), "sheet_temperature": q(23, "C")},
        refused={"field": "air", "code": "not_there"},
    ),
}

SCENES = {"dew_point_margin": DEW, "open_time": OPEN}
