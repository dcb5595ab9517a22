"""Holes with the room of each layer, by hand.

Rivets of 6.4 mm want 12.8 mm to the edge in the flange and 19.2 in the laminate. Between centres the laminate
asks for most: 4 diameters, 25.6 mm. P1, P2 and P3 stand 52 mm apart in a row, F1 stands 24 mm beside P3;
57.3 mm from P2 it is a neighbour of it too, within 1.5 times 52.
"""

from __future__ import annotations

from typing import Any

from vectors.computations.writing import Json, case, group, points, q, v

RULES = "FAA AC 43.13-1B paragraph 4-57 for metal, laminate 3D and 4D from memory; distances are of the scene"
PLACES = [
    {"id": "p1", "at_mm": [0, 0, 0]},
    {"id": "p2", "at_mm": [0, 0, -52]},
    {"id": "p3", "at_mm": [0, 0, -104]},
    {"id": "f1", "at_mm": [24, 0, -104]},
]
GROUPS = [group("post", "P1", "P2", "P3"), group("foot", "F1")]
EDGES = {
    "rivet.edge_mm.flange.post": q(140, "mm", 1),
    "rivet.edge_mm.flange.foot": q(140, "mm", 1),
    "rivet.edge_mm.laminate.post": q(200, "mm", 1),
    "rivet.edge_mm.laminate.P3": q(190, "mm", 1),
    "rivet.edge_mm.laminate.foot": q(210, "mm", 1),
}
OWN = {"rivet.hole_min_mm": q(49, "mm", 1), "rivet.hole_max_mm": q(51, "mm", 1)}


def _layered(about: str, inputs: Json, counts: tuple[int, int, int, int], **more: Any) -> Json:
    """Holes of 5.00 and 6.00 mm, each round but for 0.05."""
    sizes = [value for _, value in inputs["largest"]["at"]]
    names = ("holes_used", "holes_opened", "holes_larger", "holes_to_maker")
    values = [
        v("largest", max(sizes), "mm", 2),
        v("smallest", min(sizes) - 5, "mm", 2),
        v("hole_from", 490, "mm", 2),
        v("hole_to", 510, "mm", 2),
        v("damaged", 0, "pcs"),
        *(v(name, count, "pcs") for name, count in zip(names, counts, strict=True)),
        *([v("rivet", 64, "mm", 1)] if counts[2] and not counts[3] else []),
    ]
    asked = {
        "nominal": q(48, "mm", 1),
        "ovality_allowed": q(10, "mm", 2),
        "ovality": q(5, "mm", 2),
        "next_size": q(64, "mm", 1),
    }
    facts = {**OWN, **EDGES, **more.pop("facts", {})}
    told = {"groups": GROUPS, "places": PLACES, "facts": facts, **more}
    return case(about, RULES, {**asked, **inputs}, values, "outside", **told)


NEEDS = [["layer_needs", "flange", 64, 1280, 1920], ["layer_needs", "laminate", 64, 1920, 2560]]
LAYERS = {
    "layers_the_worst_one_counts": _layered(
        "P1 has 14 and 20 mm and goes up; P3 has 19.0 of 19.2 in the laminate; F1 has 24 mm of 25.6 to P3.",
        {"largest": points("mm", 2, p1=600, p2=500, p3=600, f1=600)},
        (1, 0, 1, 2),
        said=[
            ["holes_edge_short", "p3"],
            ["holes_pitch_short", "f1"],
            ["holes_worn", "p1"],
            *NEEDS,
            ["neighbours_checked", "p1", "p2", 520, 2560],
            ["measure_room", "p1"],
            ["layer_short", "p3", "laminate", 190, 1920],
            ["neighbours_short", "f1", "p3", 240, 2560],
        ],
    ),
    "layers_an_edge_that_was_read_stands_above_the_drawing": _layered(
        "12.7 mm was read at P1, 0.1 too little; 12.8 at P2, on the minimum, and nothing more is to be read.",
        {"largest": points("mm", 2, p1=600, p2=600), "edge": points("mm", 1, p1=127, p2=128)},
        (0, 0, 1, 1),
        said=[
            ["holes_edge_short", "p1"],
            ["holes_worn", "p2"],
            *NEEDS,
            ["layer_short", "p1", "flange", 127, 1280],
            ["neighbours_checked", "p2", "p1", "p3", "f1", 520, 2560],
        ],
    ),
    "layers_a_dressed_edge_of_a_hole_that_keeps_its_size": _layered(
        "P2 is good, but its edge was dressed to 9.5 mm: its own 4.8 wants 9.6.",
        {"largest": points("mm", 2, p1=500, p2=500), "edge": points("mm", 1, p2=95)},
        (1, 0, 0, 1),
        said=[["holes_own_edge_short", "p2"], *NEEDS, ["layer_short", "p2", "flange", 95, 960]],
    ),
    "layers_the_makers_own_figures": _layered(
        "The maker asks 2.5 and 3 diameters in the laminate, 16.0 and 19.2 mm: P3 and F1 go up too.",
        {"largest": points("mm", 2, p3=600, f1=600), "edge": points("mm", 1, p3=140, f1=140)},
        (0, 0, 2, 0),
        facts={
            "rivet.least_diameters.laminate.edge": q(25, "", 1),
            "rivet.least_diameters.laminate.pitch": q(3, ""),
        },
        said=[
            ["holes_worn", "p3", "f1"],
            NEEDS[0],
            ["layer_needs", "laminate", 64, 1600, 1920],
            ["neighbours_checked", "p3", "f1", 240, 1920],
            ["neighbours_checked", "f1", "p3", 240, 1920],
        ],
    ),
    "layers_a_pitch_that_was_read": _layered(
        "25.5 mm was read beside P1, where the drawing has 52: 0.1 too little.",
        {"largest": points("mm", 2, p1=600), "pitch": points("mm", 1, p1=255)},
        (0, 0, 0, 1),
        said=[["holes_pitch_short", "p1"], *NEEDS, ["neighbours_short", "p1", "p2", 255, 2560]],
    ),
    "layers_one_without_a_figure_here": _layered(
        "Nobody gave the edge of the glass ply at the foot: F1 cannot go up before it is known.",
        {"largest": points("mm", 2, f1=600)},
        (0, 0, 0, 1),
        facts={"rivet.edge_mm.glass.post": q(200, "mm", 1)},
        said=[
            ["holes_room_unknown", "f1"],
            NEEDS[0],
            ["layer_needs", "glass", 64, 1920, 2560],
            NEEDS[1],
        ],
    ),
}
