"""Figures of suppliers' sheets in the place of the method's own fixed figures.

The twin of the phone's `sheet_inputs.ts`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from bayleaf.domain.asks import ComputeAsk, LotAsk
from bayleaf.step_computations.inputs import Quantity, RivetTable
from bayleaf.step_computations.record import Record
from bayleaf.step_computations.rivet_lengths import one_row
from bayleaf.step_computations.sheets import FACTS, RANGE, TABLES, TAKES, MaterialSheet, SheetValue, sheet_of


@dataclass(frozen=True, slots=True)
class FromSheets:
    """Inputs and facts by their names, the inputs that a table makes idle, and the digests of the sheets."""

    inputs: Mapping[str, Quantity | RivetTable]
    facts: Mapping[str, Quantity]
    instead_of: tuple[str, ...]
    digests: tuple[str, ...]


def from_sheets(record: Record, ask: ComputeAsk) -> FromSheets:
    """What the sheets in use say to an ask; only what the method gives as a fixed figure is replaced."""
    fixed = {one.name: one.unit for one in ask.inputs if one.value is not None}
    inputs = {
        name: found
        for name, found in _found(record, ask, TAKES)
        if name in fixed and found[1].unit == fixed[name]
    }
    facts = dict(_found(record, ask, FACTS))
    used = {sheet.digest for sheet, _ in (*inputs.values(), *facts.values())}
    tables = dict(_tables(record, ask))
    used |= {sheet.digest for sheet, _ in tables.values()}
    return FromSheets(
        {**_quantities(inputs), **{name: table for name, (_, table) in tables.items()}},
        _quantities(facts),
        RANGE if tables else (),
        tuple(sorted(used)),
    )


Found = tuple[MaterialSheet, SheetValue]


def _tables(record: Record, ask: ComputeAsk) -> Iterator[tuple[str, tuple[MaterialSheet, RivetTable]]]:
    """A sheet's rows in the place of the method's rows or range; its one range in the place of rows."""
    if ask.computation not in TABLES:
        return
    name, role = TABLES[ask.computation]
    sheet = sheet_of(record.sheets, _material(record, ask, role))
    has_rows = any(one.name == name and one.rows for one in ask.inputs)
    has_range = all(any(one.name == end and one.value is not None for one in ask.inputs) for end in RANGE)
    if sheet is None or not (has_rows or has_range):
        return
    table = sheet.table or (_one_row(sheet) if has_rows else None)
    if table is not None:
        yield name, (sheet, table)


def _one_row(sheet: MaterialSheet) -> RivetTable | None:
    """The one range of a sheet that names no length."""
    first, last = (sheet.figure(name) for name in RANGE)
    return None if first is None or last is None else one_row(_quantity(first), _quantity(last))


def _found(
    record: Record, ask: ComputeAsk, takes: Mapping[str, Mapping[str, tuple[str, str]]]
) -> Iterator[tuple[str, Found]]:
    for name, (role, figure) in takes.get(ask.computation, {}).items():
        sheet = sheet_of(record.sheets, _material(record, ask, role))
        value = sheet.figure(figure) if sheet is not None else None
        if sheet is not None and value is not None:
            yield name, (sheet, value)


def _quantities(found: Mapping[str, Found]) -> dict[str, Quantity]:
    return {name: _quantity(one) for name, (_, one) in found.items()}


def _quantity(one: SheetValue) -> Quantity:
    return Quantity(one.value, one.unit, one.decimals)


def _material(record: Record, ask: ComputeAsk, role: str) -> str:
    """What the lot input of that name asks for or its fixed word, else the name itself."""
    for one in ask.inputs:
        if one.name == role and one.text:
            return one.text
        for ref in one.sources if one.name == role else ():
            at = record.find(ref.method, ref.step, ref.ask)
            if at is not None and isinstance(at.ask, LotAsk):
                return at.ask.of
    return role
