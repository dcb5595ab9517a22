"""Pieces of rivets, taken out and set: counted by hand in `about`."""

from __future__ import annotations

from vectors.computations.writing import Json, case, group, q, rivets, v

COUNTED = "counted by hand"


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
SCENES = {"tally_reconciliation": TALLY}
