"""Cure: scipy.integrate.quad over the law written out anew; what is reached goes down, what is left up."""

from __future__ import annotations

import math

from scipy.integrate import quad

from vectors.computations.writing import MIN, T0, Json, case, fig, lots, moment, q, run, runs, v

LAW = "exp(-Q (1/T - 1/Tr)) with Q = 60 kJ/mol / 8.314462618 J/(mol K); scipy.integrate.quad in the scene"
Q = 60_000 / 8.314462618
Log = list[tuple[int, int]]
SHEET = {
    "handling_time": q(16, "h"),
    "full_time": q(96, "h"),
    "sheet_temperature": q(23, "C"),
    "activation_energy": q(60, "kJ/mol"),
}


def _rate(celsius: float) -> float:
    return math.exp(-Q * (1 / (celsius + 273.15) - 1 / 296.15))


def _ramp(minutes: float, start: float, end: float) -> float:
    return float(quad(lambda m: _rate(start + (end - start) * m / minutes), 0, minutes, epsabs=1e-10)[0])


def _asked(hours: float, coldest: int, **more: Json) -> tuple[Json, int]:
    given = {
        "adhesive": lots(("A-1", False, False)),
        "started": moment(T0),
        "coldest": q(coldest, "C", 1),
        **SHEET,
        **more,
    }
    return given, T0 + round(hours * 60) * MIN


def _told(minutes: float, equivalent: float, coldest: int, *, soaked: bool = False) -> list[Json]:
    """Down what is reached, up what is left; both left figures by the slower of law and sheet."""
    rate = _rate(coldest / 10)

    def left(needed: float, by_sheet: float) -> int:
        return math.ceil(max(0.0, (needed - equivalent) / rate, by_sheet) - 1e-9)

    def share(needed: float) -> int:
        return math.floor(min(1.0, equivalent / needed) * 100 + 1e-9)

    return [
        v("elapsed", math.floor(minutes), "min"),
        v("equivalent", math.floor(equivalent + 1e-9), "min"),
        fig("speed", rate * 100, "%", 0),
        v("handling_share", share(960), "%"),
        v("handling_left", left(960, 0.0 if soaked else 960 - minutes), "min"),
        v("full_share", share(5760), "%"),
        v("full_left", left(5760, 5760 - minutes), "min"),
        v("coldest", coldest, "C", 1),
    ]


def _cold(about: str, hours: float, coldest: int, verdict: str, lines: list[str], **more: Json) -> Json:
    given, now = _asked(hours, coldest, **more)
    minutes = hours * 60
    told = _told(minutes, minutes * _rate(coldest / 10), coldest)
    return case(about, LAW, given, told, verdict, asked_at_ms=now, lines=lines)


def _told_of_readings(minutes: int, log: Log, equivalent: float) -> list[Json]:
    """As above, but minutes left are those at the newest reading, and the coldest is the lowest of all."""
    told = {one["name"]: one for one in _told(minutes, equivalent, log[-1][1])}
    return [
        *(one for name, one in told.items() if name != "coldest"),
        v("coldest", min(value for _, value in log), "C", 1),
    ]


def _still(
    minutes: int, coldest: int, minimum_C: float, equivalent: float = 0.0, *, soaked: bool = False
) -> list[Json]:
    """As above, but it runs at nothing, and minutes left are those at the sheet's minimum."""
    told = {one["name"]: one for one in _told(minutes, equivalent, round(minimum_C * 10), soaked=soaked)}
    still = {"speed": v("speed", 0, "%"), "coldest": v("coldest", coldest, "C", 1)}
    return list({**told, **still}.values())


WARM_TO = {"warm_to": q(55, "C"), "heating": q(1, "K/min"), "cooling": q(2, "K/min")}


