"""Heat zones: taken in by the office with every fault named, listed with their plans, taken away unused."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from ruamel.yaml import YAML

from bayleaf.heat.faults import Fault, ZoneFault
from bayleaf.heat.model import MODEL_ID
from bayleaf.heat.zone import STILL_BONDED, Zone
from bayleaf.heat.zone_document import read_zone
from bayleaf.heat.zone_lines import alias_faults, line_of
from bayleaf.heat_ports import DONE, HeatZone, PlanRow
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal


@dataclass(frozen=True)
class Listed:
    """A zone, how its plan stands (None: nobody asked), and the jobs that use it now."""

    zone: HeatZone
    plan: PlanRow | None
    jobs: list[str]


@dataclass(frozen=True)
class Added:
    """`remarks` say what the document leaves out, and what that means; `known`: it was here."""

    digest: str
    remarks: list[str]
    known: bool


def add_zone(office: Office, text: str, by: str, *, written: bool = True) -> Added:
    """Keep a zone document. `written`: by a person, to whom its lines say something.

    Refusal: zone_faults, with `faults`: [{line?, field, mend}].
    """
    zone = read_or_refuse(text, written=written)
    row = HeatZone(zone.digest, zone.id, zone.name, text, zone.invented, office.clock.now_ms(), by)
    return Added(zone.digest, list(remarks_of(zone)), known=not office.heat.add_zone(row))


def read_or_refuse(text: str, *, written: bool) -> Zone:
    """A zone that can be planned. Refusal: zone_faults."""
    faults = alias_faults(text)
    if faults:
        raise _refusal(text, faults, written=written)
    try:
        zone = read_zone(text)
    except ZoneFault as error:
        raise _refusal(text, error.faults, written=written) from error
    if not zone.bondline:
        said = "missing: say which layer the bondline is, and from when it is workable"
        raise _refusal(text, [Fault("bondline", said)], written=written)
    return zone


def _refusal(text: str, faults: list[Fault], *, written: bool) -> Refusal:
    rows: list[dict[str, object]] = []
    for one in faults:
        line = line_of(text, one.field) if written else None
        rows.append(({} if line is None else {"line": line}) | {"field": one.field, "mend": one.message})
    return Refusal("zone_faults", str(faults[0]), faults[0].field, named={"faults": rows})


def remarks_of(zone: Zone) -> Iterator[str]:
    """What a document may leave out, and what is not answered then."""
    if not zone.sensors:
        yield "sensors: none, so a phone has no readings to fit to the plan."
    if not any(one.kind == STILL_BONDED for one in zone.neighbours):
        yield "neighbours: no still-bonded stretch, so pads are released along the joint."
    if zone.supply is None:
        yield "supply: none, so the current is compared with no circuit."
    if zone.limits.cooling_K_min is None:
        yield "limits.cooling_K_min: none, so all pads go off at once after the soak."
    if all(layer.limit_C is None for layer in zone.layers):
        yield "layers: none has a limit_C, so only the bondline's maximum is compared."


def list_zones(office: Office) -> list[Listed]:
    """The newest first."""
    plans = office.heat.plans()
    pins = [one for one in office.heat.pins() if one.ended_ms == 0]
    return [
        Listed(zone, _standing(plans, zone.digest), sorted({p.job for p in pins if p.digest == zone.digest}))
        for zone in office.heat.zones()
    ]


def zone_here(office: Office, digest: str) -> HeatZone:
    """Refusal: unknown_zone."""
    zone = office.heat.zone(digest)
    if zone is None:
        raise Refusal("unknown_zone", "No heat zone here has this digest.", "digest")
    return zone


def remove_zone(office: Office, digest: str) -> None:
    """Refusals: unknown_zone; zone_in_use where a job uses it or did."""
    zone_here(office, digest)
    if any(one.digest == digest for one in office.heat.pins()):
        said = "A job uses this zone's plan, or did, so it stays. Hand in a changed zone beside it."
        raise Refusal("zone_in_use", said, "digest")
    office.heat.remove_zone(digest)


def document_of(text: str) -> Any:
    """The document that a kept text spells."""
    return json.loads(json.dumps(YAML(typ="safe", pure=True).load(text)))


def standing(office: Office, digest: str) -> PlanRow | None:
    """How the zone's plan stands: by this program's model, else the last that another one made."""
    row = office.heat.plan(digest, MODEL_ID)
    return row or _standing(office.heat.plans([digest]), digest)


def _standing(plans: Any, digest: str) -> PlanRow | None:
    rows = [row for row in plans if row.digest == digest]
    ours = [row for row in rows if row.model == MODEL_ID]
    before = [row for row in rows if row.state == DONE]
    return next(iter([*ours, *reversed(before)]), None)
