"""The shop's time zone: what the office set, and the times of day that a report of a job says."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bayleaf.domain.entries import Entry
from bayleaf.domain.wall_time import UTC_TIME, WallTime
from bayleaf.ports import LoggedEntry
from bayleaf.time_zone_ports import TimeZones
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal


def set_time_zone(zones: TimeZones, zone: str) -> str:
    """Keep it. Empty takes it away: reports say UTC again. Refusal: unknown_time_zone."""
    given = zone.strip()
    if given and not zones.known(given):
        message = f"time_zone: none is called {given!r}; give a name such as Europe/Helsinki, or nothing."
        raise Refusal("unknown_time_zone", message, "time_zone")
    zones.choose(given)
    return given


def wall_time(office: Office, logged: Sequence[LoggedEntry], entries: Sequence[Entry]) -> WallTime:
    """The shop's time of day over all that these entries say; UTC where no zone is set or it is unknown."""
    zone = office.time_zones.own()
    times = [one.at_ms for one in entries] + [one.received_ms for one in logged]
    if not times or not zone or not office.time_zones.known(zone):
        return UTC_TIME
    days = [one.body["expires_ms"] for one in entries if one.kind == "lot"]
    found = office.time_zones.between(zone, min(times), max([*times, *days]))
    return replace(found, until_ms=max(times))
