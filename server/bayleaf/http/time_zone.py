"""The shop's time zone, in which reports and dossiers say their times."""

from __future__ import annotations

from marshmallow import Schema, fields

from bayleaf.http import shapes
from bayleaf.http.callers import Callers
from bayleaf.http.parts import parts
from bayleaf.http.routes import Routes
from bayleaf.usecases.time_zone import set_time_zone

routes = Routes("time_zone")


class TimeZone(Schema):
    """A name of the IANA time zone database; empty: none is set, and times are UTC."""

    time_zone = shapes.text(64)


class TimeZoneToday(Schema):
    """The same, as it is set."""

    time_zone = fields.String(required=True)


@routes.on("GET", "/api/time_zone", Callers.OFFICE, gives=TimeZoneToday)
def time_zone() -> dict[str, str]:
    """In which zone reports say their times."""
    return {"time_zone": parts().office.time_zones.own()}


@routes.on("POST", "/api/time_zone", Callers.OFFICE, takes=TimeZone, gives=TimeZoneToday)
def choose_time_zone(body: dict[str, str]) -> dict[str, str]:
    """Set it for reports and dossiers from now on; what is filed stays as it is."""
    return {"time_zone": set_time_zone(parts().office.time_zones, body["time_zone"])}