def _warmed(
    minutes: int,
    equivalent: float,
    coldest: int,
    now_C: float,
    minimum_C: float | None = None,
) -> list[Json]:
    """With the figures of a warming to 55 C: both ramps 1.5 minutes a kelvin, the hold what they leave."""
    from_C = now_C if minimum_C is None else max(now_C, minimum_C)
    told = (
        _told(minutes, equivalent, coldest)
        if minimum_C is None
        else _still(minutes, coldest, minimum_C, equivalent)
    )
    in_ramps = _ramp((55 - from_C) * 1.5, from_C, 55)
    hold = max(0.0, 960 - equivalent - in_ramps) / _rate(55)
    warm_left = math.ceil((55 - now_C) * 1.5 + hold - 1e-9)
    cold_left: int = next(one["value"] for one in told if one["name"] == "handling_left")
    return [*told, v("warm_left", warm_left, "min"), v("warm_saves", cold_left - warm_left, "min")]


# Hours since the first gram, tenths of a degree: heating off after two hours, on again after fourteen.
NIGHT = [(0, 230), (2, 230), (3, 210), (4, 180), (5, 150), (6, 120), (14, 120), (15, 230)]
NIGHT_EQUIVALENT = 60 * (2 + _rate(21) + _rate(18) + _rate(15) + 10 * _rate(12) + 1)
HARD, LEAST = q(75, "Shore D"), q(70, "Shore D")
# Warm run: on after 60 min, 30 min up from 20 to 59 C, 60 min at 59 C; a second sensor stands 4 K colder.
WARM = [(0, 200), (10, 330), (20, 460), *((m, 590) for m in range(30, 100, 10))]
COLDER = [(m, value - 40) for m, value in WARM]
WARM_EQUIVALENT = _ramp(30, 16, 55) + 60 * _rate(55) + 90 * _rate(20)


def _warm_cure(
    about: str, sensors: dict[str, list[tuple[int, int]]], equivalent: float, **more: Json
) -> Json:
    given, now = _asked(3, 200, run=runs(run(T0 + 60 * MIN, sensors, soak_ms=3600_000)), **more)
    verdict = "outside" if "blob" in more and equivalent < 960 else "inside" if "blob" in more else "none"
    told = _told(180, equivalent, 200, soaked=True)
    return case(about, LAW, given, told, verdict, asked_at_ms=now)


