"""Figures of suppliers' sheets in the place of the method's own fixed figures.

The twin of the phone's `sheet_inputs.ts`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from bayleaf.domain.asks import ComputeAsk, LotAsk
from bayleaf.step_computations.inputs import Quantity
from bayleaf.step_computations.record import Record
from bayleaf.step_computations.sheets import FACTS, TAKES, MaterialSheet, SheetValue, sheet_of


@dataclass(frozen=True, slots=True)
class FromSheets:
    """Inputs and facts by their names, and the sorted digests of the sheets that they are from."""

    inputs: Mapping[str, Quantity]
    facts: Mapping[str, Quantity]
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
    return FromSheets(_quantities(inputs), _quantities(facts), tuple(sorted(used)))


Found = tuple[MaterialSheet, SheetValue]


def _found(
    record: Record, ask: ComputeAsk, takes: Mapping[str, Mapping[str, tuple[str, str]]]
) -> Iterator[tuple[str, Found]]:
    for name, (role, figure) in takes.get(ask.computation, {}).items():
        sheet = sheet_of(record.sheets, _material(record, ask, role))
        value = sheet.figure(figure) if sheet is not None else None
        if sheet is not None and value is not None:
            yield name, (sheet, value)


def _quantities(found: Mapping[str, Found]) -> dict[str, Quantity]:
    return {name: Quantity(one.value, one.unit, one.decimals) for name, (_, one) in found.items()}


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
