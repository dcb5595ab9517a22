"""Puts every body and every entry into the OpenAPI document; the phone's types are generated from it."""

from __future__ import annotations

from typing import Any

from apispec import APISpec

from bayleaf.domain.kinds import KINDS
from bayleaf.wire.bodies import SHAPES
from bayleaf.wire.envelope import Envelope
from bayleaf.wire.shapes import Shape


def describe_entries(spec: APISpec) -> None:
    """Adds the bodies, `Envelope`, one schema per kind of entry, and `Entry`, which is one of them."""
    _describe(spec, "Envelope", Envelope)
    for kind in KINDS:
        spec.components.schema(f"{_camel(kind)}Entry", _entry(spec, kind))
    spec.components.schema("Entry", {"oneOf": [_ref(f"{_camel(kind)}Entry") for kind in KINDS]})


def _entry(spec: APISpec, kind: str) -> dict[str, Any]:
    properties = dict(spec.components.schemas["Envelope"]["properties"])
    properties["kind"] = {"type": "string", "enum": [kind]}
    properties["body"] = _body(spec, kind)
    return {
        "type": "object",
        "required": sorted(properties),
        "properties": properties,
        "additionalProperties": False,
    }


def _body(spec: APISpec, kind: str) -> dict[str, Any]:
    shapes = SHAPES[kind]
    for shape in shapes:
        _describe(spec, shape.__name__, shape)
    if len(shapes) == 1:
        return _ref(shapes[0].__name__)
    name = f"{_camel(kind)}Body"
    if name not in spec.components.schemas:
        spec.components.schema(name, {"oneOf": [_ref(shape.__name__) for shape in shapes]})
    return _ref(name)


def _describe(spec: APISpec, name: str, shape: type[Shape]) -> None:
    if name in spec.components.schemas:
        return
    spec.components.schema(name, schema=shape)
    described = spec.components.schemas[name]
    described["additionalProperties"] = False
    described["description"] = (shape.__doc__ or "").strip()


def _ref(name: str) -> dict[str, Any]:
    return {"$ref": f"#/components/schemas/{name}"}


def _camel(kind: str) -> str:
    return "".join(part.capitalize() for part in kind.split("_"))
