"""Sync and reconcile: what phones ask, and how they lend back what a server had lost."""

from __future__ import annotations

import json
from typing import Any

import orjson
from flask import Response, request

from bayleaf.http.callers import Callers
from bayleaf.http.parts import parts
from bayleaf.http.reading import body_bytes, load, require_keepable
from bayleaf.http.routes import JSON, Routes
from bayleaf.http.sync_shapes import ReconcileAnswered, ReconcileAsked, SyncAnswered, SyncAsked
from bayleaf.http.who_calls import device_caller
from bayleaf.http.zipped import inflated_body, json_answer
from bayleaf.ports import SignedHead
from bayleaf.usecases import reconcile as reconciling
from bayleaf.usecases import sync as syncing
from bayleaf.usecases.fates import Brought, DeviceClock, ShownCard
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.take_back_files import take_back_drawing, take_back_method

routes = Routes("sync")
SYNC_LIMIT = 8_000_000
METHOD_LIMIT = 4_000_000


@routes.on("POST", "/api/sync", Callers.DEVICE, raw=JSON, told=SyncAsked, gives=SyncAnswered)
def sync() -> Response:
    """Hear what the device recorded, and tell what is new. Answered after everything is on disk."""
    asked: Any = load(SyncAsked(), _read(SYNC_LIMIT))
    clock = asked.get("clock")
    brought = Brought(
        texts=asked["entries"],
        heads=[SignedHead(**head) for head in asked["heads"]],
        cards=[ShownCard(card["card"], card["signature"]) for card in asked["cards"]],
        clock=DeviceClock(**clock) if clock is not None else None,
    )
    asking = syncing.SyncRequest(
        protocol=asked["protocol"],
        log=asked.get("log", ""),
        cursors=asked["cursors"],
        brought=brought,
        holds_entries=asked["holds"]["entries"],
        holds_photos=asked["holds"]["photos"],
        photos=asked.get("pulled_photos"),
        reports=[(one["job"], _sentence(one)) for one in asked["reports"]],
    )
    return json_answer(syncing.sync(parts().office, device_caller(), asking))


@routes.on("POST", "/api/reconcile", Callers.DEVICE, raw=JSON, told=ReconcileAsked, gives=ReconcileAnswered)
def reconcile() -> Response:
    """Name what either side lacks of a job."""
    asked: Any = load(ReconcileAsked(), _read(SYNC_LIMIT))
    asking = reconciling.ReconcileRequest(asked["log"], asked["job"], asked["hashes"], asked["digest"])
    return json_answer(reconciling.reconcile(parts().office, device_caller(), asking))


@routes.on("PUT", "/api/methods/<digest>", Callers.DEVICE, raw=JSON, status=204)
def put_method(digest: str) -> Response:
    """A compiled method comes back to a server that had lost it."""
    take_back_method(parts().office, digest, body_bytes(METHOD_LIMIT))
    return Response(status=204)


@routes.on("PUT", "/api/drawings/<sha256>", Callers.DEVICE, raw="image/svg+xml", status=204)
def put_drawing(sha256: str) -> Response:
    """A drawing comes back to a server that had lost it."""
    take_back_drawing(parts().office, sha256, body_bytes(METHOD_LIMIT))
    return Response(status=204)


def _read(limit: int) -> object:
    """JSON whose entries are judged one by one: what is wrong inside a text is no fault of the request."""
    if not request.is_json:
        found = request.mimetype or "nothing"
        raise Refusal("not_json_type", f"Content-Type: found {found}, allowed is application/json.")
    try:
        found = _quickly_read(inflated_body(limit))
        require_keepable({**found, "entries": []} if isinstance(found, dict) else found)
    except (ValueError, RecursionError) as error:
        raise Refusal("unreadable_json", f"The body is not JSON: {error}.") from error
    return found


def _quickly_read(raw: bytes) -> Any:
    """What the quick reader does not take, the other reads, or says why not: half a surrogate it reads."""
    try:
        return orjson.loads(raw)
    except orjson.JSONDecodeError:
        return json.loads(raw)


def _sentence(report: dict[str, str]) -> str:
    return f"The {report['what']} digests differ: the phone has {report['ours']}, here is {report['theirs']}."
