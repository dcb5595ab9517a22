"""The time of day in the shop: a zone by its name, and its offsets from UTC as they were when looked up.

Entries hold UTC. A report is made by these offsets alone: what a zone's rules become later
changes nothing in it.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any, Final

MIN_PER_H: Final = 60
TO_THE_MINUTE: Final = "%Y-%m-%d %H:%M"
TO_THE_SECOND: Final = "%Y-%m-%d %H:%M:%S"


@dataclass(frozen=True)
class WallTime:
    """`offsets`: minutes east of UTC, each from an instant (ms, UTC) on, the earliest first, at least one.

    Before the first instant the first offset holds. Times of day are said up to `until_ms`; what lies beyond
    is for days that are still to come, such as those when lots expire.
    """

    zone: str
    offsets: tuple[tuple[int, int], ...]
    until_ms: int = 0

    @property
    def turns(self) -> list[tuple[int, int]]:
        """The changes of the offset among the times that are said: with any, a time of day may be two."""
        return [row for row in self.offsets[1:] if row[0] <= self.until_ms]

    def offset_min(self, ms: int) -> int:
        """Minutes east of UTC at that instant."""
        place = bisect_right(self.offsets, ms, key=lambda row: row[0]) - 1
        return self.offsets[max(place, 0)][1]

    def moment(self, ms: int, form: str = TO_THE_MINUTE) -> str:
        """Date and time of day; where the offset changes, with the offset."""
        said = self._shown(ms, form)
        return f"{said} {signed(self.offset_min(ms))}" if self.turns else said

    def day(self, ms: int) -> str:
        return self._shown(ms, "%Y-%m-%d")

    def _shown(self, ms: int, form: str) -> str:
        try:
            at = datetime.fromtimestamp(ms // 1000, UTC) + timedelta(minutes=self.offset_min(ms))
        except (OverflowError, ValueError, OSError):
            return f"{ms} ms"  # a clock that no calendar has a day for
        return at.strftime(form)

    def label(self) -> str:
        """The zone with its offset, as it stands beside times: `Europe/Helsinki, UTC+02:00`."""
        if self.zone == UTC_TIME.zone:
            return UTC_TIME.zone
        return f"{self.zone}, {'each with its offset' if self.turns else utc_words(self.offsets[0][1])}"

    def told(self) -> dict[str, Any]:
        """As a dossier keeps it."""
        offsets = [list(row) for row in self.offsets]
        return {"name": self.zone, "offsets": offsets, "until_ms": self.until_ms}


UTC_TIME: Final = WallTime("UTC", ((0, 0),))


def wall_time_of(told: Mapping[str, Any] | None) -> WallTime:
    """From what a dossier keeps; UTC where it says nothing."""
    if told is None:
        return UTC_TIME
    offsets = tuple((from_ms, minutes) for from_ms, minutes in told["offsets"])
    return WallTime(told["name"], offsets, told["until_ms"])


def signed(minutes: int) -> str:
    """`+02:00`, `-03:30`, as RFC 3339 writes an offset."""
    hours, rest = divmod(abs(minutes), MIN_PER_H)
    return f"{'-' if minutes < 0 else '+'}{hours:02d}:{rest:02d}"


def utc_words(minutes: int) -> str:
    return f"UTC{signed(minutes)}"
