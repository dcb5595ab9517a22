"""Rivets to lay ready: counted by hand in `about`."""

from __future__ import annotations

from vectors.computations.writing import Json, case, earlier, group, q, v

COUNTED = "counted by hand"
GROUPS = [group("header", "H1", "H2"), group("post", "P1", "P2", "P3"), group("foot", "F1")]
RIVET = v("rivet", 48, "mm", 1)


def _picked(*, heads: int = 6, grip: str = "inside", holes: Json | None = None, spares: int = 10) -> Json:
    return {
        "positions": q(heads, "pcs"),
        "grip": earlier("grip", grip),
        "holes": holes or earlier("hole_decision", "inside", RIVET),
        "spares": q(spares, "%"),
        "least_spares": q(2, "pcs"),
    }


def _picks(spares: int, to_pick: int, *more: Json) -> list[Json]:
    by_group = [v(f"rivets_{one['id']}", len(one["positions"]), "pcs") for one in GROUPS]
    return [
        *by_group,
        v("counted", 6, "pcs"),
        v("spares", spares, "pcs"),
        v("to_pick", to_pick, "pcs"),
        *more,
    ]


def _by_length(verdict: str = "inside", /, **mm: int) -> Json:
    """A grip by rows: what each group has of `length_` or `chosen_`, in tenths of a millimetre."""
    values = [v(name, tenths, "mm", 1) for name, tenths in mm.items()]
    return earlier("grip", verdict, *values, v("lengths_offered", 3, "pcs"))


def _of(length: str, need: int, spare: int, lay: int) -> list[Json]:
    counts = {"need": need, "spare": spare, "lay": lay}
    return [v(f"{name}_{length}", count, "pcs") for name, count in counts.items()]


def _laid(*more: Json, spares: int, to_pick: int, trial: int = 0) -> list[Json]:
    by_group = [v(f"rivets_{one['id']}", len(one["positions"]), "pcs") for one in GROUPS]
    tried = [v("trial", trial, "pcs")] if trial else []
    sums = [v("counted", 6, "pcs"), v("spares", spares, "pcs"), *tried, v("to_pick", to_pick, "pcs")]
    return [*by_group, *more, *sums]


def _by_hole(larger: int, *more: Json) -> Json:
    """Every hole decided by itself: none is damaged or waits for the maker."""
    counts = {"damaged": 0, "holes_larger": larger, "holes_to_maker": 0}
    values = [v(name, count, "pcs") for name, count in counts.items()]
    return earlier("hole_decision", "outside", *values, *more)


