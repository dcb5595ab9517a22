"""Rows of rivet lengths on a supplier's sheet: what is wrong with each at its field; sound ones, scaled."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from bayleaf.domain.asks import RivetRow
from bayleaf.fastening.rivet_tables import WrittenRow, slips_in
from bayleaf.step_computations.inputs import RivetTable
from bayleaf.step_computations.sheets import FIGURES, LENGTH, RANGE, Figure
from bayleaf.usecases.sheet_faults import NUMBER, SheetFault, TypedFigure

GROUP = "rivets"
UNIT = "mm"
_GRIP = next(one for one in FIGURES[GROUP] if one.name == RANGE[0])
PARTS: tuple[tuple[str, Figure], ...] = (("length", LENGTH), ("low", _GRIP), ("high", _GRIP))
FIELDS = {"length": "length", "grip_from": "low", "grip_to": "high"}


@dataclass(frozen=True, slots=True)
class TypedRow:
    """A length and the grips that it is for, as they were typed; `part` may be empty."""

    length: str
    low: str
    high: str
    part: str


def row_faults(group: str, rows: Sequence[TypedRow], figures: Sequence[TypedFigure]) -> list[SheetFault]:
    """All of them, row by row; what the rows say is not said once more as one range."""
    if not rows:
        return []
    if group != GROUP:
        return [SheetFault("rows", f"found rows of lengths, allowed for {GROUP} alone.")]
    twice = [
        SheetFault(
            f"values.{one.name}.value", "found beside rows, allowed is one of the two: the rows say it."
        )
        for one in figures
        if one.name in RANGE
    ]
    single = [fault for at, row in enumerate(rows) for fault in _of_one(at, row)]
    return [*twice, *single] or list(_slips(rows))


def scaled_table(rows: Sequence[TypedRow]) -> RivetTable | None:
    """Sound rows as whole numbers of their finest decimals; None where there is none."""
    if not rows:
        return None
    texts = [text for row in rows for text in (row.length, row.low, row.high)]
    decimals = max(len(text.partition(".")[2]) for text in texts)

    def steps(text: str) -> int:
        return int(Decimal(text).scaleb(decimals))

    scaled = (RivetRow(steps(one.length), steps(one.low), steps(one.high), one.part) for one in rows)
    return RivetTable(tuple(scaled), UNIT, decimals)


def _of_one(at: int, row: TypedRow) -> Iterator[SheetFault]:
    for part, known in PARTS:
        text = getattr(row, part)
        if NUMBER.fullmatch(text) is None:
            said = f'found "{text[:20]}", allowed is a number such as 12 or 6.5 with a point.'
            yield SheetFault(_at(at, part), said)
        elif not Decimal(str(known.least)) <= Decimal(text) <= Decimal(str(known.most)):
            allowed = f"allowed is {known.least:g} to {known.most:g} {UNIT}"
            yield SheetFault(_at(at, part), f"found {text} {UNIT}, {allowed}.")


def _slips(rows: Sequence[TypedRow]) -> Iterator[SheetFault]:
    written = [WrittenRow(*(Decimal(text) for text in (row.length, row.low, row.high))) for row in rows]
    for slip in slips_in(written):
        yield SheetFault(_at(slip.row, FIELDS[slip.member]), f"found {slip.found}, needed is {slip.needed}.")


def _at(row: int, part: str) -> str:
    return f"rows.{row}.{part}"
