"""Heat plans without and with a pinned plan, verdicts of runs: figures copied, readings judged by hand."""

from __future__ import annotations

from vectors.computations.writing import MIN, T0, Json, case, fig, points, q, run, runs, v

SETTINGS = {
    "ramp_s": q(2700, "s"),
    "soak_s": q(900, "s"),
    "setpoint": q(2400, "C", 1),
    "lagging_min": q(1250, "C", 1),
    "leading_max": q(1850, "C", 1),
    "metal_max": q(1900, "C", 1),
    "neighbour_max": q(800, "C", 1),
    "ramp_max": q(100, "K/min", 1),
    "cooling_max": q(80, "K/min", 1),
    "lift_below": q(600, "C", 1),
    "cold_below": q(450, "C", 1),
}
AIR = {"air": q(205, "C", 1), "pad_gap": points("mm", 2, u1=10, u2=20)}
ORDER = ("setpoint", "lagging_min", "leading_max", "metal_max", "neighbour_max", "ramp_max", "cooling_max")
METHOD = "the method's own figures, seconds to minutes by hand"
PLAN = {
    "a_removal": case(
        "2700 s are 45 min, 900 s are 15 min; every limit as the method has it.",
        METHOD,
        AIR,
        [
            v("ramp", 45, "min"),
            v("soak", 15, "min"),
            *(
                v(name, SETTINGS[name]["value"], SETTINGS[name]["unit"], 1)
                for name in (*ORDER, "lift_below", "cold_below")
            ),
        ],
        "none",
        settings=SETTINGS,
        lines=["no_forecast"],
    ),
    "only_what_the_method_says": case(
        "A method that names no metal limit gets none; 125 s are 3 min, rounded up.",
        METHOD,
        {},
        [
            v("ramp", 1, "min"),
            v("soak", 3, "min"),
            v("lagging_min", 125, "C"),
            v("leading_max", 185, "C"),
            v("cold_below", 45, "C"),
        ],
        "none",
        settings={
            "ramp_s": q(60, "s"),
            "soak_s": q(125, "s"),
            "lagging_min": q(125, "C"),
            "leading_max": q(185, "C"),
            "cold_below": q(45, "C"),
        },
    ),
    "no_run_of_that_zone": case(
        "Nothing to plan: no heat run of the zone and purpose is in the methods.",
        METHOD,
        AIR,
        refused={"field": "settings", "code": "no_run"},
    ),
}
PLANNED = {
    "model": "coupled-plates-1",
    "feasible": True,
    "ambient_dC": 200,
    "workable_s": 1350,
    "from_s": 1199,
    "until_s": 2041,
    "heat_until_s": 2734,
    "release_until_s": 2880,
    "soak_s": 900,
    "wedging_s": 420,
    "window_from_s": 1360,
    "window_until_s": 2900,
    "bond_peak_dC": [1700, 1850],
    "metal_peak_dC": [1720, 1890],
}
BY_PLAN = (
    "a plan's figures as the office tells them; seconds to minutes by hand, early ends down, late ends up"
)
FORECAST = [
    v("workable", 23, "min"),
    v("workable_from", 19, "min"),
    v("workable_until", 35, "min"),
    v("soak", 15, "min"),
    v("heat_until", 46, "min"),
    v("release_until", 48, "min"),
    v("bond_peak_cold_end", 1700, "C", 1),
    v("bond_peak_hot_end", 1850, "C", 1),
    v("metal_peak_cold_end", 1720, "C", 1),
    v("metal_peak_hot_end", 1890, "C", 1),
]
KEPT_LIMITS = [
    v(name, SETTINGS[name]["value"], SETTINGS[name]["unit"], 1)
    for name in (*ORDER, "lift_below", "cold_below")
]


def _pinned(**other: Json | int | bool | list[int] | None) -> Json:
    return {"kind": "plan", "plan": "0123456789abcdef" * 4, "figures": {**PLANNED, **other}}