# A crossing: the first sensor starts colder and ends warmer, so each governs half of the time.
CROSS_A, CROSS_B = [(m, 200 + 6 * m) for m in range(0, 70, 10)], [(m, 380) for m in range(0, 70, 10)]
CROSSED = _ramp(30, 20, 38) + 30 * _rate(38) + 120 * _rate(20)
# A gap of 20 min is longer than the 15 that the run allows: it counts nothing.
GAPPED = [(0, 400), (10, 400), (30, 400), (40, 400)]
GAP_EQUIVALENT = 20 * _rate(40) + 140 * _rate(20)
CURE = {
    "an_hour_at_the_sheets_temperature": _cold(
        "One hour at 23 C is one hour; 15 are left, by the sheet as by the law.",
        1,
        230,
        "none",
        ["slowest_sheet", "from_coldest"],
    ),
    "a_cold_night": _cold(
        "12 C runs at 39 % of 23 C: after 14 hours not half of the handling cure is there.",
        14,
        120,
        "none",
        ["slowest_computed", "from_coldest"],
    ),
    "a_warm_morning_does_not_undo_the_night": case(
        "Read 23, 21, 18, 15, 12 C, then 23 C again: between two readings the colder counts. At 16 hours, by "
        "the newest reading alone all would be there; it is not.",
        LAW,
        {**_asked(16, 230, blob=HARD, blob_least=LEAST)[0]},
        _told_of_readings(960, NIGHT, NIGHT_EQUIVALENT),
        "outside",
        asked_at_ms=T0 + 960 * MIN,
        log=[[T0 + hour * 60 * MIN, value] for hour, value in NIGHT],
        lines=["waits_computed", "from_coldest"],
    ),
    "warm_air_does_not_beat_the_sheet": _cold(
        "At 35 C the law would be done after 7 hours; the sheet says 16.",
        8,
        350,
        "outside",
        ["waits_sheet", "from_coldest"],
        blob=HARD,
        blob_least=LEAST,
    ),
    "handling_cure_on_the_minute": _cold(
        "16 hours at 23 C with a hard blob: all three agree.",
        16,
        230,
        "inside",
        ["from_coldest"],
        blob=q(70, "Shore D"),
        blob_least=LEAST,
    ),
    "a_soft_blob_waits": _cold(
        "Time is up and the law agrees, the blob does not.",
        17,
        230,
        "outside",
        ["waits_blob", "from_coldest"],
        blob=q(69, "Shore D"),
        blob_least=LEAST,
    ),
    "all_three_are_waited_for": _cold(
        "Ten hours at 18 C with a soft blob.",
        10,
        180,
        "outside",
        ["waits_computed", "waits_sheet", "waits_blob", "from_coldest"],
        blob=q(40, "Shore D"),
        blob_least=LEAST,
    ),
    "full_cure_is_the_sheets": _cold(
        "80 hours at 30 C: by the law more than full, by the sheet 16 hours are left.",
        80,
        300,
        "outside",
        ["waits_sheet", "from_coldest"],
        blob=HARD,
    ),
    "full_cure": _cold(
        "96 hours at 23 C.",
        96,
        230,
        "inside",
        ["from_coldest"],
        blob=HARD,
    ),
    "a_warm_cure_by_its_colder_sensor": _warm_cure(
        "Ramp and hold of the colder sensor, the hour before and the half hour after at 20 C.",
        {"a": WARM, "b": COLDER},
        WARM_EQUIVALENT,
    ),
    "metal_does_not_cure_the_bond": {
        **_warm_cure(
            "A metal sensor stands colder than the bond: it does not govern.",
            {"a": COLDER, "m": [(0, 100), (90, 100)]},
            WARM_EQUIVALENT,
        ),
    },
    "two_sensors_cross": case(
        "The colder at each moment counts: a rising one below 38 C, a steady one above.",
        LAW,
        {
            **_asked(3, 200, run=runs(run(T0, {"a": CROSS_A, "b": CROSS_B})))[0],
        },
        _told(180, CROSSED, 200),
        "none",
        asked_at_ms=T0 + 180 * MIN,
        lines=["slowest_sheet", "run_counted"] if (960 - CROSSED) / _rate(20) <= 780 else None,
    ),
    "a_gap_counts_nothing": case(
        "Twenty minutes nobody measured, fifteen are allowed: they count nothing, and are named.",
        LAW,
        _asked(3, 200, run=runs(run(T0 + 60 * MIN, {"a": GAPPED})))[0],
        _told(180, GAP_EQUIVALENT, 200),
        "none",
        asked_at_ms=T0 + 180 * MIN,
        lines=[
            "slowest_sheet" if (960 - GAP_EQUIVALENT) / _rate(20) <= 780 else "slowest_computed",
            "run_counted",
            "run_gaps",
        ],
    ),
    "under_the_sheets_minimum_time_counts_nothing": case(
        "The night at 12 C, and a sheet that cures from 15 C: ten hours count nothing and are named; warm "
        "again, it goes on.",
        LAW,
        {**_asked(16, 230, blob=HARD, blob_least=LEAST)[0], "minimum_cure": q(15, "C")},
        _told_of_readings(960, NIGHT, 60 * (2 + _rate(21) + _rate(18) + _rate(15) + 1)),
        "outside",
        asked_at_ms=T0 + 960 * MIN,
        log=[[T0 + hour * 60 * MIN, value] for hour, value in NIGHT],
        lines=["waits_computed", "cold_counts_nothing", "from_coldest"],
    ),
    "at_the_sheets_minimum_it_counts": case(
        "Exactly at the minimum is not under it.",
        LAW,
        {**_asked(14, 120)[0], "minimum_cure": q(12, "C")},
        _told(840, 840 * _rate(12), 120),
        "none",
        asked_at_ms=T0 + 840 * MIN,
        lines=["slowest_computed", "from_coldest"],
    ),
    "it_stands_still": case(
        "A tenth under the minimum of 12 C nothing has counted; what is left is counted at 12 C.",
        LAW,
        {**_asked(14, 119)[0], "minimum_cure": q(12, "C")},
        _still(840, 119, 12),
        "none",
        asked_at_ms=T0 + 840 * MIN,
        lines=["slowest_computed", "stands_still", "cold_counts_nothing", "from_coldest"],
    ),
    "a_run_is_cut_at_the_minimum": case(
        "A run from 20 to 59 C and a sheet that cures from 30 C: the ramp counts from there, the bay at 20 C "
        "not at all; handling cure is there.",
        LAW,
        {
            **_asked(3, 200, run=runs(run(T0 + 60 * MIN, {"a": WARM}, soak_ms=3600_000)))[0],
            "minimum_cure": q(30, "C"),
        },
        _still(180, 200, 30, equivalent=_ramp(30 * 29 / 39, 30, 59) + 60 * _rate(59), soaked=True),
        "none",
        asked_at_ms=T0 + 180 * MIN,
        lines=["stands_still", "cold_counts_nothing", "run_counted"],
    ),
    "warming_saves_hours": case(
        "Two hours at 15 C; warmed to 55 C at 1 K/min and cooled at 2 K/min again, both ramps counted.",
        LAW,
        {**_asked(2, 150)[0], **WARM_TO},
        _warmed(120, 120 * _rate(15), 150, 15),
        "none",
        asked_at_ms=T0 + 120 * MIN,
        lines=["slowest_computed", "warming_saves", "from_coldest"],
    ),
    "warming_from_under_the_minimum": case(
        "At 8 C, under the minimum of 10, it stands still, and of the ramps what is over 10 C counts.",
        LAW,
        {**_asked(2, 80)[0], **WARM_TO, "minimum_cure": q(10, "C")},
        _warmed(120, 0, 80, 8, minimum_C=10),
        "none",
        asked_at_ms=T0 + 120 * MIN,
        lines=["slowest_computed", "stands_still", "cold_counts_nothing", "warming_saves", "from_coldest"],
    ),
    "warming_saves_nothing": case(
        "Fifteen and a half hours at 23 C: half an hour is left, the ramps alone take 48 min.",
        LAW,
        {**_asked(15.5, 230)[0], **WARM_TO},
        [*_told(930, 930, 230), v("warm_left", 48, "min")],
        "none",
        asked_at_ms=T0 + 930 * MIN,
        lines=["slowest_sheet", "warming_saves_nothing", "from_coldest"],
    ),
    "a_run_has_warmed_it_already": case(
        "What warming would save is no question once a run has warmed the joint.",
        LAW,
        {**_asked(3, 200, run=runs(run(T0 + 60 * MIN, {"a": GAPPED})))[0], **WARM_TO},
        _told(180, GAP_EQUIVALENT, 200),
        "none",
        asked_at_ms=T0 + 180 * MIN,
    ),
    "a_wrong_and_expired_lot": case(
        "The figures are the sheet's of another product: said beside them.",
        LAW,
        {**_asked(1, 230)[0], "adhesive": lots(("S-9", True, False), ("A-0", False, True))},
        _told(60, 60, 230),
        "none",
        asked_at_ms=T0 + 60 * MIN,
        lines=["slowest_sheet", "from_coldest", "lot_wrong", "lot_expired"],
    ),
    "before_it_began": case(
        "A first gram that lies ahead is a wrong clock.",
        "by eye",
        _asked(1, 230)[0],
        asked_at_ms=T0 - 1,
        refused={"field": "started", "code": "later_than_now"},
    ),
    "no_energy": case(
        "Without an activation energy no law.",
        "by eye",
        {**_asked(1, 230)[0], "activation_energy": q(0, "kJ/mol")},
        asked_at_ms=T0 + MIN,
        refused={"field": "activation_energy", "code": "not_above_zero"},
    ),
}
_METAL = CURE["metal_does_not_cure_the_bond"]["inputs"]["run"]["runs"][0]["sensors"][1]
_METAL["of"] = "metal"
CROSS = CURE["two_sensors_cross"]
if CROSS["lines"] is None:
    CROSS["lines"] = ["slowest_computed", "run_counted"]
SCENES = {"cure_progress": CURE}
