"""Open time: how long the parts may still be joined, from the first gram mixed.

Half as long per 10 K warmer (common practice, no source), and never longer than the sheet says: colder
lengthens nothing unless the sheet itself has a row for it. A changed mixer does not restart it. Under a
changing temperature the used fractions add up (common practice, no source). Model "open-time-1".
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from bayleaf.bonding.refusal import Refused

MODEL: Final = "open-time-1"


@dataclass(frozen=True, slots=True)
class OpenTimeSheet:
    """The sheet's open times in minutes by temperature in C, and the factor of speed per 10 K."""

    minutes_by_C: Mapping[float, float]
    factor_per_10K: float = 2.0

    def __post_init__(self) -> None:
        if not self.minutes_by_C:
            raise Refused("sheet_open_time_min_by_C", "no row", "at least one row of the sheet")
        rows = sorted(self.minutes_by_C.items())
        for (colder, longer), (warmer, shorter) in pairwise(rows):
            if shorter > longer:
                found = f"{longer} min at {colder} C but {shorter} min at {warmer} C"
                raise Refused("sheet_open_time_min_by_C", found, "no longer open when it is warmer")


def open_time_min(sheet: OpenTimeSheet, temperature_C: float) -> float:
    """Minutes at a constant temperature.

    Between rows the warmer, shorter one holds; over the warmest it shortens by the factor; under the coldest
    it stays what the coldest row says.
    """
    at_or_above = [row for row in sheet.minutes_by_C if row >= temperature_C]
    if at_or_above:
        return sheet.minutes_by_C[min(at_or_above)]
    warmest = max(sheet.minutes_by_C)
    slower: float = sheet.factor_per_10K ** ((warmest - temperature_C) / 10)
    return sheet.minutes_by_C[warmest] * slower


def used_fraction(sheet: OpenTimeSheet, steps_min_C: Sequence[tuple[float, float]]) -> float:
    """Share of the open time that is used up after steps of so many minutes at so many C."""
    return sum(minutes / open_time_min(sheet, temperature) for minutes, temperature in steps_min_C)


def remaining_min(sheet: OpenTimeSheet, used: float, then_C: float) -> float:
    """Minutes left at the temperature that follows; 0 once it is used up."""
    return max(0.0, (1 - used) * open_time_min(sheet, then_C))
