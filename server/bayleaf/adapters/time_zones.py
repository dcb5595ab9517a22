"""Time zones by the standard library's `zoneinfo`; the shop's own is a plain setting."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Final
from zoneinfo import ZoneInfo, available_timezones

from bayleaf.domain.wall_time import WallTime
from bayleaf.push_ports import Settings

SETTING: Final = "time_zone"
DAY_S: Final = 86_400
S_PER_MIN: Final = 60
LEAST_S: Final = 0
MOST_S: Final = 4_102_444_800  # the year 2100: clocks that stand beyond it are not looked up


class IanaTimeZones:
    """The port TimeZones."""

    def __init__(self, settings: Settings) -> None:
        self._settings = settings

    def own(self) -> str:
        """See the port."""
        return self._settings.get(SETTING)

    def choose(self, zone: str) -> None:
        """See the port."""
        self._settings.put(SETTING, zone)

    def known(self, zone: str) -> bool:
        """See the port."""
        return zone in available_timezones()

    def between(self, zone: str, from_ms: int, until_ms: int) -> WallTime:
        """A day is shorter than two changes are apart, so each day is looked at once."""
        info = ZoneInfo(zone)
        begin_s, end_s = (min(max(ms // 1000, LEAST_S), MOST_S) for ms in (from_ms, until_ms))
        rows = [(begin_s * 1000, _minutes(info, begin_s))]
        for at_s in [*range(begin_s + DAY_S, end_s, DAY_S), end_s]:
            if _minutes(info, at_s) != rows[-1][1]:
                turn_s = _turn(info, max(at_s - DAY_S, begin_s), at_s)
                rows.append((turn_s * 1000, _minutes(info, at_s)))
        return WallTime(zone, tuple(rows))


def _minutes(info: ZoneInfo, at_s: int) -> int:
    offset = datetime.fromtimestamp(at_s, UTC).astimezone(info).utcoffset()
    assert offset is not None  # noqa: S101  (an instant in a zone has one)
    return round(offset.total_seconds() / S_PER_MIN)


def _turn(info: ZoneInfo, before_s: int, after_s: int) -> int:
    """The first second with the later offset."""
    was = _minutes(info, before_s)
    while after_s - before_s > 1:
        middle = (before_s + after_s) // 2
        before_s, after_s = (middle, after_s) if _minutes(info, middle) == was else (before_s, middle)
    return after_s
