"""Suppliers' sheets: the office adds its own materials' figures, and sees which jobs used them."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from marshmallow import Schema, fields, validate

from bayleaf.http import shapes
from bayleaf.http.callers import Callers, calling_office
from bayleaf.http.parts import parts
from bayleaf.http.routes import Nothing, Routes
from bayleaf.step_computations.sheets import FIGURES, GROUPS
from bayleaf.usecases.sheets import KeptSheet, jobs_of_sheet, keep_sheet, kept_sheets, withdraw_sheet

routes = Routes("sheets")
OWN = ("id", "about", "by", "made_ms", "in_use", "withdrawn_ms", "withdrawn_by", "why")
TYPED = validate.Length(max=20)
SAID = "allowed are 1 to 400 characters that do not begin or end with a blank"


class TypedFigureShape(Schema):
    """A figure as the sheet prints it, with a point; `low` and `high` empty where it gives none."""

    name = shapes.word()
    value = fields.String(required=True, validate=TYPED)
    low = fields.String(load_default="", validate=TYPED)
    high = fields.String(load_default="", validate=TYPED)
    unit = fields.String(load_default="", validate=TYPED)


class TypedRowShape(Schema):
    """A rivet's length and its grips in mm, as the sheet prints them; `part` is its number there."""

    length = fields.String(required=True, validate=TYPED)
    low = fields.String(required=True, validate=TYPED)
    high = fields.String(required=True, validate=TYPED)
    part = fields.String(load_default="", validate=validate.Length(max=40))


class NewSheet(Schema):
    """A supplier's sheet in one revision; `material` is the id that methods use, `dated` a day or empty."""

    group = fields.String(required=True, validate=validate.OneOf(GROUPS))
    material = shapes.word()
    name = shapes.name()
    about = fields.String(load_default="", validate=validate.Length(max=400))
    sheet = shapes.name()
    revision = shapes.name()
    dated = shapes.day()
    values = fields.List(fields.Nested(TypedFigureShape), required=True, validate=validate.Length(max=40))
    rows = fields.List(fields.Nested(TypedRowShape), load_default=list, validate=validate.Length(max=40))


class SheetFigure(Schema):
    """A figure and its range, whole numbers of `unit` / 10^decimals."""

    name = fields.String(required=True)
    value = fields.Integer(required=True)
    low = fields.Integer(required=True)
    high = fields.Integer(required=True)
    unit = fields.String(required=True)
    decimals = fields.Integer(required=True)


class LengthShape(Schema):
    """A length and its smallest and largest grip, whole numbers of the table's unit / 10^decimals."""

    length = fields.Integer(required=True)
    low = fields.Integer(required=True)
    high = fields.Integer(required=True)
    part = fields.String(required=True)


class TableShape(Schema):
    """Lengths of a rivet, the shortest first."""

    rows = fields.List(fields.Nested(LengthShape), required=True)
    unit = fields.String(required=True)
    decimals = fields.Integer(required=True)


class SheetShape(Schema):
    """What a sheet says; the digest is of all of it."""

    digest = fields.String(required=True)
    group = fields.String(required=True)
    material = fields.String(required=True)
    name = fields.String(required=True)
    sheet = fields.String(required=True)
    revision = fields.String(required=True)
    dated = fields.String(required=True)
    values = fields.List(fields.Nested(SheetFigure), required=True)
    table = fields.Nested(TableShape, allow_none=True, metadata={"description": "null but for rivets"})


class SheetRow(SheetShape):
    """With who entered it and when; `in_use`: the newest of its material that is not withdrawn."""

    id = fields.String(required=True)
    about = fields.String(required=True)
    by = fields.String(required=True)
    made_ms = fields.Integer(required=True)
    in_use = fields.Boolean(required=True)
    withdrawn_ms = fields.Integer(required=True, metadata={"description": "0 while it counts"})
    withdrawn_by = fields.String(required=True)
    why = fields.String(required=True, metadata={"description": "why it was withdrawn"})


class KnownFigure(Schema):
    """A figure that computations take, in its one unit, within its range."""

    name = fields.String(required=True)
    unit = fields.String(required=True)
    least = fields.Float(required=True)
    most = fields.Float(required=True)


class SheetRows(Schema):
    """By material, the newest first; and which figures a sheet of each group is asked for."""

    sheets = fields.List(fields.Nested(SheetRow), required=True)
    figures = fields.Dict(keys=fields.String(), values=fields.List(fields.Nested(KnownFigure)), required=True)


class Withdrawal(Schema):
    """Why a sheet no longer counts."""

    why = fields.String(required=True, validate=validate.Regexp(r"(?s)\S(.{0,398}\S)?\Z", error=SAID))


class SheetDigest(Schema):
    """Which sheet it was."""

    digest = fields.String(required=True)


class SheetJobRow(Schema):
    """A job that recorded a lot of the material; `results` of it rest on this revision."""

    job = fields.String(required=True)
    order = fields.String(required=True)
    filed_ms = fields.Integer(required=True, metadata={"description": "0 while the job is open"})
    lots = fields.List(fields.String(), required=True)
    results = fields.Integer(required=True)


class SheetJobs(Schema):
    """The newest record first."""

    jobs = fields.List(fields.Nested(SheetJobRow), required=True)


@routes.on("GET", "/api/sheets", Callers.OFFICE, gives=SheetRows)
def sheets() -> dict[str, object]:
    """Every revision of every sheet, and what may be entered."""
    return {
        "sheets": [_row(one) for one in kept_sheets(parts().office.stock)],
        "figures": {group: [asdict(one) for one in figures] for group, figures in FIGURES.items()},
    }


@routes.on("POST", "/api/sheets", Callers.OFFICE, takes=NewSheet, gives=SheetDigest, status=201)
def add_sheet(body: dict[str, Any]) -> dict[str, object]:
    """Add a sheet; cards reckon with it from their next contact on. Faults name their fields."""
    return {"digest": keep_sheet(parts().office, calling_office().id, body)}


@routes.on("POST", "/api/sheets/<sheet>/withdraw", Callers.OFFICE, takes=Withdrawal, gives=Nothing)
def withdraw(body: dict[str, Any], sheet: str) -> dict[str, object]:
    """Reckon with it no more: the revision before it counts again, or the method's own figures."""
    withdraw_sheet(parts().office, calling_office().id, sheet, body["why"])
    return {}


@routes.on("GET", "/api/sheets/<digest>/jobs", Callers.OFFICE, gives=SheetJobs)
def sheet_jobs(digest: str) -> dict[str, object]:
    """Which jobs used the material, by lot, and which results rest on this revision."""
    return {"jobs": [asdict(one) for one in jobs_of_sheet(parts().office, digest)]}


def _row(kept: KeptSheet) -> dict[str, object]:
    own = {key: getattr(kept, key) for key in OWN}
    return {**asdict(kept.told), **own}
