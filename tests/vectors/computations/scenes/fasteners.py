"""Edges: multiples of the rivet, done by hand in `about`."""

from __future__ import annotations

from vectors.computations.writing import Json, case, q, v

AC = "FAA AC 43.13-1B chapter 4, solid rivets in metal sheet: 2 diameters to the edge; multiplied by hand"
LAMINATE = "composite aircraft practice, 3 diameters to the edge, from memory; multiplied by hand"
COUNTED = "counted by hand"


def _edge(value: int, least: int) -> Json:
    return {"edge": q(value, "mm", 1), "nominal": q(48, "mm", 1), "least": q(least, "diameters")}


EDGE = {
    "on_the_minimum": case(
        "9.6 mm at 4.8 mm rivets is 2 diameters: a value on the minimum is good.",
        AC,
        _edge(96, 2),
        [v("minimum", 96, "mm", 1), v("room", 0, "mm", 1), v("in_diameters", 200, "diameters", 2)],
        "inside",
        lines=[],
    ),
    "a_tenth_short": case(
        "9.5 of 9.6 mm; 9.5 / 4.8 = 1.979.",
        AC,
        _edge(95, 2),
        [v("minimum", 96, "mm", 1), v("room", -1, "mm", 1), v("in_diameters", 198, "diameters", 2)],
        "outside",
        lines=["edge_short"],
    ),
    "laminate_wants_three": case(
        "14.4 mm is 3 diameters; 15.0 leaves 0.6; 15.0 / 4.8 = 3.125 is 3.13, half away from zero.",
        LAMINATE,
        _edge(150, 3),
        [v("minimum", 144, "mm", 1), v("room", 6, "mm", 1), v("in_diameters", 313, "diameters", 2)],
        "inside",
    ),
    "no_diameter": case(
        "A rivet of no diameter has no edge rule.",
        COUNTED,
        {"edge": q(96, "mm", 1), "nominal": q(0, "mm", 1), "least": q(2, "diameters")},
        refused={"field": "nominal", "code": "not_above_zero"},
    ),
    "not_read_yet": case(
        "An input that is not there is never a default.",
        COUNTED,
        {"nominal": q(48, "mm", 1), "least": q(2, "diameters")},
        refused={"field": "edge", "code": "not_there"},
    ),
}
SCENES = {"edge_distance": EDGE}
