"""Holes, the worst of all and each by itself: sums of whole hundredths, done by hand in `about`."""

from __future__ import annotations

from vectors.computations.scenes.hole_layers import LAYERS
from vectors.computations.writing import Json, case, points, q, v


def _holes(largest: int, ovality: int, **more: Json) -> Json:
    return {
        "largest": q(largest, "mm", 2),
        "ovality": q(ovality, "mm", 2),
        "edge": q(96, "mm", 1),
        "pitch": q(32, "mm"),
        "nominal": q(48, "mm", 1),
        "ovality_allowed": q(10, "mm", 2),
        **more,
    }


def _hole(largest: int, smallest: int, *more: Json, damaged: int = 0, to: int = 510) -> list[Json]:
    return [
        v("largest", largest, "mm", 2),
        v("smallest", smallest, "mm", 2),
        v("hole_from", 490, "mm", 2),
        v("hole_to", to, "mm", 2),
        v("damaged", damaged, "pcs"),
        *more,
    ]


FACTS = {"rivet.hole_min_mm": q(49, "mm", 1), "rivet.hole_max_mm": q(51, "mm", 1)}
RULES = "FAA AC 43.13-1B paragraph 4-57 b for going up a size; limits are the method's; by hand"
RIVET = v("rivet", 48, "mm", 1)
SIX = q(64, "mm", 1)
HOLES = {
    "used_as_it_is": case(
        "5.10 is the largest the method allows; ovality on its limit is good.",
        RULES,
        _holes(510, 10),
        _hole(510, 500, RIVET),
        "inside",
        facts=FACTS,
        lines=["reuse"],
    ),
    "oval_goes_to_the_maker": case(
        "0.11 mm oval with no larger rivet kept: the maker decides.",
        RULES,
        _holes(508, 11),
        _hole(508, 497),
        "outside",
        facts=FACTS,
        lines=["ask_maker"],
    ),
    "without_facts_the_usual_hole": case(
        "Without the method's own hole, nominal + 0.1 to + 0.2 mm (from memory): 5.10 is over.",
        RULES,
        _holes(510, 2),
        _hole(510, 508, to=500),
        "outside",
        lines=["ask_maker"],
    ),
    "under_its_range": case(
        "4.85 is under 4.90: opened to its own size.",
        RULES,
        _holes(488, 3),
        _hole(488, 485, RIVET, v("drill_to", 490, "mm", 2)),
        "outside",
        facts=FACTS,
        lines=["open_to_nominal"],
    ),
    "next_size_has_no_edge": case(
        "6.4 mm rivets want 12.8 mm to the edge and 19.2 mm between centres: the edge is 9.6.",
        RULES,
        _holes(600, 5, next_size=SIX),
        _hole(600, 595),
        "outside",
        facts=FACTS,
        lines=["ask_maker", "next_size_needs"],
    ),
    "next_size_fits": case(
        "13.0 mm to the edge, 32 mm pitch: 6.4 mm rivets, drilled to 6.5 mm.",
        RULES,
        {**_holes(600, 5, next_size=SIX), "edge": q(130, "mm", 1)},
        _hole(600, 595, v("rivet", 64, "mm", 1), v("drill_to", 650, "mm", 2)),
        "outside",
        facts=FACTS,
        lines=["next_size", "next_size_needs"],
    ),
    "a_damaged_hole_is_the_makers": case(
        "The figures are good, but P8 is marked damaged.",
        RULES,
        _holes(505, 5),
        _hole(505, 500, RIVET, damaged=1),
        "outside",
        facts=FACTS,
        damaged=["P8"],
        lines=["reuse", "damaged_holes"],
    ),
    "a_slip_of_the_point": case(
        "50.5 mm for 5.05: over twice the nominal is no hole of this rivet.",
        RULES,
        _holes(5050, 5),
        facts=FACTS,
        refused={"field": "largest", "code": "slip"},
    ),
}


def _counted(used: int, opened: int, larger: int, maker: int) -> list[Json]:
    names = ("holes_used", "holes_opened", "holes_larger", "holes_to_maker")
    return [v(name, count, "pcs") for name, count in zip(names, (used, opened, larger, maker), strict=True)]


def _at(name: str, decimals: int, **at: int) -> Json:
    return {name: points("mm", decimals, **at)}


