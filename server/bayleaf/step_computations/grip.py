"""Grip of each group from its measured stack-up, and whether the rivet at hand holds all of it.

Laminate of the group, bondline (mean, and from the thinnest to the thickest gap) and flange. A group with a
bed of its own, `<group>_bed`, takes that for the bondline. A grip on a border of the range, or one that the
gaps carry over it, asks: a person chooses, with a reason.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bayleaf.fastening import grip as fastening
from bayleaf.step_computations.figures import figure, finest, is_over, number_of, steps_of
from bayleaf.step_computations.inputs import Quantity
from bayleaf.step_computations.lots import lot_lines
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value

Stand = Literal["held", "border", "spans", "no_fit"]


@dataclass(frozen=True, slots=True)
class _Grip:
    """One group's grip: as measured, and from its thinnest to its thickest; mm."""

    group: str
    mean: Value
    low: Value
    high: Value


def grip(question: Question) -> Answer:
    """Grip of every group against `grip_from` to `grip_to`, limits included, in hundredths."""
    grips = [_grip_of(question, group.id) for group in question.groups]
    if not grips:
        raise Unanswerable("groups", "not_there")
    first, last = question.quantity("grip_from"), question.quantity("grip_to")
    stands = {one.group: _stand(one, first, last) for one in grips}
    limits = tuple(
        Value(name, one.value, one.unit, one.decimals) for name, one in (("from", first), ("to", last))
    )
    lines = [
        Line(f"grip_{stand}", "stop" if stand == "no_fit" else "ask", tuple(at), limits)
        for stand in ("no_fit", "spans", "border")
        if (at := [group for group, found in stands.items() if found == stand])
    ]
    outside = any(stand in ("no_fit", "spans") for stand in stands.values())
    return Answer(
        fastening.MODEL,
        tuple(value for one in grips for value in (one.mean, one.low, one.high)),
        "outside" if outside else "inside",
        (*lines, *lot_lines(question, "rivets")),
        ("grip_rows",),
    )


def _grip_of(question: Question, group: str) -> _Grip:
    laminate = question.points("laminate").quantities().get(group)
    if laminate is None:
        raise Unanswerable("laminate", "no_group_point")
    flange = question.quantity("flange")
    bed = question.find(f"{group}_bed", Quantity)
    between = [bed] if bed is not None else list(question.points("bondline").quantities().values())
    decimals = finest((laminate, flange, *between))
    metal_and_laminate = steps_of(laminate, decimals) + steps_of(flange, decimals)
    steps = [steps_of(one, decimals) for one in between]
    mean = (metal_and_laminate + sum(steps) / len(steps)) / 10**decimals
    low, high = (Value("", metal_and_laminate + one, "mm", decimals) for one in (min(steps), max(steps)))
    return _Grip(
        group,
        figure(f"grip_{group}", mean, "mm", 2),
        figure(f"grip_low_{group}", number_of(low), "mm", 2),
        figure(f"grip_high_{group}", number_of(high), "mm", 2),
    )


def _stand(one: _Grip, first: Quantity, last: Quantity) -> Stand:
    if is_over(first, one.high) or is_over(one.low, last):
        return "no_fit"
    if is_over(first, one.low) or is_over(one.high, last):
        return "spans"
    on_border = any(not is_over(one.mean, end) and not is_over(end, one.mean) for end in (first, last))
    return "border" if on_border else "held"
