"""Body, gaps and mismatch: scipy's alignment, whole tenths by hand, the shear-lag formula on paper."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from scipy.spatial.transform import Rotation

from vectors.computations.writing import Json, case, fig, points, q, v

SCIPY = "scipy.spatial.transform.Rotation.align_vectors on the centred points, in the scene"
PLACES: dict[str, tuple[float, float, float]] = {
    "d1": (0, 620, 0),
    "d2": (0, -620, 0),
    "d3": (1450, 590, 15),
    "d4": (1450, -590, 15),
    "d5": (1500, 560, 1620),
    "d6": (1500, -560, 1620),
}
Deviations = dict[str, tuple[int, int, int]]


def _places(names: dict[str, tuple[float, float, float]]) -> list[Json]:
    return [{"id": name, "at_mm": list(at)} for name, at in names.items()]


def _axes(off: Deviations, before: str = "") -> Json:
    return {
        f"{before}{axis}": points("mm", 1, **{name: one[place] for name, one in off.items()})
        for place, axis in enumerate(("dx", "dy", "dz"))
    }


def _at(off: Deviations, places: dict[str, tuple[float, float, float]] = PLACES) -> Any:
    return np.array([[p + d / 10 for p, d in zip(places[name], off[name], strict=True)] for name in places])


def _fit(first: Any, second: Any) -> tuple[list[float], float]:
    """Residual lengths after scipy's alignment, and the turn in degrees."""
    a, b = first - first.mean(axis=0), second - second.mean(axis=0)
    turn, _ = Rotation.align_vectors(b, a)
    residual = b - turn.apply(a)
    return [float(np.linalg.norm(row)) for row in residual], math.degrees(turn.magnitude())


def _body(off: Deviations, before: Deviations | None = None) -> list[Json]:
    nominal, now = np.array([PLACES[name] for name in PLACES]), _at(off)
    residual, turned = _fit(nominal, now)
    apart = [float(np.linalg.norm(row)) for row in now - nominal]
    values = [
        fig("largest_residual", max(residual), "mm", 2),
        fig("rms", math.sqrt(sum(mm * mm for mm in residual) / len(residual)), "mm", 2),
        fig("turned", turned, "deg", 3),
        fig("largest_deviation", max(apart), "mm", 2),
        *(fig(f"residual_{name}", mm, "mm", 2) for name, mm in zip(PLACES, residual, strict=True)),
    ]
    if before is None:
        return values
    moved, _ = _fit(_at(before), now)
    return [
        *values,
        fig("largest_moved", max(moved), "mm", 2),
        *(fig(f"moved_{name}", mm, "mm", 2) for name, mm in zip(PLACES, moved, strict=True)),
    ]


