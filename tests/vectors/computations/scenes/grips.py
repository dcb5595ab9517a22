"""Grips against one range and against rows of lengths: sums of whole hundredths, done by hand in `about`."""

from __future__ import annotations

from vectors.computations.writing import Json, case, group, lots, points, q, table, v

BY_HAND = "sums of whole hundredths by hand"
ISO = "ISO 15981:2002, clause 3, rivet lengths and recommended grip ranges; sums by hand"
GROUPS = [group("header", "H1", "H2"), group("post", "P1", "P2", "P3"), group("foot", "F1")]


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
RANGES = {
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

ROWS = table("mm", 1, (100, 45, 65, "48-10"), (120, 65, 85, "48-12"), (140, 85, 105, "48-14"))
# ISO 15981:2002, the column of 4.8 mm, from 8 mm of length on.
ISO_ROWS = table("mm", 1, (80, 25, 40), (100, 40, 60), (120, 60, 80), (160, 80, 120), (200, 120, 150))
EVEN = points("mm", 2, a=120, b=120)


def _rows(laminate: tuple[int, int, int], room: Json = ROOM, rows: Json = ROWS, bed: int = 30) -> Json:
    header, post, foot = laminate
    return {
        "laminate": points("mm", 2, header=header, post=post, foot=foot),
        "bondline": room,
        "foot_bed": q(bed, "mm", 1),
        "flange": q(300, "mm", 2),
        "lengths": rows,
    }


def _lengths(grips: list[Json], offered: int = 3, **length: int) -> list[Json]:
    """Behind each group's grip its length, where it has one; then how many the table has."""
    values: list[Json] = []
    for one in grips:
        values.append(one)
        group = one["name"].removeprefix("grip_high_")
        if group in length:
            values.append(v(f"length_{group}", length[group], "mm", 1))
    return [*values, v("lengths_offered", offered, "pcs")]


FOOT = (920, 920, 920)
LENGTHS = {
    "each_group_has_its_row": case(
        "7.30 to 7.50 lie in 6.5 to 8.5: 12 mm. The foot, 3.20 + 3.00 + its bed of 3.0 = 9.20: 14 mm.",
        BY_HAND,
        _rows((320, 320, 320)),
        _lengths(
            _grips(header=(740, 730, 750), post=(740, 730, 750), foot=FOOT),
            header=120,
            post=120,
            foot=140,
        ),
        "inside",
        groups=GROUPS,
        lines=[],
    ),
    "on_the_border_of_two_rows": case(
        "2.30 + 3.00 + 1.20 = 6.50: 10 mm ends there, 12 mm begins there. Asked, and no length given.",
        BY_HAND,
        _rows((320, 230, 320), EVEN),
        _lengths(_grips(header=(740, 740, 740), post=(650, 650, 650), foot=FOOT), header=120, foot=140),
        "inside",
        groups=GROUPS,
        lines=["length_border"],
    ),
    "two_borders_are_two_questions": case(
        "2.30 + 3.00 + 1.20 = 6.50 and 4.30 + 3.00 + 1.20 = 8.50: between 10 and 12, and between 12 and 14.",
        BY_HAND,
        _rows((230, 430, 320), EVEN),
        _lengths(_grips(header=(650, 650, 650), post=(850, 850, 850), foot=FOOT), foot=140),
        "inside",
        groups=GROUPS,
        lines=["length_border", "length_border"],
    ),
    "the_end_of_the_table_is_a_border_too": case(
        "4.50 + 3.00 + the foot's bed of 3.0 = 10.50, the last that 14 mm holds.",
        BY_HAND,
        _rows((320, 320, 450), EVEN),
        _lengths(
            _grips(header=(740, 740, 740), post=(740, 740, 740), foot=(1050, 1050, 1050)),
            header=120,
            post=120,
        ),
        "inside",
        groups=GROUPS,
        lines=["length_border"],
    ),
    "the_gaps_carry_it_over_two_rows": case(
        "3.60 + 3.00 + 1.20 / 1.55 / 1.95 = 7.80 / 8.15 / 8.55: part in 12 mm's row, part in 14 mm's.",
        BY_HAND,
        _rows((360, 320, 320), points("mm", 2, a=120, b=150, c=195)),
        _lengths(_grips(header=(815, 780, 855), post=(775, 740, 815), foot=FOOT), post=120, foot=140),
        "outside",
        groups=GROUPS,
        lines=["length_spans"],
    ),
    "the_thickest_on_a_limit_is_held": case(
        "4.10 + 3.00 + 1.20 / 1.30 / 1.40 = 8.30 / 8.40 / 8.50: all of it in 12 mm's row, end included.",
        BY_HAND,
        _rows((410, 410, 320), points("mm", 2, a=120, b=130, c=140)),
        _lengths(
            _grips(header=(840, 830, 850), post=(840, 830, 850), foot=FOOT),
            header=120,
            post=120,
            foot=140,
        ),
        "inside",
        groups=GROUPS,
        lines=[],
    ),
    "a_hundredth_over_the_limit_is_two_rows": case(
        "4.11 + 3.00 + 1.40 = 8.51 at the widest gap: a hundredth into the next row.",
        BY_HAND,
        _rows((410, 411, 320), points("mm", 2, a=120, b=130, c=140)),
        _lengths(_grips(header=(840, 830, 850), post=(841, 831, 851), foot=FOOT), header=120, foot=140),
        "outside",
        groups=GROUPS,
        lines=["length_spans"],
    ),
    "over_every_row": case(
        "8.00 + 3.00 + 1.10 to 1.30: 12.10 to 12.30, and the table ends at 10.5.",
        BY_HAND,
        _rows((320, 800, 320)),
        _lengths(_grips(header=(740, 730, 750), post=(1220, 1210, 1230), foot=FOOT), header=120, foot=140),
        "outside",
        groups=GROUPS,
        lines=["length_no_fit"],
    ),
    "in_a_gap_between_rows_no_rivet_holds": case(
        "2.60 + 3.00 + 1.10 to 1.30 = 6.70 to 6.90: 10 mm ends at 6.5, 12 mm begins at 7.0.",
        BY_HAND,
        _rows((320, 260, 320), rows=table("mm", 1, (100, 45, 65), (120, 70, 95))),
        _lengths(
            _grips(header=(740, 730, 750), post=(680, 670, 690), foot=FOOT),
            2,
            header=120,
            foot=120,
        ),
        "outside",
        groups=GROUPS,
        lines=["length_no_fit"],
    ),
    "rows_that_overlap_ask": case(
        "7.30 to 7.50 lie in 6.5 to 8.5 and in 7.0 to 10.5: both hold it, a person chooses.",
        BY_HAND,
        _rows((320, 320, 320), rows=table("mm", 1, (120, 65, 85), (140, 70, 105))),
        _lengths(_grips(header=(740, 730, 750), post=(740, 730, 750), foot=FOOT), 2, foot=140),
        "inside",
        groups=GROUPS,
        lines=["length_several"],
    ),
    "rows_of_the_standard": case(
        "4.8 mm: 7.40 in 6 to 8 is 12 mm; 8.20 in 8 to 12 is 16 mm, and so is the foot's 9.20.",
        ISO,
        _rows((320, 400, 320), EVEN, ISO_ROWS),
        _lengths(
            _grips(header=(740, 740, 740), post=(820, 820, 820), foot=FOOT),
            5,
            header=120,
            post=160,
            foot=160,
        ),
        "inside",
        groups=GROUPS,
        lines=[],
    ),
    "a_border_of_the_standard": case(
        "3.80 + 3.00 + 1.20 = 8.00: 12 mm ends there, 16 mm begins there.",
        ISO,
        _rows((380, 320, 320), EVEN, ISO_ROWS),
        _lengths(_grips(header=(800, 800, 800), post=(740, 740, 740), foot=FOOT), 5, post=120, foot=160),
        "inside",
        groups=GROUPS,
        lines=["length_border"],
    ),
    "a_range_without_a_length_is_one_rivet": case(
        "A sheet that gives one range and no length: held or not, and no length to lay ready.",
        BY_HAND,
        _rows((320, 320, 320), rows=table("mm", 2, (0, 600, 700)), bed=5),
        _grips(header=(740, 730, 750), post=(740, 730, 750), foot=(670, 670, 670)),
        "outside",
        groups=GROUPS,
        lines=["grip_no_fit"],
    ),
}
SCENES = {"grip": {**RANGES, **LENGTHS}}
