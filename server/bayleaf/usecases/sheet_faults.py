"""What is wrong with the figures of a supplier's sheet, each at its field; and the sound ones, scaled."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from bayleaf.step_computations.sheets import FIGURES, RISING, TOGETHER, Figure, SheetValue

NUMBER = re.compile(r"-?\d{1,7}(\.\d{1,3})?")
PARTS = ("value", "low", "high")


@dataclass(frozen=True, slots=True)
class TypedFigure:
    """A figure as it was typed; `low` and `high` empty where the sheet gives no range."""

    name: str
    value: str
    low: str
    high: str
    unit: str


@dataclass(frozen=True, slots=True)
class SheetFault:
    """A field of the form, and a sentence: what was found, what is allowed."""

    field: str
    message: str


def sheet_faults(group: str, typed: Sequence[TypedFigure]) -> list[SheetFault]:
    """All of them, in the order of the figures; then what is missing or falls between two figures."""
    if not typed:
        return [SheetFault("values", "found no figure, allowed is one or more.")]
    known = {figure.name: figure for figure in FIGURES[group]}
    single = [fault for one in typed for fault in _of_one(one, known.get(one.name))]
    names = [one.name for one in typed]
    doubled = [
        SheetFault(_at(name, "value"), "found twice, allowed is once.")
        for name in dict.fromkeys(names)
        if names.count(name) > 1
    ]
    return [*single, *doubled] or [*_missing(names), *_falling(typed)]


def scaled(group: str, typed: Sequence[TypedFigure]) -> tuple[SheetValue, ...]:
    """Sound figures as whole numbers of their unit, in the order of their names."""
    known = {figure.name: figure for figure in FIGURES[group]}
    return tuple(_scaled(one, known.get(one.name)) for one in sorted(typed, key=lambda one: one.name))


def _of_one(one: TypedFigure, known: Figure | None) -> Iterator[SheetFault]:
    found = {part: getattr(one, part) for part in PARTS if part == "value" or getattr(one, part) != ""}
    unreadable = [part for part, text in found.items() if NUMBER.fullmatch(text) is None]
    for part in unreadable:
        yield SheetFault(
            _at(one.name, part),
            f'found "{found[part][:20]}", allowed is a number such as 35 or 3.25 with a point.',
        )
    yield from _unit(one, known)
    if not unreadable:
        yield from _range(one.name, {part: Decimal(text) for part, text in found.items()}, known)


def _unit(one: TypedFigure, known: Figure | None) -> Iterator[SheetFault]:
    if known is None and not one.unit:
        yield SheetFault(_at(one.name, "unit"), "found no unit, allowed is the one on the sheet.")
    if known is not None and one.unit not in ("", known.unit):
        yield SheetFault(_at(one.name, "unit"), f'found "{one.unit[:20]}", allowed is {known.unit}.')


def _range(name: str, found: Mapping[str, Decimal], known: Figure | None) -> Iterator[SheetFault]:
    value = found["value"]
    if known is not None:
        allowed = f"allowed is {known.least:g} to {known.most:g} {known.unit}"
        for part, number in found.items():
            if not Decimal(str(known.least)) <= number <= Decimal(str(known.most)):
                yield SheetFault(_at(name, part), f"found {number} {known.unit}, {allowed}.")
    if found.get("low", value) > value:
        yield SheetFault(_at(name, "low"), f"found {found['low']}, allowed is {value} or less.")
    if found.get("high", value) < value:
        yield SheetFault(_at(name, "high"), f"found {found['high']}, allowed is {value} or more.")


def _missing(names: Sequence[str]) -> Iterator[SheetFault]:
    for together in TOGETHER:
        there = [name for name in together if name in names]
        for name in together if there else ():
            if name not in names:
                said = f"is missing; it is given together with {' and '.join(there)}."
                yield SheetFault(_at(name, "value"), said)


def _falling(typed: Sequence[TypedFigure]) -> Iterator[SheetFault]:
    values = {one.name: Decimal(one.value) for one in typed}
    for first, second in RISING:
        if first in values and second in values and values[second] < values[first]:
            said = f"found {values[second]}, allowed is {values[first]} ({first}) or more."
            yield SheetFault(_at(second, "value"), said)


def _at(name: str, part: str) -> str:
    return f"values.{name}.{part}"


def _scaled(one: TypedFigure, known: Figure | None) -> SheetValue:
    texts = [one.value, one.low or one.value, one.high or one.value]
    decimals = max(len(text.partition(".")[2]) for text in texts)
    value, low, high = (int(Decimal(text).scaleb(decimals)) for text in texts)
    return SheetValue(one.name, value, low, high, known.unit if known else one.unit, decimals)