WORN = earlier(
    "hole_decision",
    "outside",
    v("largest", 600, "mm", 2),
    v("smallest", 595, "mm", 2),
    v("hole_from", 490, "mm", 2),
    v("hole_to", 510, "mm", 2),
    v("damaged", 0, "pcs"),
    v("rivet", 64, "mm", 1),
    v("drill_to", 650, "mm", 2),
)
PICKS = {
    "at_least_two_spares": case(
        "10 % of 6 is 0.6, so 1; the least is 2: 8 to pick.",
        COUNTED,
        _picked(),
        _picks(2, 8),
        "inside",
        groups=GROUPS,
        lines=[],
    ),
    "a_share_is_rounded_up": case(
        "50 % of 6 is 3, 51 % is 3.06 and so 4: 10 to pick.",
        COUNTED,
        _picked(spares=51),
        _picks(4, 10),
        "inside",
        groups=GROUPS,
    ),
    "another_number_of_heads": case(
        "7 heads were found, the groups have 6 positions: something is not on the map.",
        COUNTED,
        _picked(heads=7),
        _picks(2, 8),
        "outside",
        groups=GROUPS,
        lines=["positions_differ"],
    ),
    "a_grip_that_is_not_held": case(
        "Rivets whose grip is not settled are not laid ready as if it were.",
        COUNTED,
        _picked(grip="outside"),
        _picks(2, 8),
        "outside",
        groups=GROUPS,
        lines=["grip_not_held"],
    ),
    "holes_at_the_makers": case(
        "The holes wait for the maker's word.",
        COUNTED,
        _picked(holes=earlier("hole_decision", "outside", v("damaged", 1, "pcs"))),
        _picks(2, 8),
        "outside",
        groups=GROUPS,
        lines=["holes_ask_maker"],
    ),
    "neither_spares_nor_holes_asked": case(
        "A method that asks for no spares gets none.",
        COUNTED,
        {"positions": q(6, "pcs"), "grip": earlier("grip", "inside")},
        _picks(0, 6),
        "inside",
        groups=GROUPS,
    ),
    "two_holes_go_up": case(
        "Decided hole by hole: two worn holes and two spares are 4 of the next size.",
        COUNTED,
        _picked(holes=_by_hole(2, v("rivet", 64, "mm", 1))),
        _picks(2, 8, v("larger", 4, "pcs")),
        "inside",
        groups=GROUPS,
        lines=["next_size"],
    ),
    "holes_that_are_only_opened": case(
        "Decided hole by hole: those that are opened to their own size take the same rivet.",
        COUNTED,
        _picked(holes=_by_hole(0)),
        _picks(2, 8),
        "inside",
        groups=GROUPS,
        lines=[],
    ),
    "the_next_size_beside": case(
        "One worn hole and two spares: 3 of the next size.",
        COUNTED,
        _picked(holes=WORN),
        _picks(2, 8, v("larger", 3, "pcs")),
        "inside",
        groups=GROUPS,
        lines=["next_size"],
    ),
}
TWELVE = {"length_header": 120, "length_post": 120}
LENGTHS = {
    "each_length_has_its_spares": case(
        "12 mm at header and post: 5 and 2 to spare. 14 mm at the foot: 1 and 2 to spare.",
        COUNTED,
        {**_picked(), "grip": _by_length(**TWELVE, length_foot=140)},
        _laid(*_of("12mm", 5, 2, 7), *_of("14mm", 1, 2, 3), spares=4, to_pick=10),
        "inside",
        groups=GROUPS,
        lines=[],
    ),
    "a_length_that_a_person_chose": case(
        "The header's grip lay over two rows; 10 mm was chosen: 2 of them, 3 of 12 mm and 1 of 14 mm.",
        COUNTED,
        {
            **_picked(),
            "grip": _by_length("outside", length_post=120, length_foot=140, chosen_header=100),
        },
        _laid(*_of("10mm", 2, 2, 4), *_of("12mm", 3, 2, 5), *_of("14mm", 1, 2, 3), spares=6, to_pick=12),
        "inside",
        groups=GROUPS,
        lines=["length_chosen"],
    ),
    "a_length_that_nobody_chose": case(
        "The post stands on a border and nobody chose: its 3 and their 2 spares are of no length yet.",
        COUNTED,
        {**_picked(), "grip": _by_length(length_header=120, length_foot=140)},
        _laid(*_of("12mm", 2, 2, 4), *_of("14mm", 1, 2, 3), spares=6, to_pick=12),
        "outside",
        groups=GROUPS,
        lines=["length_open"],
    ),
    "no_group_has_a_length": case(
        "All three on a border, none chosen: a verdict inside does not settle them.",
        COUNTED,
        {**_picked(), "grip": _by_length()},
        _laid(spares=2, to_pick=8),
        "outside",
        groups=GROUPS,
        lines=["length_open"],
    ),
    "trial_rivets_of_each_length": case(
        "Two for trial of each length: 5 + 2 + 2 of 12 mm, 1 + 2 + 2 of 12.5 mm.",
        COUNTED,
        {
            **_picked(),
            "grip": _by_length(**TWELVE, length_foot=125),
            "trial": q(2, "pcs"),
        },
        _laid(*_of("12mm", 5, 2, 9), *_of("12_5mm", 1, 2, 5), spares=4, trial=4, to_pick=14),
        "inside",
        groups=GROUPS,
        lines=[],
    ),
    "shares_are_rounded_up_length_by_length": case(
        "50 % of 5 is 2.5, so 3; of 1 it is 0.5, so 1, and the least is 2: 5 spares, not 3.",
        COUNTED,
        {**_picked(spares=50), "grip": _by_length(**TWELVE, length_foot=140)},
        _laid(*_of("12mm", 5, 3, 8), *_of("14mm", 1, 2, 3), spares=5, to_pick=11),
        "inside",
        groups=GROUPS,
        lines=[],
    ),
}
SCENES = {"pick_list": {**PICKS, **LENGTHS}}
