"""Materials, adhesives, rivets and bits as they ship: each value with its unit, range and source."""

from __future__ import annotations

from functools import cache
from typing import Any

from marshmallow import Schema, fields
from ruamel.yaml import YAML

from bayleaf.http.callers import Callers
from bayleaf.http.routes import Routes
from bayleaf.seed_folder import SEED_FOLDER

routes = Routes("materials")
FILES = ("adhesives", "rivets", "bits", "materials")
TOLD_APART = ("about", "properties", "limits", "rows", "tables", "sheet")


class MaterialValue(Schema):
    """One figure; `source` is a title, 'from memory' or 'invented for the demo'."""

    name = fields.String(required=True)
    value = fields.Float(required=True)
    low = fields.Float(required=True)
    high = fields.Float(required=True)
    unit = fields.String(required=True)
    source = fields.String(required=True)
    applies = fields.String(required=True)


class GripRow(Schema):
    """A rivet's length and the grips that it is for, in mm."""

    length = fields.Float(required=True)
    low = fields.Float(required=True)
    high = fields.Float(required=True)


class Material(Schema):
    """One material, adhesive, rivet or bit; `facts` are its other words, such as cures_by."""

    id = fields.String(required=True)
    about = fields.String(required=True)
    facts = fields.Dict(keys=fields.String(), values=fields.String(), required=True)
    values = fields.List(fields.Nested(MaterialValue), required=True)
    limits = fields.List(fields.Nested(MaterialValue), required=True)
    grips = fields.List(fields.Nested(GripRow), required=True)
    grips_source = fields.String(required=True)


class MaterialGroup(Schema):
    """One file of seed_data/materials."""

    group = fields.String(required=True)
    revision = fields.String(required=True)
    things = fields.List(fields.Nested(Material), required=True)


class MaterialGroups(Schema):
    """All of them; they are read-only."""

    groups = fields.List(fields.Nested(MaterialGroup), required=True)


@routes.on("GET", "/api/materials", Callers.OFFICE, gives=MaterialGroups)
def materials() -> dict[str, object]:
    """What the computations know of materials, with where each figure is from."""
    return {"groups": [_group(name) for name in FILES]}


@cache
def _group(name: str) -> dict[str, object]:
    path = SEED_FOLDER / "materials" / f"{name}.yaml"
    found: dict[str, Any] = YAML(typ="safe").load(path.read_text(encoding="utf-8"))
    things = [_thing(id_, thing) for id_, thing in found[name].items()]
    return {"group": name, "revision": found["revision"], "things": things}


def _thing(id_: str, thing: dict[str, Any]) -> dict[str, object]:
    rows = thing.get("rows", {})
    return {
        "id": id_,
        "about": thing["about"],
        "facts": {key: str(value) for key, value in thing.items() if key not in TOLD_APART},
        "values": [
            {"name": key, "applies": "", **value} for key, value in thing.get("properties", {}).items()
        ],
        "limits": [_limit(limit) for limit in thing.get("limits", ())],
        "grips": [dict(zip(("length", "low", "high"), row, strict=True)) for row in rows.get("grips", ())],
        "grips_source": rows.get("source", ""),
    }


def _limit(limit: dict[str, Any]) -> dict[str, object]:
    kept = {key: limit[key] for key in ("value", "low", "high", "unit", "source")}
    return {"name": limit["effect"], "applies": limit["applies_to"], **kept}
