"""The published JSON Schema of a zone document, and its errors as sentences with field, found and allowed."""

from __future__ import annotations

import difflib
import json
import math
from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from typing import Any, cast

from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError, best_match

from bayleaf.heat.faults import Fault

NAMES = {
    "object": "a mapping",
    "array": "a list",
    "number": "a number",
    "string": "text",
    "integer": "a whole number",
}


@cache
def zone_schema() -> dict[str, Any]:
    """The schema, for editors and for `bayleaf heat schema`."""
    loaded: dict[str, Any] = json.loads(files("bayleaf.heat").joinpath("zone.schema.json").read_text("utf-8"))
    return loaded


def schema_faults(document: object) -> list[Fault]:
    """Every breach of the schema; figures that are not finite are named first, and alone."""
    unbounded = list(_not_finite(document, ""))
    if unbounded:
        return unbounded
    errors = Draft202012Validator(zone_schema()).iter_errors(document)
    return sorted({_fault(error) for error in errors}, key=lambda fault: fault.field)


def _not_finite(value: object, at: str) -> Iterator[Fault]:
    if isinstance(value, float) and not math.isfinite(value):
        yield Fault(at or "document", f"found {value}, allowed a finite number")
    if isinstance(value, dict):
        for key, one in value.items():
            yield from _not_finite(one, f"{at}.{key}" if at else str(key))
    if isinstance(value, list):
        for number, one in enumerate(value):
            yield from _not_finite(one, f"{at}[{number}]")


def _fault(error: ValidationError) -> Fault:
    if error.validator == "oneOf":
        error = _meant(error)
    field, schema, found = _field(error), cast("dict[str, Any]", error.schema), cast("Any", error.instance)
    match error.validator:
        case "required":
            missing = next(key for key in schema["required"] if key not in found)
            return Fault(_joined(field, missing), f"missing, {_allowed(schema['properties'][missing])}")
        case "additionalProperties":
            known = list(schema["properties"])
            extra = next(key for key in found if key not in known)
            close = difflib.get_close_matches(str(extra), known, 1)
            hint = f"did you mean {close[0]}?" if close else f"allowed: {', '.join(known)}"
            return Fault(_joined(field, str(extra)), f"unknown field, {hint}")
        case _:
            return Fault(field or "document", f"found {_found(found)}, {_allowed(schema)}")


def _meant(error: ValidationError) -> ValidationError:
    """Of several forms that a figure may have, the breach of the one that was meant: that of its own type."""
    within = [one for one in error.context if not (one.validator == "type" and one.parent is error)]
    deepest = max(within, key=lambda one: len(one.absolute_path), default=None)
    same = [one for one in error.context if one.validator != "type"]
    return deepest or best_match(same) or best_match(error.context) or error


def _field(error: ValidationError) -> str:
    field = ""
    for part in error.absolute_path:
        field = f"{field}[{part}]" if isinstance(part, int) else _joined(field, part)
    return field


def _joined(field: str, key: str) -> str:
    return f"{field}.{key}" if field else key


def _found(value: object) -> str:
    if isinstance(value, (dict, list)):
        return f"{'a mapping' if isinstance(value, dict) else 'a list'} of {len(value)}"
    return json.dumps(value, default=str)


def _allowed(schema: dict[str, Any]) -> str:
    if "enum" in schema:
        return f"allowed {', '.join(map(str, schema['enum']))}"
    words = [str(NAMES.get(schema.get("type", ""), ""))]
    words += [f"above {schema['exclusiveMinimum']:g}"] if "exclusiveMinimum" in schema else []
    words += [f"from {schema['minimum']:g}"] if "minimum" in schema else []
    words += [f"up to {schema['maximum']:g}"] if "maximum" in schema else []
    words += [f"({schema['description']})"] if "description" in schema else []
    return "allowed " + " ".join(word for word in words if word)
