"""Edges and grip: sums of whole hundredths, done by hand in `about`."""

from __future__ import annotations

from vectors.computations.writing import Json, case, group, lots, points, q, v

AC = "FAA AC 43.13-1B chapter 4, solid rivets in metal sheet: 2 diameters to the edge; multiplied by hand"
LAMINATE = "composite aircraft practice, 3 diameters to the edge, from memory; multiplied by hand"
BY_HAND = "sums of whole hundredths by hand"
COUNTED = "counted by hand"
GROUPS = [group("header", "H1", "H2"), group("post", "P1", "P2", "P3"), group("foot", "F1")]


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


def _grip(laminate: Json, room: Json, rivet: tuple[str, bool, bool] = ("R-7", False, False)) -> Json:
    return {
        "rivets": lots(rivet),
        "laminate": laminate,
        "bondline": room,
        "foot_bed": q(12, "mm", 1),
        "flange": q(300, "mm", 2),
        "grip_from": q(65, "mm", 1),
        "grip_to": q(85, "mm", 1),
    }


def _grips(**each: tuple[int, int, int]) -> list[Json]:
    return [
        v(f"grip_{part}{name}", value, "mm", 2)
        for name, found in each.items()
        for part, value in zip(("", "low_", "high_"), found, strict=True)
    ]


ROOM = points("mm", 2, a=110, b=120, c=130)
GRIP = {
    "held_with_room": case(
        "3.20 + 3.00 + 1.10 / 1.20 / 1.30 = 7.30 / 7.40 / 7.50; the foot lies on its 1.2 mm bed: 7.40.",
        BY_HAND,
        _grip(points("mm", 2, header=320, post=320, foot=320), ROOM),
        _grips(header=(740, 730, 750), post=(740, 730, 750), foot=(740, 740, 740)),
        "inside",
        groups=GROUPS,
        lines=[],
    ),
    "on_the_border": case(
        "2.30 + 3.00 + 1.20 = 6.50, the lower end of the range: held, and asked.",
        BY_HAND,
        _grip(points("mm", 2, header=230, post=320, foot=320), points("mm", 2, a=120, b=120)),
        _grips(header=(650, 650, 650), post=(740, 740, 740), foot=(740, 740, 740)),
        "inside",
        groups=GROUPS,
        lines=["grip_border"],
    ),
    "the_gaps_carry_it_over": case(
        "3.60 + 3.00 + 1.20 / 1.50 / 1.95: mean 1.55, so 8.15, and 8.55 at the widest gap, over 8.50.",
        BY_HAND,
        _grip(
            points("mm", 2, header=360, post=320, foot=320),
            points("mm", 2, a=120, b=150, c=195),
        ),
        _grips(header=(815, 780, 855), post=(775, 740, 815), foot=(740, 740, 740)),
        "outside",
        groups=GROUPS,
        lines=["grip_spans"],
    ),
    "no_fit": case(
        "2.00 + 3.00 + 1.20 = 6.20, and 6.30 at most: under 6.50 all over.",
        BY_HAND,
        _grip(points("mm", 2, header=320, post=200, foot=320), points("mm", 2, a=110, b=130)),
        _grips(header=(740, 730, 750), post=(620, 610, 630), foot=(740, 740, 740)),
        "outside",
        groups=GROUPS,
        lines=["grip_no_fit"],
    ),
    "a_mean_on_a_half": case(
        "Gaps 1.10 and 1.21: mean 1.155; 6.20 + 1.155 = 7.355 is 7.36, half away from zero.",
        BY_HAND,
        _grip(points("mm", 2, header=320, post=320, foot=320), points("mm", 2, a=110, b=121)),
        _grips(header=(736, 730, 741), post=(736, 730, 741), foot=(740, 740, 740)),
        "inside",
        groups=GROUPS,
    ),
    "an_expired_lot_is_noticed": case(
        "The figures stand; that the rivets' lot is past its date is said beside them.",
        BY_HAND,
        _grip(points("mm", 2, header=320, post=320, foot=320), ROOM, rivet=("R-1", False, True)),
        _grips(header=(740, 730, 750), post=(740, 730, 750), foot=(740, 740, 740)),
        "inside",
        groups=GROUPS,
        lines=["lot_expired"],
    ),
    "a_group_without_a_point": case(
        "Nobody measured the laminate of the post.",
        BY_HAND,
        _grip(points("mm", 2, header=320, foot=320), ROOM),
        groups=GROUPS,
        refused={"field": "laminate", "code": "no_group_point"},
    ),
}
SCENES = {"edge_distance": EDGE, "grip": GRIP}