ALLOWED = {"largest_allowed": q(30, "mm", 1)}
STILL: Deviations = dict.fromkeys(PLACES, (0, 0, 0))
SHIFTED: Deviations = dict.fromkeys(PLACES, (12, -8, 5))
USUAL: Deviations = {
    "d1": (5, -3, 2),
    "d2": (-4, 6, 1),
    "d3": (8, 2, -5),
    "d4": (-2, -7, 4),
    "d5": (11, 9, -6),
    "d6": (3, -5, 8),
}
BENT: Deviations = {**STILL, "d5": (95, 60, -20)}
SMALL: Deviations = {name: (2 * x, y, -z) for name, (x, y, z) in USUAL.items()}
LINE = {"a": (0.0, 0.0, 0.0), "b": (500.0, 0.0, 0.0), "c": (1000.0, 0.0, 0.0)}
SQUARE = {"a": (0.0, 0.0, 0.0), "b": (100.0, 0.0, 0.0), "c": (100.0, 100.0, 0.0), "d": (0.0, 100.0, 0.0)}
STILL_SQUARE: Deviations = dict.fromkeys(SQUARE, (0, 0, 0))
FIT = {
    "as_it_should_be": case(
        "Nothing is off: nothing is left and nothing is turned.",
        SCIPY,
        {**_axes(STILL), **ALLOWED},
        _body(STILL),
        "inside",
        places=_places(PLACES),
        lines=[],
    ),
    "stood_elsewhere": case(
        "All points off alike is how the body stood, not how it is bent: the fit takes it away.",
        SCIPY,
        {**_axes(SHIFTED), **ALLOWED},
        _body(SHIFTED),
        "inside",
        places=_places(PLACES),
    ),
    "an_ordinary_body": case(
        "Every point a little off in its own way.",
        SCIPY,
        {**_axes(USUAL), **ALLOWED},
        _body(USUAL),
        "inside",
        places=_places(PLACES),
        lines=[],
    ),
    "a_bent_corner": case(
        "One upper corner is pushed in: the fit leaves most of it there.",
        SCIPY,
        {**_axes(BENT), **ALLOWED},
        _body(BENT),
        "outside",
        places=_places(PLACES),
        lines=["residual_over"],
    ),
    "against_itself_before": case(
        "The same body measured again: what moved between both is fitted by itself.",
        SCIPY,
        {**_axes(SMALL), **_axes(USUAL, "before_"), **ALLOWED},
        _body(SMALL, USUAL),
        "inside",
        places=_places(PLACES),
        lines=[],
    ),
    "moved_by_the_work": case(
        "Good before, bent now: both comparisons say so.",
        SCIPY,
        {**_axes(BENT), **_axes(STILL, "before_"), **ALLOWED},
        _body(BENT, STILL),
        "outside",
        places=_places(PLACES),
        lines=["residual_over", "moved_over"],
    ),
    "on_a_line": case(
        "Three points of one line leave the turn about it open.",
        "rank of the points, by eye",
        {**_axes(dict.fromkeys(LINE, (0, 0, 0))), **ALLOWED},
        places=_places(LINE),
        refused={"field": "places", "code": "on_a_line"},
    ),
    "two_corners_exchanged": case(
        "A square with two corners exchanged fits as well in any turn about one of its axes.",
        "rank of the product matrix, by hand: sums of x x', x y', y x', y y' are 0, 0, 0 and 4 x 50 x 50",
        {**_axes({**STILL_SQUARE, "c": (-1000, 0, 0), "d": (1000, 0, 0)}), **ALLOWED},
        places=_places(SQUARE),
        refused={"field": "places", "code": "on_a_line"},
    ),
    "a_point_is_missing": case(
        "d6 was not measured.",
        "by eye",
        {**_axes({name: one for name, one in USUAL.items() if name != "d6"}), **ALLOWED},
        places=_places(PLACES),
        refused={"field": "dx", "code": "other_points"},
    ),
}

LIMITS = {
    "gap_nominal": q(35, "mm", 1),
    "gap_allowed": q(10, "mm", 1),
    "step_allowed": q(10, "mm", 1),
}
TENTHS = "whole tenths, by hand"


def _gaps(widest: int, narrowest: int, step: int, *more: Json) -> list[Json]:
    return [
        v("widest_gap", widest, "mm", 1),
        v("narrowest_gap", narrowest, "mm", 1),
        v("gap_spread", widest - narrowest, "mm", 1),
        v("largest_step", step, "mm", 1),
        *more,
    ]


def _measured(gap: list[int], step: list[int], before: str = "") -> Json:
    names = [f"g{place + 1}" for place in range(len(gap))]
    return {
        f"{before}gap": points("mm", 1, **dict(zip(names, gap, strict=True))),
        f"{before}step": points("mm", 1, **dict(zip(names, step, strict=True))),
    }


