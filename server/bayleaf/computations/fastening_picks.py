"""Documents about what to take: trial rivets, pick list."""

from __future__ import annotations

from typing import Any

from bayleaf.computations import fastening_sources as src
from bayleaf.computations.fields import DIAMETER, flag, listed, mm, number, record, whole
from bayleaf.computations.shapes import Computation, Inputs, Outcome, Schema
from bayleaf.fastening import pick_list, trial_rivets


def _trial(asked: Inputs) -> Outcome:
    rule = trial_rivets.TrialRule(asked["trials_wanted"], asked["cut_open_wanted"], asked["largest_gap_mm"])
    faults = trial_rivets.trial_faults([trial_rivets.TrialRivet(**one) for one in asked["trials"]], rule)
    return Outcome({"good": not faults, "faults": faults})


def _pick_line(asked: Inputs) -> Outcome:
    return Outcome(_picked(asked["counted"], asked))


def _pick_list(asked: Inputs) -> Outcome:
    needs = [pick_list.Need(one["diameter_mm"], one["length_mm"], one["n"]) for one in asked["positions"]]
    lines = pick_list.lines_of(needs)
    same = [{"diameter_mm": one.diameter_mm, "length_mm": one.length_mm} for one in lines]
    counted = [{**line, "n": one.count} for line, one in zip(same, lines, strict=True)]
    picks = [
        {**line, **_picked(one.count, asked), **_larger(one.diameter_mm, asked)}
        for line, one in zip(same, lines, strict=True)
    ]
    return Outcome({"lines": counted, "picks": picks})


def _larger(diameter_mm: float, asked: Inputs) -> dict[str, Any]:
    """Which size the larger ones are of; null where the shop keeps none: nothing to pick then."""
    if "sizes_kept_mm" not in asked:
        return {}
    size = pick_list.next_size_mm(diameter_mm, asked["sizes_kept_mm"])
    none = {"oversize_to_pick": 0} if size is None else {}
    return {"oversize_diameter_mm": size, **none}


def _picked(count: int, asked: Inputs) -> dict[str, Any]:
    rule = pick_list.SpareRule(asked["spare_fraction"], asked["oversize_fraction"], asked["least_spares"])
    pick = pick_list.pick(count, rule)
    return {
        "spares": pick.spares,
        "nominal_to_pick": pick.nominal_to_pick,
        "oversize_to_pick": pick.oversize_to_pick,
    }


SPARES: dict[str, Schema] = {
    "spare_fraction": number("share to take as spares; common practice", low=0, high=1, default=0.10),
    "oversize_fraction": number("share in the next size up; common practice", low=0, high=1, default=0.05),
    "least_spares": whole("least of either for a line with a rivet; common practice", default=2),
}


TRIAL: Schema = record(
    "one trial rivet",
    {
        "gap_under_head_mm": mm("what a feeler found, mm", zero=True),
        "mandrel_locked_inside": flag("its mandrel broke inside and is locked"),
        "cut_open": flag("it was cut open"),
    },
    {"blind_head_formed": flag("cut open, its blind head was well formed")},
)

COMPUTATIONS = (
    Computation(
        "trial-rivets",
        "Trial rivets in a piece of the same stack-up: may the length be used?",
        trial_rivets.MODEL,
        (src.PRACTICE,),
        _trial,
        asks={"trials": listed("trials made", TRIAL, least=0)},
        may={
            "trials_wanted": whole("trials asked for; common practice", default=2),
            "cut_open_wanted": whole("of them cut open; common practice", default=1),
            "largest_gap_mm": number(
                "gap that is still seated, mm; common practice", low=0, high=1, default=0.05
            ),
        },
    ),
    Computation(
        "pick-line",
        "One line of the pick list: counted, spares, next size for worn holes",
        pick_list.MODEL,
        (f"{src.COUNTING}; rounding up line by line: {src.PRACTICE}",),
        _pick_line,
        asks={"counted": whole("rivets of the line")},
        may=SPARES,
    ),
    Computation(
        "pick-list",
        "Positions to lines of equal diameter and length, with spares and next sizes",
        pick_list.MODEL,
        (f"{src.COUNTING}; rounding up line by line: {src.PRACTICE}",),
        _pick_list,
        asks={
            "positions": listed(
                "rivets needed",
                record(
                    "so many of one kind",
                    {"diameter_mm": DIAMETER, "length_mm": mm("length, mm"), "n": whole("how many")},
                ),
            )
        },
        may={**SPARES, "sizes_kept_mm": listed("diameters that the shop has, mm", DIAMETER, least=0)},
    ),
)
