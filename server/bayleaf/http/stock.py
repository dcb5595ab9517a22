"""The shop's registers: instruments with their calibration, lots on the shelf, and lots over all jobs."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from marshmallow import Schema, fields, validate

from bayleaf.http import shapes
from bayleaf.http.callers import Callers
from bayleaf.http.parts import parts
from bayleaf.http.routes import Routes
from bayleaf.usecases.stock import keep_instrument, keep_lot, used_lots

routes = Routes("stock")


class KeptInstrument(Schema):
    """An instrument; `calibrated_until` is a day, empty where nobody knows it. `gone`: out of use."""

    number = shapes.name()
    kind = shapes.name()
    calibrated_until = shapes.day()
    note = fields.String(load_default="", validate=validate.Length(max=400))
    gone = fields.Boolean(load_default=False)


class InstrumentRow(KeptInstrument):
    """An instrument of the register."""

    id = fields.String(required=True)


class InstrumentRows(Schema):
    """By kind and number."""

    instruments = fields.List(fields.Nested(InstrumentRow), required=True)


class KeptLot(Schema):
    """A lot that was delivered; `expires` is a day, empty where none is printed. `gone`: used up."""

    material = shapes.word()
    lot = shapes.name()
    expires = shapes.day()
    note = fields.String(load_default="", validate=validate.Length(max=400))
    gone = fields.Boolean(load_default=False)


class LotRow(KeptLot):
    """A lot of the register."""

    id = fields.String(required=True)


class LotRows(Schema):
    """By material and lot."""

    lots = fields.List(fields.Nested(LotRow), required=True)


class StockId(Schema):
    """What it was about."""

    id = fields.String(required=True)


class LotQuery(Schema):
    """What to look for in lots and materials; nothing: the newest."""

    words = fields.String(load_default="", validate=validate.Length(max=100))


class UsedLotRow(Schema):
    """A lot as it was recorded at a step; `state` is stands, struck or aside."""

    hash = fields.String(required=True)
    job = fields.String(required=True)
    order = fields.String(required=True)
    filed_ms = fields.Integer(required=True, metadata={"description": "0 while the job is open"})
    method = fields.String(required=True)
    step = fields.String(required=True)
    material = fields.String(required=True)
    lot = fields.String(required=True)
    expires_ms = fields.Integer(required=True, metadata={"description": "0 where none is printed"})
    at_ms = fields.Integer(required=True)
    by = fields.String(required=True)
    state = fields.String(required=True)


class UsedLotRows(Schema):
    """The newest first, at most 1000."""

    used = fields.List(fields.Nested(UsedLotRow), required=True)


@routes.on("GET", "/api/instruments", Callers.OFFICE, gives=InstrumentRows)
def instruments() -> dict[str, object]:
    """Every instrument, those out of use too."""
    return {"instruments": [asdict(one) for one in parts().office.stock.instruments()]}


@routes.on("POST", "/api/instruments", Callers.OFFICE, takes=KeptInstrument, gives=StockId, status=201)
def add_instrument(body: dict[str, Any]) -> dict[str, object]:
    """Add an instrument. No two that are in use have one number."""
    return {"id": keep_instrument(parts().office, "", body)}


@routes.on("POST", "/api/instruments/<id>", Callers.OFFICE, takes=KeptInstrument, gives=StockId)
def change_instrument(id: str, body: dict[str, Any]) -> dict[str, object]:  # noqa: A002  (the path's own word)
    """Change an instrument: a new calibration, or out of use."""
    return {"id": keep_instrument(parts().office, id, body)}


@routes.on("GET", "/api/lots", Callers.OFFICE, gives=LotRows)
def lots() -> dict[str, object]:
    """Every lot of the register, those used up too."""
    return {"lots": [asdict(one) for one in parts().office.stock.lots()]}


@routes.on("POST", "/api/lots", Callers.OFFICE, takes=KeptLot, gives=StockId, status=201)
def add_lot(body: dict[str, Any]) -> dict[str, object]:
    """Add a lot; phones offer it with its expiry where a step asks for this material."""
    return {"id": keep_lot(parts().office, "", body)}


@routes.on("POST", "/api/lots/<id>", Callers.OFFICE, takes=KeptLot, gives=StockId)
def change_lot(id: str, body: dict[str, Any]) -> dict[str, object]:  # noqa: A002  (the path's own word)
    """Change a lot, or put it out of use."""
    return {"id": keep_lot(parts().office, id, body)}


@routes.on("GET", "/api/used-lots", Callers.OFFICE, query=LotQuery, gives=UsedLotRows)
def used(query: dict[str, str]) -> dict[str, object]:
    """Which jobs used which lots, for a recall: filed and open jobs alike."""
    return {"used": [asdict(one) for one in used_lots(parts().office, query["words"])]}
