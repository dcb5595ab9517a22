"""Writes tests/vectors/verdict: finished runs and the verdict that `bayleaf.heat` gives, for the phone's own.

    .venv/bin/python tests/vectors/verdicts.py

Readings are integers as the entries carry them. Figures are held to one step of the last decimal told.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).parent / "verdict"
SOURCE = "bayleaf.heat.verdict, which tests/unit/heat/test_verdict.py holds to figures made by hand"
SETTINGS: dict[str, Any] = {
    "sensors_unit": "C", "decimals": 0, "lagging_min": 125, "leading_max": 185, "metal_max": 190,
    "neighbour_max": 80, "soak_s": 900, "gap_max_s": 300, "ramp_s": 2700, "ramp_max": 10, "cooling_max": 8,
    "cold_below": 45, "lift_below": 60, "setpoint": 240, "release": ["U1", "U2"],
}  # fmt: skip
CURE = SETTINGS | {"lagging_min": 55, "leading_max": 70, "soak_s": 3600, "ramp_max": 2, "cooling_max": 2}
CODES = {
    "ramp": "ramp", "soak": "soak", "gap in the soak": "soak_gap", "bondline peak": "bond_peak",
    "metal peak": "metal_peak", "neighbour peak": "neighbour_peak", "cooling": "cooling",
    "pads released out of order or not at all": "release", "last reading of the hottest sensor": "cold",
    "longest gap of a sensor": "sensor_gap",
}  # fmt: skip
OF = {"m": "metal", "n": "neighbour"}

Curve = Callable[[int], float]


def through(*corners: tuple[int, float]) -> Curve:
    """Straight between corners of (minute, C)."""

    def at(minute: int) -> float:
        for (left, low), (right, high) in pairwise(corners):
            if minute <= right:
                return low + (high - low) * (minute - left) / (right - left)
        return corners[-1][1]

    return at


def rows(sensor: str, curve: Curve, minutes: range, *, without: range = range(0)) -> list[dict[str, Any]]:
    """Readings every so many minutes, seven seconds late each."""
    of = OF.get(sensor, "bond")
    return [
        {"sensor": sensor, "of": of, "run_ms": minute * 60_000 + 7_000, "value": round(curve(minute))}
        for minute in minutes
        if minute not in without
    ]


def act(act: str, minute: float, pad: str = "") -> dict[str, Any]:
    return {"act": act, "pad": pad, "run_ms": round(minute * 60_000)}


RELEASE = [
    act("turn_down", 36, "U1"),
    act("turn_down", 41, "U2"),
    act("lift", 56, "U1"),
    act("lift", 57, "U2"),
]
A = through((0, 20), (18, 150), (36, 160), (56, 58), (66, 40))
B = through((0, 20), (20, 127), (36, 140), (56, 55), (66, 40))
M = through((0, 20), (18, 165), (36, 178), (56, 60), (66, 41))
N = through((0, 20), (36, 62), (66, 35))
EVERY = range(0, 68, 2)


def released(down_U1: float, down_U2: float, lifted: float) -> list[dict[str, Any]]:
    """Turned down in order, lifted together."""
    downs = [act("turn_down", down_U1, "U1"), act("turn_down", down_U2, "U2")]
    return [*downs, act("lift", lifted, "U1"), act("lift", lifted, "U2")]


def run(acts: list[dict[str, Any]] | None = None, purpose: str = "removal", **curves: Any) -> dict[str, Any]:
    """The usual run with some sensors read otherwise; an empty list leaves a sensor out."""
    usual: dict[str, Any] = {"a": A, "b": B, "m": M, "n": N} | curves
    readings = [
        row
        for sensor, curve in usual.items()
        for row in (curve if isinstance(curve, list) else rows(sensor, curve, EVERY))
    ]
    acts = [*(released(36, 41, 56) if acts is None else acts), act("off", 58), act("cold", 66)]
    return {"purpose": purpose, "aborted": False, "readings": readings, "acts": acts}


def scenes() -> dict[str, tuple[str, dict[str, Any], dict[str, Any], list[dict[str, Any]]]]:
    """About, run, settings and earlier runs of each vector."""
    tripped = through((0, 20), (20, 127), (32, 138), (37, 112), (41, 117), (45, 130), (50, 136), (70, 40))
    longer = through((0, 20), (18, 150), (54, 160), (70, 40))
    later = released(54, 58, 68)
    hot_metal = through((0, 20), (18, 180), (30, 196), (36, 178), (66, 41))
    warm = through((0, 20), (28, 66), (84, 66), (110, 30))
    low = through((0, 20), (28, 60), (84, 60), (110, 30))
    cure: dict[str, Any] = {"m": [], "n": []}
    cure |= {sensor: rows(sensor, curve, range(0, 112, 4)) for sensor, curve in (("a", warm), ("b", low))}
    gives_out = rows("b", through((0, 20), (30, 60), (60, 60), (75, 40), (110, 30)), range(0, 112, 4))
    return {
        "conforms": ("A run inside every limit, released in order.", run(), SETTINGS, []),
        "breaker_trips": (
            "Power is gone for nine minutes of the soak and the logger goes on: a gap, no failure.",
            run(later, a=rows("a", longer, range(0, 72, 2)), b=rows("b", tripped, range(0, 72, 2))),
            SETTINGS,
            [],
        ),
        "sensor_silent": (
            "Sensor b is not read for twelve minutes of the soak.",
            run(b=rows("b", B, EVERY, without=range(24, 35))),
            SETTINGS,
            [],
        ),
        "metal_too_hot": (
            "The metal passes its limit for some minutes, and had some in an earlier run.",
            run(m=hot_metal),
            SETTINGS,
            [run(m=hot_metal)],
        ),
        "neighbour_too_hot": (
            "The nearest neighbour passes its limit.",
            run(n=through((0, 20), (36, 84), (66, 35))),
            SETTINGS,
            [],
        ),
        "wrong_order": (
            "U2 beside the bonded stretch goes first, U1 is never turned down.",
            run([act("turn_down", 36, "U2")]),
            SETTINGS,
            [],
        ),
        "too_fast": (
            "Up and down faster than the limits.",
            run(a=through((0, 20), (8, 140), (36, 160), (42, 70), (66, 40))),
            SETTINGS,
            [],
        ),
        "nobody_recorded_the_release": (
            "Down by 20 K/min with no turn-down, lift or switch-off recorded: told, and not judged.",
            {**run(a=through((0, 20), (18, 150), (36, 160), (41, 60), (66, 40))), "acts": [act("cold", 66)]},
            SETTINGS | {"release": []},
            [],
        ),
        "cure_conforms": ("A warm cure long enough.", run(released(84, 85, 108), "cure", **cure), CURE, []),
        "cure_short": (
            "The same, but the coldest place gives out early: a cure that is none.",
            run(released(60, 61, 108), "cure", **(cure | {"b": gives_out})),
            CURE,
            [],
        ),
    }


def document_of(run: dict[str, Any], settings: dict[str, Any], earlier_min: float) -> dict[str, Any]:
    """The run as `bayleaf heat verdict` reads it."""
    readings: dict[str, list[list[float]]] = {}
    for row in run["readings"]:
        readings.setdefault(row["sensor"], []).append([row["run_ms"] / 1000, row["value"]])
    of = {row["sensor"]: row["of"] for row in run["readings"]}
    limits = {
        "lagging_min_C": settings["lagging_min"], "leading_max_C": settings["leading_max"],
        "soak_min": settings["soak_s"] / 60, "gap_max_s": settings["gap_max_s"],
        "ramp_K_min": settings["ramp_max"], "cooling_K_min": settings["cooling_max"],
        "metal_max_C": settings["metal_max"], "metal_above_C": settings["metal_max"],
        "neighbour_max_C": settings["neighbour_max"], "cold_below_C": settings["cold_below"],
    }  # fmt: skip
    return {
        "purpose": run["purpose"],
        "limits": limits,
        "readings": readings,
        "metal_sensors": [sensor for sensor, what in of.items() if what == "metal"],
        "neighbour_sensors": [sensor for sensor, what in of.items() if what == "neighbour"],
        "acts": [{"at_s": one["run_ms"] / 1000, "act": one["act"], "pad": one["pad"]} for one in run["acts"]],
        "release_order": settings["release"],
        "earlier_metal_above_min": earlier_min,
    }


def told(run: dict[str, Any], settings: dict[str, Any], earlier: list[dict[str, Any]]) -> dict[str, Any]:
    """Overall word and lines as the server gives them."""
    from bayleaf.heat.readings_document import read_run
    from bayleaf.heat.verdict import verdict_of

    minutes = sum(_metal_minutes(told(one, settings, [])) for one in earlier)
    made = verdict_of(read_run(json.dumps(document_of(run, settings, minutes))))
    lines = [
        {
            "code": CODES.get(line.what, "metal_minutes"),
            "figure": round(line.figure, 4),
            **({} if line.limit is None else {"limit": line.limit}),
            "standing": line.standing,
        }
        for line in made.lines
    ]
    return {"overall": made.overall, "lines": lines}


def _metal_minutes(made: dict[str, Any]) -> float:
    return float(sum(line["figure"] for line in made["lines"] if line["code"] == "metal_minutes"))


def vectors() -> dict[str, dict[str, Any]]:
    return {
        name: {
            "about": about,
            "source": SOURCE,
            "tolerance": "one step of the last decimal told",
            "run": run,
            "settings": settings,
            "earlier": earlier,
            **told(run, settings, earlier),
        }
        for name, (about, run, settings, earlier) in scenes().items()
    }


def text_of(vector: dict[str, Any]) -> str:
    return json.dumps(vector, sort_keys=True, separators=(",", ":")) + "\n"


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for name, vector in vectors().items():
        (FOLDER / f"{name}.json").write_text(text_of(vector))
        sys.stdout.write(f"{name}: {vector['overall']}\n")
