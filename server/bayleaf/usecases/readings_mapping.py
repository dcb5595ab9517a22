"""What the columns of a logger's file are: which one is the time, which is which sensor, in which unit."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any, Literal

DecimalMark = Literal[".", ","]
TimeForm = Literal["clock", "minutes", "seconds"]
DayOrder = Literal["ymd", "dmy", "mdy"]
Unit = Literal["C", "F", "K"]
NO_COLUMN = -1


@dataclass(frozen=True, slots=True)
class SensorColumn:
    """A column, counted from 0, and the sensor of the zone that it is."""

    column: int
    sensor: str


@dataclass(frozen=True, slots=True)
class ColumnMap:
    """How to read a file. `first_line` is the first with readings; `date` is a column of its own, or -1.

    `at_on`: what the logger's own time showed when the pads were switched on, written as its column is.
    """

    logger: str
    separator: str
    decimal: DecimalMark
    first_line: int
    time: int
    date: int
    time_form: TimeForm
    day_order: DayOrder
    unit: Unit
    at_on: str
    sensors: tuple[SensorColumn, ...]


def map_json(mapping: ColumnMap) -> dict[str, Any]:
    """As it is stored and told."""
    return {**asdict(mapping), "sensors": [asdict(one) for one in mapping.sensors]}


def map_of(told: dict[str, Any]) -> ColumnMap:
    """From what was stored, or what a request's schema let through."""
    sensors = tuple(SensorColumn(one["column"], one["sensor"]) for one in told["sensors"])
    return ColumnMap(**{**told, "sensors": sensors})
