"""A first idea of what the columns of a logger's file are, for a person to look at and put right."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from bayleaf.usecases.readings_mapping import (
    NO_COLUMN,
    ColumnMap,
    DayOrder,
    DecimalMark,
    SensorColumn,
    TimeForm,
    Unit,
)
from bayleaf.usecases.readings_table import Line, Table, is_number
from bayleaf.usecases.readings_time import clock_ms, has_day

_WORD: Final = re.compile(r"[^0-9a-z]+")
_MINUTES: Final = re.compile(r"\bmin", re.IGNORECASE)
_UNITS: Final = (
    ("F", re.compile(r"(?:\u00b0|deg|\(|\[)\s*F\b", re.IGNORECASE)),
    ("K", re.compile(r"[(\[]\s*K\s*[)\]]|kelvin", re.IGNORECASE)),
)
_LOOKED_AT: Final = 20
_MONTHS: Final = 12


def guess(table: Table, sensors: Sequence[str], known: ColumnMap | None = None) -> ColumnMap:
    """By headings and by how the cells look; what was said of this logger before goes first."""
    first = _first(table)
    rows = [line for line in table.lines if line.number >= first.number][:_LOOKED_AT]
    headings = headings_of(table, first.number)
    if known is not None and _fits(known, first):
        return replace(known, separator=table.separator, first_line=first.number, at_on="")
    date, time = _date_and_time(first)
    return ColumnMap(
        logger="",
        separator=table.separator,
        decimal=_decimal(table, rows, time),
        first_line=first.number,
        time=time,
        date=date,
        time_form=_form(headings, first, time),
        day_order=_order(
            [line.cells[date if date >= 0 else time] for line in rows if len(line.cells) > time]
        ),
        unit=_unit(headings),
        at_on="",
        sensors=tuple(_sensors(headings, sensors, {time, date})),
    )


def headings_of(table: Table, first_line: int) -> tuple[str, ...]:
    """The cells of the last line before the readings; none where they begin the file."""
    before = [line for line in table.lines if line.number < first_line]
    return before[-1].cells if before else ()


def _first(table: Table) -> Line:
    """The first line that begins with a time and has a figure after it."""
    for line in table.lines:
        time = next((at for at, cell in enumerate(line.cells[:2]) if _is_time(cell)), None)
        if time is not None and any(is_number(cell) for cell in line.cells[time + 1 :]):
            return line
    return table.lines[min(1, len(table.lines) - 1)]


def _is_time(cell: str) -> bool:
    return is_number(cell) or clock_ms(cell, "ymd") is not None or has_day(cell)


def _date_and_time(first: Line) -> tuple[int, int]:
    """A day alone, followed by a clock alone, are two columns."""
    cells = (*first.cells, "", "", "")
    for at in range(3):
        if has_day(cells[at]) and ":" not in cells[at] and clock_ms(cells[at + 1], "ymd") is not None:
            return at, at + 1
    time = next((at for at in range(3) if has_day(cells[at]) or clock_ms(cells[at], "ymd") is not None), None)
    return NO_COLUMN, time if time is not None else 0


def _form(headings: tuple[str, ...], first: Line, time: int) -> TimeForm:
    if not is_number(first.cells[time] if time < len(first.cells) else ""):
        return "clock"
    heading = headings[time] if time < len(headings) else ""
    return "minutes" if _MINUTES.search(heading) else "seconds"


def _decimal(table: Table, rows: Sequence[Line], time: int) -> DecimalMark:
    commas = sum("," in cell for line in rows for at, cell in enumerate(line.cells) if at != time)
    points = sum("." in cell for line in rows for at, cell in enumerate(line.cells) if at != time)
    return "," if table.separator != "," and commas > points else "."


def _order(cells: Sequence[str]) -> DayOrder:
    """A year first is year, month, day; else by what cannot be a month; else the day first."""
    days = [re.split(r"[-./ T]", cell)[:3] for cell in cells if has_day(cell)]
    numbers = [[int(part) for part in day] for day in days if all(part.isdigit() for part in day)]
    if not days or any(len(day[0]) == 4 for day in days):  # noqa: PLR2004  a year
        return "ymd"
    return "mdy" if any(number[1] > _MONTHS for number in numbers) else "dmy"


def _unit(headings: tuple[str, ...]) -> Unit:
    for unit, looks in _UNITS:
        if any(looks.search(heading) for heading in headings):
            return "F" if unit == "F" else "K"
    return "C"


def _sensors(headings: tuple[str, ...], sensors: Sequence[str], taken: set[int]) -> list[SensorColumn]:
    """Columns whose heading has a sensor's id as a word of its own, each sensor once."""
    found: dict[str, int] = {}
    for at, heading in enumerate(headings):
        words = set(_WORD.split(heading.lower()))
        named = [sensor for sensor in sensors if sensor.lower() in words or sensor.lower() == heading.lower()]
        if at not in taken and len(named) == 1:
            found.setdefault(named[0], at)
    return [SensorColumn(at, sensor) for sensor, at in sorted(found.items(), key=lambda pair: pair[1])]


def _fits(known: ColumnMap, first: Line) -> bool:
    columns = [known.time, known.date, *(one.column for one in known.sensors)]
    return max(columns) < len(first.cells)
