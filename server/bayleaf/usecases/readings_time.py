"""The time column of a logger's file: clock with or without a day, minutes, or seconds; to milliseconds."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from decimal import Decimal, InvalidOperation
from typing import Final

from bayleaf.usecases.readings_mapping import ColumnMap, DayOrder

DAY_MS: Final = 86_400_000
MS_OF: Final = {"minutes": 60_000, "seconds": 1000}
_CLOCK: Final = re.compile(r"(\d{1,3}):([0-5]\d)(?::([0-5]\d)(?:[.,](\d{1,6}))?)?\s*([AaPp])?\.?[Mm]?\.?\Z")
_DAY: Final = re.compile(r"(\d{1,4})[-./](\d{1,2})[-./](\d{1,4})\Z")
_ZONE: Final = re.compile(r"(Z|[+-]\d\d:?\d\d)\Z")
_FIELDS: Final = {"ymd": (0, 1, 2), "dmy": (2, 1, 0), "mdy": (2, 0, 1)}
_NOON: Final = 12


def time_ms(mapping: ColumnMap, cells: tuple[str, ...]) -> int | None:
    """The time of a row as its logger counts it; None where it cannot be read."""
    if mapping.time >= len(cells):
        return None
    day = cells[mapping.date] if 0 <= mapping.date < len(cells) else ""
    return moment_ms(mapping, f"{day} {cells[mapping.time]}".strip())


def moment_ms(mapping: ColumnMap, words: str) -> int | None:
    """The same for one that was typed."""
    if mapping.time_form == "clock":
        return clock_ms(words, mapping.day_order)
    return _elapsed_ms(words, mapping.decimal, MS_OF[mapping.time_form])


def clock_ms(words: str, order: DayOrder) -> int | None:
    """A day and a time of day, or a time alone; a zone at its end is the logger's own and is left away."""
    plain = _ZONE.sub("", words.strip().replace("T", " ")) if ":" in words else words.strip()
    day, _, clock = plain.partition(" ") if _DAY.match(plain.partition(" ")[0]) else ("", "", plain)
    of_day = _of_day_ms(clock.strip())
    if of_day is None:
        return None
    midnight = _midnight_ms(day, order) if day else 0
    return None if midnight is None else midnight + of_day


def has_day(words: str) -> bool:
    """Whether a day stands before the clock."""
    return _DAY.match(words.strip().replace("T", " ").partition(" ")[0]) is not None


def _of_day_ms(clock: str) -> int | None:
    found = _CLOCK.match(clock)
    if found is None:
        return None
    hours, minutes, seconds = int(found[1]), int(found[2]), int(found[3] or 0)
    if found[5]:
        hours = hours % _NOON + (_NOON if found[5] in "Pp" else 0)
    part = int((found[4] or "0").ljust(3, "0")[:3])
    return ((hours * 60 + minutes) * 60 + seconds) * 1000 + part


def _midnight_ms(day: str, order: DayOrder) -> int | None:
    found = _DAY.match(day)
    if found is None:
        return None
    parts = found.groups()
    year, month, date = (int(parts[place]) for place in _FIELDS[order])
    try:
        return round(datetime(year + (2000 if year < 100 else 0), month, date, tzinfo=UTC).timestamp() * 1000)  # noqa: PLR2004  two digits
    except ValueError:
        return None


def _elapsed_ms(words: str, decimal: str, unit_ms: int) -> int | None:
    try:
        ms = Decimal(words.strip().replace(decimal, ".")) * unit_ms
    except InvalidOperation:
        return None
    return int(ms.to_integral_value()) if ms.is_finite() and abs(ms) < 2**53 else None


def over_midnight(before_ms: int, at_ms: int, *, days: int) -> int:
    """How many midnights a clock without a day has passed, where it now shows much less than before."""
    return days if at_ms + days * DAY_MS >= before_ms - DAY_MS // 2 else days + 1