BY_A_PLAN = {
    "by_a_pinned_plan": case(
        "1350 s are 23 min, 1199 s 19 min, 2041 s 35 min; on every limit is within it.",
        BY_PLAN,
        {**AIR, "plan": _pinned()},
        [*FORECAST, *KEPT_LIMITS],
        "inside",
        settings=SETTINGS,
        lines=["planned"],
    ),
    "by_a_plan_that_is_not_feasible": case(
        "Never workable: no time of it is told, and the answer is outside.",
        BY_PLAN,
        {
            **AIR,
            "plan": _pinned(
                feasible=False,
                workable_s=None,
                from_s=None,
                until_s=None,
                heat_until_s=None,
                release_until_s=None,
                window_from_s=None,
                window_until_s=None,
            ),
        },
        [v("soak", 15, "min"), *FORECAST[6:], *KEPT_LIMITS],
        "outside",
        settings=SETTINGS,
        lines=["planned", "plan_infeasible"],
    ),
    "by_a_plan_at_its_ends": case(
        "Never at the slow end; a tenth over both limits at the hot end; air 5.1 K colder; 1 s less of soak.",
        BY_PLAN,
        {
            "air": q(149, "C", 1),
            "plan": _pinned(until_s=None, soak_s=899, bond_peak_dC=[1700, 1851], metal_peak_dC=[1720, 1901]),
        },
        [
            *FORECAST[:2],
            *FORECAST[3:7],
            v("bond_peak_hot_end", 1851, "C", 1),
            v("metal_peak_cold_end", 1720, "C", 1),
            v("metal_peak_hot_end", 1901, "C", 1),
            *KEPT_LIMITS,
        ],
        "inside",
        settings=SETTINGS,
        lines=[
            "planned",
            "plan_never_late",
            "plan_other_soak",
            "plan_hot_bond",
            "plan_hot_metal",
            "plan_other_air",
        ],
    ),
    "by_a_plan_in_air_five_kelvin_off": case(
        "Five kelvin are the most that is not worth a word; limits in whole degrees are compared as such.",
        BY_PLAN,
        {"air": q(25, "C"), "plan": _pinned(bond_peak_dC=[1700, 1859])},
        [
            *FORECAST[:7],
            v("bond_peak_hot_end", 1859, "C", 1),
            *FORECAST[8:],
            v("lagging_min", 125, "C"),
            v("leading_max", 186, "C"),
        ],
        "inside",
        settings={"soak_s": q(900, "s"), "lagging_min": q(125, "C"), "leading_max": q(186, "C")},
        lines=["planned"],
    ),
}
BY_HAND = "rates, minutes and peaks of readings every five minutes, by hand"
LIMITS = {
    **SETTINGS,
    "gap_max_s": q(300, "s"),
}
A = [
    (0, 200),
    (5, 700),
    (10, 1200),
    (15, 1300),
    (20, 1300),
    (25, 1300),
    (30, 1300),
    (35, 900),
    (40, 500),
    (45, 400),
]
M = [(0, 200), (10, 1500), (20, 1700), (30, 1800), (45, 410)]
N = [(0, 200), (30, 600), (45, 350)]
ACTS: list[list[str | int]] = [
    ["turn_down", "U1", 30 * MIN],
    ["turn_down", "U2", 32 * MIN],
    ["lift", "U1", 42 * MIN],
    ["lift", "U2", 43 * MIN],
]
OF = {"m": "metal", "n": "neighbour"}
Log = list[tuple[int, int]]


def _run(a: Log, m: Log, *, purpose: str = "removal", acts: list[list[str | int]] = ACTS) -> Json:
    made = run(T0, {"a": a, "m": m, "n": N}, of=OF, purpose=purpose, acts=acts, release=["U1", "U2"])
    return {**made, "gap_max_s": 300}


def _found(**more: Json) -> list[Json]:
    figures = {
        "ramp": v("ramp", 1000, "K/min", 2),
        "soak": v("soak", 150, "min", 1),
        "soak_gap": v("soak_gap", 0, "min", 1),
        "bond_peak": v("bond_peak", 1300, "C", 1),
        "metal_peak": v("metal_peak", 1800, "C", 1),
        "metal_minutes": v("metal_minutes", 0, "min", 1),
        "neighbour_peak": v("neighbour_peak", 600, "C", 1),
        "release": v("release", 0, "pads"),
        "cooling": v("cooling", 800, "K/min", 2),
        "cold": v("cold", 410, "C", 1),
        "sensor_gap": v("sensor_gap", 300, "s"),
    }
    return list({**figures, **more}.values())


HOT = [(m, 1910 if m == 20 else value) for m, value in M]
SHORT = [(m, 1240 if m == 20 else value) for m, value in A]
FAST = [*A[:7], (35, 500), (40, 450), (45, 400)]
VERDICT = {
    "on_every_limit": case(
        "10 K/min up, 15 min at 130 C, 8 K/min down: on a limit is good; 41 C at the end.",
        BY_HAND,
        {"run": runs(_run(A, M))},
        _found(),
        "inside",
        settings=LIMITS,
    ),
    "metal_a_degree_too_hot": case(
        "191 C on the metal: 1 K over, reached and left within 10 min each: 0.24 + 0.91 min above 190.",
        BY_HAND + "; 150 to 191 to 180: above 190 for 10/41 of 10 min up and 10/11 of 10 min down",
        {"run": runs(_run(A, HOT))},
        _found(
            metal_peak=v("metal_peak", 1910, "C", 1),
            metal_minutes=fig("metal_minutes", 10 * 1 / 41 + 10 * 1 / 11, "min", 1),
        ),
        "outside",
        settings=LIMITS,
    ),
    "a_short_soak_parts_but_does_not_cure": case(
        "Under 125 C at minute 20: only 25 to 30 counts; in a cure that is no cure.",
        BY_HAND,
        {"run": runs(_run(SHORT, M, purpose="cure"))},
        _found(soak=v("soak", 50, "min", 1)),
        "outside",
        settings=LIMITS,
    ),
    "a_short_soak_of_a_removal_is_a_deviation": case(
        "The same in a removal is told, and is no failure.",
        BY_HAND,
        {"run": runs(_run(SHORT, M))},
        _found(soak=v("soak", 50, "min", 1)),
        "inside",
        settings=LIMITS,
    ),
    "nobody_recorded_the_release": case(
        "130 to 50 C in 5 min is 16 K/min: told, and not judged; neither pad was released.",
        BY_HAND,
        {"run": runs(_run(FAST, M, acts=[]))},
        _found(release=v("release", 2, "pads"), cooling=v("cooling", 1600, "K/min", 2)),
        "inside",
        settings=LIMITS,
    ),
    "nothing_was_read": case(
        "No reading of the bond: nothing to judge.",
        BY_HAND,
        {"run": runs(_run([], M))},
        [],
        "none",
        settings=LIMITS,
        lines=[],
    ),
    "no_run": case(
        "Nothing to judge before a run was begun.",
        BY_HAND,
        {},
        settings=LIMITS,
        refused={"field": "run", "code": "not_there"},
    ),
}
SCENES = {"heat_plan": {**PLAN, **BY_A_PLAN}, "heat_verdict": VERDICT}
