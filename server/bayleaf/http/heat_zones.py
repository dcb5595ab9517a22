"""Heat zones: the office hands them in, reads them, and takes away what no job ever used."""

from __future__ import annotations

import json
from typing import Any

from flask import Response

from bayleaf.heat.model import MODEL_ID
from bayleaf.heat_ports import HeatZone, PlanRow
from bayleaf.http.callers import Callers, calling_office
from bayleaf.http.heat_shapes import ZoneAdded, ZoneGiven, ZoneRows, ZoneShape
from bayleaf.http.parts import parts
from bayleaf.http.routes import Routes
from bayleaf.usecases.heat_zones import (
    Listed,
    add_zone,
    document_of,
    list_zones,
    read_or_refuse,
    remarks_of,
    remove_zone,
    standing,
    zone_here,
)
from bayleaf.usecases.refusal import Refusal

routes = Routes("heat_zones")
DIGEST = "<string(length=64):digest>"


@routes.on("GET", "/api/heat/zones", Callers.OFFICE, gives=ZoneRows)
def zones() -> dict[str, object]:
    """Every zone here, the newest first, with how its plan stands."""
    return {"zones": [_row(one) for one in list_zones(parts().office)]}


@routes.on("POST", "/api/heat/zones", Callers.OFFICE, takes=ZoneGiven, gives=ZoneAdded, status=201)
def add(body: dict[str, Any]) -> dict[str, object]:
    """Keep a zone document, if nothing in it is wrong; else every fault with its field is named."""
    if ("text" in body) == ("document" in body):
        raise Refusal("broken_request", "text, document: allowed is one of them.", "text")
    written = "text" in body
    text = body["text"] if written else json.dumps(body["document"], indent=1, ensure_ascii=False)
    added = add_zone(parts().office, text, calling_office().id, written=written)
    return {"digest": added.digest, "remarks": added.remarks, "known": added.known}


@routes.on("GET", f"/api/heat/zones/{DIGEST}", Callers.OFFICE, gives=ZoneShape)
def zone(digest: str) -> dict[str, object]:
    """One zone whole."""
    office = parts().office
    found = zone_here(office, digest)
    return {
        **_zone(found),
        "text": found.text,
        "document": document_of(found.text),
        "remarks": list(remarks_of(read_or_refuse(found.text, written=True))),
        "plan": plan_state(digest, standing(office, digest)),
    }


@routes.on("DELETE", f"/api/heat/zones/{DIGEST}", Callers.OFFICE, status=204)
def remove(digest: str) -> Response:
    """Take away a zone, with its plan, that no job uses or ever used."""
    remove_zone(parts().office, digest)
    return Response(status=204)


def plan_state(digest: str, row: PlanRow | None) -> dict[str, object]:
    """`none` where nobody has asked."""
    shown = row or PlanRow(digest, MODEL_ID, "none", 0)
    return {
        "digest": digest,
        "state": shown.state,
        "doing": shown.doing,
        "share": shown.share_permille / 1000,
        "sentence": shown.sentence,
        "model": shown.model,
        "current": shown.model == MODEL_ID,
        "asked_ms": shown.asked_ms,
        "done_ms": shown.done_ms,
    }


def _zone(zone: HeatZone) -> dict[str, object]:
    names = ("digest", "id", "name", "invented", "added_ms", "by")
    return {name: getattr(zone, name) for name in names}


def _row(one: Listed) -> dict[str, object]:
    state = plan_state(one.zone.digest, one.plan)
    return {**_zone(one.zone), "state": state["state"], "sentence": state["sentence"], "jobs": one.jobs}
