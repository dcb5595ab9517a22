"""Clocks of a bond: surface since abrading, primer since priming, mixer since its last shot, open time.

A clock has a start and a window from the sheet. A step must start and end inside it; what was done outside is
marked. Minutes come from the entries, so a clock survives all that they do. Model "clock-1".
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from bayleaf.bonding.refusal import Refused
from bayleaf.bonding.units import scaled

MODEL: Final = "clock-1"


class Stand(StrEnum):
    """Where a clock stands."""

    TOO_EARLY = "too early"
    OPEN = "open"
    OVER = "over"


@dataclass(frozen=True, slots=True)
class Window:
    """Minutes after the start: not before the minimum (flash-off), not after the maximum; ends included."""

    maximum_min: float | None
    minimum_min: float = 0.0

    def __post_init__(self) -> None:
        if self.maximum_min is not None and self.minimum_min > self.maximum_min:
            allowed = f"at most maximum_min, {self.maximum_min} min"
            raise Refused("minimum_min", f"{self.minimum_min} min", allowed)


@dataclass(frozen=True, slots=True)
class ClockView:
    """How a clock stands now, and what a step of a given length would do; minutes."""

    stand: Stand
    wait_min: float
    minutes_left_min: float | None
    starts_outside: bool
    ends_outside: bool
    over_by_min: float

    @property
    def warns(self) -> bool:
        return self.starts_outside or self.ends_outside


def read_clock(window: Window, since_min: float, step_min: float = 0.0) -> ClockView:
    """A step that would start now, or did then: does it start, and does it end, inside the window?"""
    end = since_min + step_min
    too_early = scaled(since_min) < scaled(window.minimum_min)
    over_now, over_then = _is_over(since_min, window), _is_over(end, window)
    last = window.maximum_min
    return ClockView(
        stand=Stand.TOO_EARLY if too_early else Stand.OVER if over_now else Stand.OPEN,
        wait_min=max(0.0, window.minimum_min - since_min),
        minutes_left_min=None if last is None else max(0.0, last - since_min),
        starts_outside=too_early or over_now,
        ends_outside=over_then,
        over_by_min=end - last if last is not None and over_then else 0.0,
    )


def _is_over(minute: float, window: Window) -> bool:
    return window.maximum_min is not None and scaled(minute) > scaled(window.maximum_min)
