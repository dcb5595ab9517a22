"""A schema in words: its range or kind, and what it means, as a refusal says it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

_KINDS = {
    "boolean": "true or false",
    "string": "a text",
    "number": "a number",
    "integer": "a whole number",
    "array": "a list",
    "object": "an object",
}
Schema = Mapping[str, Any]


def in_words(schema: Any) -> str:
    """What a schema allows, with its description behind."""
    if not isinstance(schema, dict):
        return "nothing more"
    about = schema.get("description", "")
    return f"{_kind(schema)} ({about})" if about else _kind(schema)


def _kind(schema: Schema) -> str:
    if "enum" in schema:
        return f"one of {', '.join(schema['enum'])}"
    if "anyOf" in schema:
        return " or ".join(_kind(one) for one in schema["anyOf"])
    kind = _KINDS.get(schema.get("type", ""), "a value")
    return f"{kind} {_range(schema)}".rstrip()


def _range(schema: Schema) -> str:
    match schema.get("type"):
        case "number" | "integer":
            return _of_numbers(schema)
        case "string":
            return _of_sizes(schema, "Length", "characters")
        case "array":
            return _of_sizes(schema, "Items", "items")
        case "object":
            return _of_sizes(schema, "Properties", "names")
        case _:
            return ""


def _of_numbers(schema: Schema) -> str:
    low = f"from {_plain(schema['minimum'])}" if "minimum" in schema else ""
    low = f"above {_plain(schema['exclusiveMinimum'])}" if "exclusiveMinimum" in schema else low
    high = f"to {_plain(schema['maximum'])}" if "maximum" in schema else ""
    high = f"under {_plain(schema['exclusiveMaximum'])}" if "exclusiveMaximum" in schema else high
    return f"{low} {high}".strip()


def _of_sizes(schema: Schema, what: str, things: str) -> str:
    low, high = schema.get(f"min{what}", 0), schema.get(f"max{what}")
    if high is None:
        return ""
    return f"of {high} {things}" if low == high else f"of {low} to {high} {things}"


def _plain(number: float) -> str:
    return f"{number:.10g}"
