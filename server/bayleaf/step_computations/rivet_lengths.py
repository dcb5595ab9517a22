"""Where a measured grip lies in a table of rivet lengths: in one row, on a border, over two rows, in none.

A length must hold the whole grip, from its thinnest to its thickest, limits included (common practice, no
source); the span of the whole table decides nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from bayleaf.domain.asks import RivetRow
from bayleaf.step_computations.figures import finest, is_over, steps_of
from bayleaf.step_computations.inputs import Quantity, RivetTable
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Value

Stand = Literal["held", "border", "several", "spans", "no_fit"]


@dataclass(frozen=True, slots=True)
class Grip:
    """One group's grip: as measured, and from its thinnest to its thickest; mm."""

    group: str
    mean: Value
    low: Value
    high: Value


@dataclass(frozen=True, slots=True)
class Standing:
    """How a grip stands in a table: the row that holds it, or those to choose from."""

    grip: Grip
    stand: Stand
    rows: tuple[RivetRow, ...]


def table_of(question: Question) -> RivetTable:
    """The table of the question, else the one range that it gives."""
    table = question.find("lengths", RivetTable)
    if table is not None:
        return table
    return one_row(question.quantity("grip_from"), question.quantity("grip_to"))


def one_row(first: Quantity, last: Quantity) -> RivetTable:
    """The range of one rivet whose length nobody named."""
    decimals = finest((first, last))
    row = RivetRow(0, steps_of(first, decimals), steps_of(last, decimals))
    return RivetTable((row,), first.unit, decimals)


def has_lengths(table: RivetTable) -> bool:
    """Whether the table says which rivet it is, or only what one rivet holds."""
    return all(row.length > 0 for row in table.rows)


def standing_of(grip: Grip, table: RivetTable) -> Standing:
    """Row by row; a border counts for the grip as measured, everything else for all of it."""
    touched = tuple(
        row
        for row in table.rows
        if not is_over(_low(table, row), grip.high) and not is_over(grip.low, _high(table, row))
    )
    if not touched:
        return Standing(grip, "no_fit", ())
    holding = tuple(
        row
        for row in touched
        if not is_over(_low(table, row), grip.low) and not is_over(grip.high, _high(table, row))
    )
    if not holding:
        return Standing(grip, "spans", touched)
    if any(_is_same(grip.mean, end) for row in touched for end in (_low(table, row), _high(table, row))):
        return Standing(grip, "border", touched)
    return Standing(grip, "held" if len(holding) == 1 else "several", holding)


def around(grip: Grip, table: RivetTable) -> Iterator[Value]:
    """The ends of the table; and of the gap between two rows, where the grip lies in one."""
    yield named("from", min(row.low for row in table.rows), table)
    yield named("to", max(row.high for row in table.rows), table)
    under = [row.high for row in table.rows if is_over(grip.low, _high(table, row))]
    over = [row.low for row in table.rows if is_over(_low(table, row), grip.high)]
    if under and over:
        yield named("gap_from", max(under), table)
        yield named("gap_to", min(over), table)


def named(name: str, steps: int, table: RivetTable) -> Value:
    """A figure of the table, as it stands there."""
    return Value(name, steps, table.unit, table.decimals)


def _low(table: RivetTable, row: RivetRow) -> Quantity:
    return Quantity(row.low, table.unit, table.decimals)


def _high(table: RivetTable, row: RivetRow) -> Quantity:
    return Quantity(row.high, table.unit, table.decimals)


def _is_same(first: Value, second: Quantity) -> bool:
    return not is_over(first, second) and not is_over(second, first)
