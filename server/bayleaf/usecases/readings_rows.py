"""The rows of a logger's file as readings on the run's clock, and every line that could not be read."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from decimal import ROUND_HALF_UP, Decimal, InvalidOperation
from typing import Final

from bayleaf.usecases.readings_mapping import ColumnMap, SensorColumn
from bayleaf.usecases.readings_table import Line, Table
from bayleaf.usecases.readings_time import has_day, moment_ms, over_midnight, time_ms
from bayleaf.usecases.refusal import Refusal

LONGEST_MS: Final = 7 * 86_400_000
COLDEST_C, HOTTEST_C = Decimal(-50), Decimal(700)
TOLD: Final = 60  # characters of a cell that a fault quotes


@dataclass(frozen=True, slots=True)
class Unread:
    """What could not be read: a whole row where `column` is empty, else one cell."""

    line: int
    column: str
    found: str
    reason: str


@dataclass(frozen=True, slots=True)
class Row:
    """One moment: what each sensor read, as integers of the run's scale."""

    line: int
    run_ms: int
    readings: tuple[tuple[str, int], ...]


@dataclass(slots=True)
class Rows:
    """All rows that say something of the run, in the order of its clock, and what was left out."""

    rows: list[Row] = field(default_factory=list)
    unread: list[Unread] = field(default_factory=list)
    before_on: int = 0
    blank: int = 0


def rows_of(table: Table, mapping: ColumnMap, decimals: int) -> Rows:
    """Every line after the headings. Refusal: wrong_time where the time at switch-on cannot be read."""
    on_ms = _on_ms(table, mapping)
    found = Rows()
    seen: dict[tuple[str, int], int] = {}
    before_ms, days = on_ms, 0
    for line in table.lines:
        if line.number < mapping.first_line:
            continue
        at_ms = time_ms(mapping, line.cells)
        if at_ms is None:
            found.unread.append(_whole(line, mapping, "no time"))
            continue
        if mapping.time_form == "clock" and not _dated(mapping, line):
            days = over_midnight(before_ms, at_ms, days=days)
        before_ms = at_ms = at_ms + days * 86_400_000
        _add(found, line, at_ms - on_ms, list(_read(line, mapping, decimals, found)), seen)
    found.rows.sort(key=lambda row: (row.run_ms, row.line))
    return found


def _on_ms(table: Table, mapping: ColumnMap) -> int:
    """The logger's time at switch-on; a clock without a day is of the day of the first row."""
    words = mapping.at_on.strip()
    first = next((line for line in table.lines if line.number >= mapping.first_line), None)
    if mapping.time_form == "clock" and words and not has_day(words) and first and _dated(mapping, first):
        day = first.cells[mapping.date] if mapping.date >= 0 else first.cells[mapping.time]
        words = f"{day.replace('T', ' ').split(' ')[0]} {words}"
    on_ms = moment_ms(mapping, words) if words else None
    if on_ms is None:
        shown = first.cells[mapping.time] if first and mapping.time < len(first.cells) else ""
        found = f"Time at switch-on: found {words[:TOLD]!r}."
        said = f"{found} Say what the logger showed at switch-on, as in {shown!r}."
        raise Refusal("wrong_time", said, "at_on")
    return on_ms


def _dated(mapping: ColumnMap, line: Line) -> bool:
    at = mapping.date if mapping.date >= 0 else mapping.time
    return at < len(line.cells) and has_day(line.cells[at])


def _add(
    found: Rows, line: Line, run_ms: int, readings: list[tuple[str, int]], seen: dict[tuple[str, int], int]
) -> None:
    if run_ms < 0:
        found.before_on += 1
        return
    if run_ms > LONGEST_MS:
        found.unread.append(Unread(line.number, "", "", "more than seven days after switch-on"))
        return
    kept = []
    for sensor, value in readings:
        earlier = seen.setdefault((sensor, run_ms), line.number)
        if earlier == line.number:
            kept.append((sensor, value))
        else:
            said = f"a second value for this moment, the first stands in line {earlier}"
            found.unread.append(Unread(line.number, sensor, "", said))
    if kept:
        found.rows.append(Row(line.number, run_ms, tuple(kept)))


def _read(line: Line, mapping: ColumnMap, decimals: int, found: Rows) -> Iterator[tuple[str, int]]:
    for column in mapping.sensors:
        cell = line.cells[column.column] if column.column < len(line.cells) else ""
        if cell == "":
            found.blank += 1
            continue
        value = in_scale(cell.replace(mapping.decimal, "."), mapping.unit, decimals)
        if isinstance(value, str):
            found.unread.append(_cell(line, column, cell, value))
        else:
            yield column.sensor, value


def in_scale(figure: str, unit: str, decimals: int) -> int | str:
    """A temperature as an integer of C by its decimals, halves away from zero; or why it is none."""
    try:
        read = Decimal(figure)
    except InvalidOperation:
        return "no figure"
    if not read.is_finite():
        return "no figure"
    celsius = {"C": read, "F": (read - 32) * 5 / 9, "K": read - Decimal("273.15")}[unit]
    if not COLDEST_C <= celsius <= HOTTEST_C:
        return f"{celsius:.0f} C, believable are {COLDEST_C} to {HOTTEST_C}"
    return int(celsius.scaleb(decimals).to_integral_value(ROUND_HALF_UP))


def _whole(line: Line, mapping: ColumnMap, reason: str) -> Unread:
    cell = line.cells[mapping.time] if mapping.time < len(line.cells) else ""
    return Unread(line.number, "", cell[:TOLD], reason)


def _cell(line: Line, column: SensorColumn, cell: str, reason: str) -> Unread:
    return Unread(line.number, column.sensor, cell[:TOLD], reason)