BY_HOLE = {
    "hole_by_hole_all_used": case(
        "Two holes inside 4.90 to 5.10 and round enough.",
        RULES,
        {**_holes(0, 0), **_at("largest", 2, p1=505, p2=498), **_at("ovality", 2, p1=4, p2=6)},
        [*_hole(505, 492), *_counted(2, 0, 0, 0)],
        "inside",
        facts=FACTS,
        lines=[],
    ),
    "hole_by_hole_each_its_own": case(
        "P1 is good, P2 small (4.85), P3 oval by 0.15 with none larger kept. Worst together: 5.06 and 4.85.",
        RULES,
        {
            **_holes(0, 0),
            **_at("largest", 2, p1=500, p2=488, p3=506),
            **_at("ovality", 2, p1=5, p2=3, p3=15),
        },
        [*_hole(506, 485), *_counted(1, 1, 0, 1)],
        "outside",
        facts=FACTS,
        lines=["holes_smaller", "holes_none_kept"],
    ),
    "hole_by_hole_two_go_up": case(
        "6.00 mm at P1 and P3, 13.0 mm to the edge, 32 mm between: both take 6.4; P2 stays.",
        RULES,
        {
            **_holes(0, 0, next_size=SIX),
            **_at("largest", 2, p1=600, p2=500, p3=600),
            "ovality": q(5, "mm", 2),
            "edge": q(130, "mm", 1),
        },
        [*_hole(600, 495), *_counted(1, 0, 2, 0), v("rivet", 64, "mm", 1)],
        "outside",
        facts=FACTS,
        lines=["holes_worn", "next_size_needs"],
    ),
    "hole_by_hole_one_has_no_edge": case(
        "6.4 mm wants 12.8 mm to the edge: P1 has 13.0, P3 has 12.7 and waits for the maker.",
        RULES,
        {
            **_holes(0, 0, next_size=SIX),
            **_at("largest", 2, p1=600, p3=600),
            "ovality": q(5, "mm", 2),
            **_at("edge", 1, p1=130, p3=127),
        },
        [*_hole(600, 595), *_counted(0, 0, 1, 1)],
        "outside",
        facts=FACTS,
        lines=["holes_edge_short", "holes_worn", "next_size_needs", "layer_short"],
    ),
    "hole_by_hole_other_points": case(
        "The ovality of P2 was not read: nothing is assumed of it.",
        RULES,
        {**_holes(0, 0), **_at("largest", 2, p1=500, p2=500), **_at("ovality", 2, p1=5)},
        facts=FACTS,
        refused={"field": "ovality", "code": "other_points"},
    ),
}


def _crosswise(**more: Json) -> Json:
    """Two diameters at right angles in the place of size and ovality."""
    fixed = {name: one for name, one in _holes(0, 0).items() if name not in ("largest", "ovality")}
    return {**fixed, **more}


CROSSWISE = {
    "two_diameters_of_one_hole": case(
        "4.98 one way, 5.09 the other: the size is 5.09, the ovality 0.11, over 0.10; none larger is kept.",
        RULES,
        _crosswise(along=q(498, "mm", 2), across=q(509, "mm", 2)),
        _hole(509, 498),
        "outside",
        facts=FACTS,
        lines=["ask_maker"],
    ),
    "two_diameters_each_hole_its_own": case(
        "P1 4.99 and 5.01 is good, P2 4.88 and 4.85 small, P3 4.91 and 5.06 oval by 0.15: 5.06 and 4.85.",
        RULES,
        _crosswise(**_at("along", 2, p1=499, p2=488, p3=491), **_at("across", 2, p1=501, p2=485, p3=506)),
        [*_hole(506, 485), *_counted(1, 1, 0, 1)],
        "outside",
        facts=FACTS,
        lines=["holes_smaller", "holes_none_kept"],
    ),
    "two_diameters_alike_in_another_step": case(
        "5.1 and 5.10 are one size: round, and on the limit.",
        RULES,
        _crosswise(along=q(51, "mm", 1), across=q(510, "mm", 2)),
        [v("largest", 51, "mm", 1), *_hole(510, 510, RIVET)[1:]],
        "inside",
        facts=FACTS,
        lines=["reuse"],
    ),
    "two_diameters_one_not_read": case(
        "P2 was read one way only: nothing is assumed of the other.",
        RULES,
        _crosswise(**_at("along", 2, p1=500, p2=500), **_at("across", 2, p1=501)),
        facts=FACTS,
        refused={"field": "across", "code": "other_points"},
    ),
}
SCENES = {"hole_decision": {**HOLES, **BY_HOLE, **CROSSWISE, **LAYERS}}
