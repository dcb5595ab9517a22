"""What the shop's own time needs of the outside: the rules of time zones, and which zone the office set."""

from __future__ import annotations

from typing import Protocol

from bayleaf.domain.wall_time import UTC_TIME, WallTime


class TimeZones(Protocol):
    """The time zones of the IANA database, by their names, and the shop's own among them."""

    def own(self) -> str:
        """The zone that the office set; empty where nobody did."""

    def choose(self, zone: str) -> None:
        """Set the shop's own; empty takes it away."""

    def known(self, zone: str) -> bool: ...

    def between(self, zone: str, from_ms: int, until_ms: int) -> WallTime:
        """Its offsets from the one instant to the other."""


class NoTimeZone:
    """Nobody set one, and none can be set: all times are UTC."""

    def own(self) -> str:
        """See the port."""
        return ""

    def choose(self, zone: str) -> None:
        """See the port."""

    def known(self, zone: str) -> bool:
        """See the port."""
        return zone == UTC_TIME.zone

    def between(self, zone: str, from_ms: int, until_ms: int) -> WallTime:  # noqa: ARG002  (the port's)
        """See the port."""
        return UTC_TIME
