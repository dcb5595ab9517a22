"""Picks, pairs and pieces: counted by hand in `about`."""

from __future__ import annotations

from vectors.computations.writing import Json, case, chosen, earlier, group, lots, q, rivets, v, word

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


def _pairs(rivet: str, ply: Json, flange: str = "aluminium") -> Json:
    given = {
        "rivets": lots(("R-7", False, False)),
        "glass_ply": ply,
        "part": word("carbon_laminate"),
        "flange": word(flange),
    }
    return {**given, "rivet": word(rivet)} if rivet else given


NIU = "five groups after Niu, Airframe Structural Design (magnesium 1 to carbon 5); subtracted by hand"
SOUND, BROKEN = chosen("sound"), chosen("glass_ply_damaged", stop=True)


def _apart(part: int, flange: int, between: int = 3) -> list[Json]:
    return [
        v("rivet_part", part, "groups"),
        v("rivet_flange", flange, "groups"),
        v("part_flange", between, "groups"),
    ]


PAIRS = {
    "stainless_through_a_sound_ply": case(
        "Stainless 4, carbon 5, aluminium 2; the glass ply parts carbon and aluminium.",
        NIU,
        _pairs("stainless_steel", SOUND),
        _apart(1, 2),
        "inside",
        lines=["pair", "pair", "isolated"],
    ),
    "a_damaged_ply_lets_them_touch": case(
        "Carbon on aluminium is three groups apart: strong, wet or dry.",
        NIU,
        _pairs("stainless_steel", BROKEN),
        _apart(1, 2),
        "outside",
        lines=["pair", "pair", "pair"],
    ),
    "aluminium_through_carbon_is_the_makers": case(
        "An aluminium rivet through carbon wants the maker's word, whatever parts the sheets.",
        NIU,
        _pairs("aluminium", SOUND),
        _apart(3, 0),
        "outside",
        lines=["pair", "pair", "isolated", "maker_first"],
    ),
    "a_steel_rivet_in_carbon_is_a_small_anode": case(
        "Steel 3 in carbon 5: the rivet is the baser metal by two groups.",
        NIU,
        _pairs("steel", SOUND),
        _apart(2, 1),
        "outside",
        lines=["pair", "pair", "isolated", "small_anode"],
    ),
    "a_rivet_nobody_named": case(
        "Without the rivet's material its pairs are asked for, not guessed.",
        NIU,
        _pairs("", SOUND),
        [v("part_flange", 3, "groups")],
        "inside",
        lines=["rivet_unsaid", "isolated"],
    ),
    "without_a_ply_they_touch": case(
        "A joint without a glass ply has nothing between carbon and aluminium.",
        NIU,
        {name: one for name, one in _pairs("stainless_steel", SOUND).items() if name != "glass_ply"},
        _apart(1, 2),
        "outside",
    ),
    "a_material_without_a_group": case(
        "No group is known for it.",
        NIU,
        _pairs("stainless_steel", SOUND, flange="chewing_gum"),
        refused={"field": "flange", "code": "no_group"},
    ),
}


def _out(*each: tuple[str, int, str] | tuple[str, int, str, str], **tray: int) -> Json:
    counted = {name: q(value, "pcs") for name, value in tray.items()}
    return {"tallies": rivets("taking_out", *each), "positions": q(2, "pcs"), **counted}


Piece = tuple[list[Json], list[Json]]


def _piece(
    name: str, owed: int, taken: int, lost: int, counted: int | None = None
) -> tuple[list[Json], list[Json]]:
    figures = [
        v(f"owed_{name}", owed, "pieces"),
        v(f"taken_{name}", taken, "pieces"),
        v(f"lost_{name}", lost, "pieces"),
        v(f"difference_{name}", taken - owed, "pieces"),
    ]
    return figures, [] if counted is None else [v(f"counted_{name}", counted, "pieces")]


def _pieces(*each: Piece) -> list[Json]:
    return [one for figures, _ in each for one in figures] + [one for _, counted in each for one in counted]


TWO = [group("header", "H1", "H2")]
BOTH_OUT = (("H1", 0, "shank_out"), ("H2", 0, "shank_out"))
TALLY = {
    "every_piece_is_there": case(
        "Two rivets out, two of each piece in the tray.",
        COUNTED,
        _out(*BOTH_OUT, heads=2, mandrels=2, shanks=2),
        _pieces(*(_piece(name, 2, 2, 0, 2) for name in ("head", "mandrel", "shank"))),
        "inside",
        groups=TWO,
        lines=[],
    ),
    "a_lost_shank": case(
        "H2's shank fell in: two owed, one taken, one lost; the tray says one.",
        COUNTED,
        _out(BOTH_OUT[0], ("H2", 0, "shank_out", "shank"), heads=2, mandrels=2, shanks=1),
        _pieces(_piece("head", 2, 2, 0, 2), _piece("mandrel", 2, 2, 0, 2), _piece("shank", 2, 1, 1, 1)),
        "outside",
        groups=TWO,
        lines=["lost_shank"],
    ),
    "a_surplus_head_cancels_nothing": case(
        "Three heads and one shank in the tray where the map has two of each: both are said.",
        COUNTED,
        _out(*BOTH_OUT, heads=3, mandrels=2, shanks=1),
        _pieces(_piece("head", 2, 2, 0, 3), _piece("mandrel", 2, 2, 0, 2), _piece("shank", 2, 2, 0, 1)),
        "outside",
        groups=TWO,
        lines=["tray_differs_head", "tray_differs_shank"],
    ),
    "half_out": case(
        "H2's head is off and its shank still in: head and mandrel are in the tray, no rivet owes them.",
        COUNTED,
        {"tallies": rivets("taking_out", BOTH_OUT[0], ("H2", 0, "head_off"))},
        _pieces(_piece("head", 1, 2, 0), _piece("mandrel", 1, 2, 0), _piece("shank", 1, 1, 0)),
        "outside",
        groups=TWO,
        lines=["differs_head", "differs_mandrel"],
    ),
    "one_mandrel_for_each_rivet_set": case(
        "H2 was replaced: three rivets were set, three mandrels are spent.",
        COUNTED,
        {
            "tallies": rivets(
                "setting",
                ("H1", 0, "shank_out"),
                ("H1", 1, "set_and_checked"),
                ("H2", 1, "shank_out"),
                ("H2", 2, "set_and_checked"),
            ),
            "positions": q(2, "pcs"),
            "mandrels": q(3, "pcs"),
        },
        [
            v("positions", 2, "pcs"),
            v("owed_mandrel", 3, "pieces"),
            v("counted_mandrel", 3, "pieces"),
            v("difference_mandrel", 0, "pieces"),
        ],
        "inside",
        groups=TWO,
        lines=["replaced"],
    ),
    "a_mandrel_short_and_one_not_set": case(
        "H2 has only its hole checked; one rivet was set, no mandrel was found.",
        COUNTED,
        {
            "tallies": rivets("setting", ("H1", 1, "set"), ("H2", 1, "hole_checked")),
            "mandrels": q(0, "pcs"),
        },
        [
            v("positions", 2, "pcs"),
            v("owed_mandrel", 1, "pieces"),
            v("counted_mandrel", 0, "pieces"),
            v("difference_mandrel", -1, "pieces"),
        ],
        "outside",
        groups=TWO,
        lines=["not_set", "spent_differs"],
    ),
}
SCENES = {"pick_list": PICKS, "galvanic_pairs": PAIRS, "tally_reconciliation": TALLY}
