"""Words for the fields of a document: each makes a piece of JSON Schema with unit, range and meaning."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bayleaf.computations.shapes import Schema

LARGEST = 1e9
MOST_ITEMS = 10_000
LONGEST_TEXT = 200
MM_HIGH = 100_000


def number(
    about: str,
    *,
    low: float = -LARGEST,
    high: float = LARGEST,
    above: float | None = None,
    below: float | None = None,
    default: float | None = None,
) -> Schema:
    """A number with its range; `above` and `below` leave out the limit itself."""
    schema: Schema = {"type": "number", "description": about}
    schema |= {"minimum": low} if above is None else {"exclusiveMinimum": above}
    schema |= {"maximum": high} if below is None else {"exclusiveMaximum": below}
    return schema if default is None else {**schema, "default": default}


def whole(about: str, *, low: int = 0, high: int = 1_000_000, default: int | None = None) -> Schema:
    """A whole number with its range."""
    schema: Schema = {"type": "integer", "description": about, "minimum": low, "maximum": high}
    return schema if default is None else {**schema, "default": default}


def mm(about: str, *, zero: bool = False) -> Schema:
    """A length in mm: above zero, or from zero on."""
    return number(about, low=0, high=MM_HIGH) if zero else number(about, above=0, high=MM_HIGH)


def minutes(about: str, *, zero: bool = True) -> Schema:
    """A duration in minutes."""
    return number(about, low=0, high=1e6) if zero else number(about, above=0, high=1e6)


def celsius(about: str, *, low: float = -60, high: float = 400) -> Schema:
    """A temperature in C."""
    return number(about, low=low, high=high)


def text(
    about: str,
    *,
    choices: tuple[str, ...] = (),
    default: str | None = None,
    empty: bool = False,
    longest: int = LONGEST_TEXT,
) -> Schema:
    """A text, or one of some words."""
    schema: Schema = {"type": "string", "description": about}
    schema |= {"enum": list(choices)} if choices else {"minLength": 0 if empty else 1, "maxLength": longest}
    return schema if default is None else {**schema, "default": default}


def flag(about: str, *, default: bool | None = None) -> Schema:
    """Yes or no."""
    schema: Schema = {"type": "boolean", "description": about}
    return schema if default is None else {**schema, "default": default}


def listed(about: str, items: Schema, *, least: int = 1, default: list[Any] | None = None) -> Schema:
    """A list of equal things."""
    schema: Schema = {
        "type": "array",
        "description": about,
        "items": items,
        "minItems": least,
        "maxItems": MOST_ITEMS,
    }
    return schema if default is None else {**schema, "default": default}


def tupled(about: str, *items: Schema) -> Schema:
    """A list of a fixed length, place by place."""
    return {
        "type": "array",
        "description": about,
        "prefixItems": list(items),
        "items": False,
        "minItems": len(items),
        "maxItems": len(items),
    }


def mapped(about: str, values: Schema, *, keys: str = "", least: int = 1, most: int = MOST_ITEMS) -> Schema:
    """Values by name; `keys` is a pattern that the names follow."""
    schema: Schema = {
        "type": "object",
        "description": about,
        "additionalProperties": values,
        "minProperties": least,
        "maxProperties": most,
    }
    return {**schema, "propertyNames": {"pattern": keys}} if keys else schema


def record(about: str, asks: Mapping[str, Schema], may: Mapping[str, Schema] | None = None) -> Schema:
    """A thing with named fields."""
    return {
        "type": "object",
        "description": about,
        "properties": {**asks, **(may or {})},
        "required": list(asks),
        "additionalProperties": False,
    }


NUMBER_KEY = r"^-?[0-9]{1,4}(\.[0-9]{1,4})?$"
POINT_MM = tupled("x, y in mm", number("x, mm"), number("y, mm"))
POINT_3D_MM = tupled("x, y, z in mm", number("x, mm"), number("y, mm"), number("z, mm"))
DIAMETER = number("nominal diameter of the rivet, mm", above=0, high=30)
EDGE_2D = number("edge minimum, in diameters", above=0, high=20, default=2.0)
PITCH_3D = number("pitch minimum, in diameters", above=0, high=20, default=3.0)