GAPS = {
    "on_the_limits": case(
        "2.5 and 4.5 are 1.0 off 3.5; steps of -1.0 and 1.0: on the limit is good.",
        TENTHS,
        {**_measured([25, 45, 35], [-10, 10, 0]), **LIMITS},
        _gaps(45, 25, 10),
        "inside",
        lines=[],
    ),
    "a_slipped_digit": case(
        "35.0 for 3.5 at g2: over by far.",
        TENTHS,
        {**_measured([35, 350, 36], [0, 0, 1]), **LIMITS},
        _gaps(350, 35, 1),
        "outside",
        lines=["gap_over"],
    ),
    "a_step_under": case(
        "-1.1 at g3: the sign tells which side stands proud, the size is judged.",
        TENTHS,
        {**_measured([33, 34, 36], [2, 0, -11]), **LIMITS},
        _gaps(36, 33, 11),
        "outside",
        lines=["step_over"],
    ),
    "against_the_dry_fit": case(
        "3.4 to 3.6 at g1 and a step from 0.2 to -0.3 at g2: moved by 0.2 and 0.5.",
        TENTHS,
        {
            **_measured([36, 35, 34], [0, -3, 1]),
            **_measured([34, 35, 34], [0, 2, 1], "dry_"),
            **LIMITS,
        },
        _gaps(36, 34, 3, v("gap_moved", 2, "mm", 1), v("step_moved", 5, "mm", 1)),
        "inside",
        lines=[],
    ),
    "a_step_is_missing": case(
        "Gap and step belong together, point by point.",
        TENTHS,
        {"gap": points("mm", 1, g1=35, g2=35), "step": points("mm", 1, g1=0), **LIMITS},
        refused={"field": "step", "code": "other_points"},
    ),
}

LAG = "Volkersen 1938, Hart-Smith, NASA CR-112235: da dT G / (t w) tanh(w L / 2); on paper in the scene"


def _joint(set_at: int, coldest: int, hottest: int, room: Json, shear: int = 700) -> Json:
    return {
        "laminate": points("mm", 2, header=320, post=320),
        "bondline": room,
        "flange": q(300, "mm", 2),
        "length": q(1240, "mm"),
        "set_at": q(set_at, "C"),
        "coldest": q(coldest, "C"),
        "hottest": q(hottest, "C"),
        "flange_expansion": q(235, "1e-6/K", 1),
        "laminate_expansion": q(30, "1e-6/K", 1),
        "flange_modulus": q(70000, "MPa"),
        "laminate_modulus": q(48000, "MPa"),
        "shear_modulus": q(shear, "MPa"),
    }


def _sheared(change: float, at: float, t: float, G: float = 700) -> list[Json]:
    """Both ends free; from the middle to one end."""
    apart = 20.5e-6 * abs(change) * 1240
    w = math.sqrt(G / t * (1 / (70000 * 3.0) + 1 / (48000 * 3.2)))
    strain = apart / 2 / t * math.tanh(w * 620) / (w * 620)
    return [
        fig("at", at, "C", 1),
        fig("travel", apart, "mm", 2),
        fig("end_travel", apart / 2, "mm", 2),
        fig("upper_bound", apart / 2 / t * 100, "%", 0),
        fig("end_strain", strain * 100, "%", 1),
        fig("end_stress", strain * G, "MPa", 1),
        fig("thinnest", t, "mm", 2),
    ]


MISMATCH = {
    "set_warm_and_cooled": case(
        "Set at 65 C and cooled by 90 K to -25 C; the thinnest of the gaps counts.",
        LAG,
        _joint(65, -25, 65, points("mm", 2, a=100, b=120, c=140)),
        _sheared(-90, -25, 1.0),
        "none",
        lines=["upper_bound", "elastic_only"],
    ),
    "set_cold_and_warmed": case(
        "Set at 23 C: 42 K up to 65 C are less than 48 K down to -25 C.",
        LAG,
        _joint(23, -25, 65, points("mm", 2, a=80, b=180)),
        _sheared(-48, -25, 0.8),
        "none",
    ),
    "the_hot_end_is_farther": case(
        "Set at 5 C: 60 K up to 65 C are more than 30 K down.",
        LAG,
        _joint(5, -25, 65, points("mm", 2, a=120)),
        _sheared(60, 65, 1.2),
        "none",
    ),
    "a_soft_sealant_sees_the_bound": case(
        "With 1 MPa of shear modulus nearly all of the travel goes into the sealant.",
        LAG,
        _joint(65, -25, 65, points("mm", 2, a=200), shear=1),
        _sheared(-90, -25, 2.0, 1),
        "none",
    ),
    "no_thickness": case(
        "A flange of nothing carries nothing.",
        LAG,
        {**_joint(65, -25, 65, points("mm", 2, a=100)), "flange": q(0, "mm", 2)},
        refused={"field": "flange", "code": "not_above_zero"},
    ),
}
SCENES = {"best_fit": FIT, "gap_and_step": GAPS, "thermal_mismatch": MISMATCH}
