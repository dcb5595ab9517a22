"""Grip of each group from its measured stack-up, and the rivet length whose row holds all of it.

Laminate of the group, bondline (mean, and from the thinnest to the thickest gap) and flange. A group with a
bed of its own, `<group>_bed`, takes that for the bondline. A grip on a border of rows, one that several rows
hold, or one that the gaps carry over two rows, asks: a person chooses, with a reason.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from bayleaf.domain.asks import RivetRow
from bayleaf.fastening import grip as fastening
from bayleaf.step_computations.figures import figure, finest, number_of, steps_of
from bayleaf.step_computations.inputs import Quantity, RivetTable
from bayleaf.step_computations.lots import lot_lines
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.rivet_lengths import (
    Grip,
    Standing,
    around,
    has_lengths,
    named,
    standing_of,
    table_of,
)
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value

ASKING: Final = ("no_fit", "spans", "border", "several")
OUTSIDE: Final = ("no_fit", "spans")


def grip(question: Question) -> Answer:
    """Grip of every group against the rows of `lengths`, or `grip_from` to `grip_to`, in hundredths."""
    grips = [_grip_of(question, group.id) for group in question.groups]
    if not grips:
        raise Unanswerable("groups", "not_there")
    table = table_of(question)
    standings = [standing_of(one, table) for one in grips]
    values = [value for one in standings for value in _figures(one, table)]
    if has_lengths(table):
        values.append(Value("lengths_offered", len(table.rows), "pcs", 0))
    return Answer(
        fastening.MODEL,
        tuple(values),
        "outside" if any(one.stand in OUTSIDE for one in standings) else "inside",
        (*_lines(standings, table), *lot_lines(question, "rivets")),
        ("grip_rows",),
    )


def _figures(one: Standing, table: RivetTable) -> Iterator[Value]:
    yield from (one.grip.mean, one.grip.low, one.grip.high)
    if one.stand == "held" and has_lengths(table):
        yield named(f"length_{one.grip.group}", one.rows[0].length, table)


def _grip_of(question: Question, group: str) -> Grip:
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
    return Grip(
        group,
        figure(f"grip_{group}", mean, "mm", 2),
        figure(f"grip_low_{group}", number_of(low), "mm", 2),
        figure(f"grip_high_{group}", number_of(high), "mm", 2),
    )


def _lines(standings: Sequence[Standing], table: RivetTable) -> Iterator[Line]:
    """What asks or stops: a line for those groups that stand alike before the same rows."""
    about = "length" if has_lengths(table) else "grip"
    for stand in ASKING:
        alike: dict[tuple[Value, ...], list[str]] = {}
        for one in standings:
            if one.stand == stand:
                alike.setdefault(_said(one, table), []).append(one.grip.group)
        for values, at in alike.items():
            yield Line(f"{about}_{stand}", "stop" if stand == "no_fit" else "ask", tuple(at), values)


def _said(one: Standing, table: RivetTable) -> tuple[Value, ...]:
    """No fit: the ends of the table. Else the rows to choose from; of a range without a length its ends."""
    if one.stand == "no_fit" or not has_lengths(table):
        return tuple(around(one.grip, table))
    return tuple(_lengths(one.rows, table))


def _lengths(rows: Sequence[RivetRow], table: RivetTable) -> Iterator[Value]:
    for place, row in enumerate(rows, start=1):
        yield named(f"length_{place}", row.length, table)
        yield named(f"from_{place}", row.low, table)
        yield named(f"to_{place}", row.high, table)
