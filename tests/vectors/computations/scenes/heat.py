"""Heat plans without a plan: the method's own figures, copied by hand."""

from __future__ import annotations

from vectors.computations.writing import case, points, q, v

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
SCENES = {"heat_plan": PLAN}
