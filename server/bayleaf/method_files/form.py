"""Holds a method file to its published JSON Schema and words each fault for the person who can mend it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from decimal import Decimal
from functools import cache
from importlib.resources import files
from typing import Any

from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError
from jsonschema.validators import extend

from .faults import Fault, Path, shown
from .tree import Source, label

SCHEMA_FILE = "method.schema.json"


def method_schema() -> dict[str, Any]:
    """The published JSON Schema (draft 2020-12) of a method file."""
    schema: dict[str, Any] = json.loads(files(__package__).joinpath(SCHEMA_FILE).read_text("utf-8"))
    return schema


@cache
def validator() -> Any:
    """The schema's validator; a figure with decimals is no integer, even 3.0."""
    checker = Draft202012Validator.TYPE_CHECKER.redefine("integer", _is_integer).redefine(
        "number", _is_number
    )
    exact: Any = extend(Draft202012Validator, type_checker=checker)  # type: ignore[no-untyped-call]  # its stub lacks types
    return exact(method_schema())


def _is_integer(_checker: Any, value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)


def _is_number(_checker: Any, value: Any) -> bool:
    return isinstance(value, int | Decimal) and not isinstance(value, bool)


def form_faults(source: Source) -> dict[Fault, Path]:
    """Every fault of form, with the path whose value is not to be looked at further."""
    errors = validator().iter_errors(source.values)
    return {fault: path for error in errors for path, fault in _worded(source, error)}


def _worded(source: Source, error: ValidationError) -> Iterator[tuple[Path, Fault]]:
    path: Path = tuple(error.absolute_path)
    schema: dict[str, Any] = error.schema if isinstance(error.schema, dict) else {}
    if error.validator == "required":
        yield path, _fault(source, path, *_missing(error, schema))
        return
    if error.validator == "additionalProperties":
        allowed = "known keys: " + ", ".join(schema["properties"])
        instance: Any = error.instance
        for key in instance:
            if key not in schema["properties"]:
                yield (*path, key), _fault(source, (*path, key), f"the unknown key `{key}`", allowed)
        return
    allowed = str(schema.get("description", error.message))
    yield path, _fault(source, path, shown(error.instance), f"allowed: {allowed}")


def _missing(error: ValidationError, schema: dict[str, Any]) -> tuple[str, str]:
    """What a mapping lacks: jsonschema names it first in its message."""
    key = error.message.split("'")[1]
    wanted = schema.get("properties", {}).get(key, {})
    wanted = method_schema()["$defs"][wanted["$ref"].rsplit("/", 1)[1]] if "$ref" in wanted else wanted
    return f"no `{key}`", f"needed: {wanted.get('description', key)}"


def _fault(source: Source, path: Path, found: str, allowed: str) -> Fault:
    return Fault(source.line(path), label(source.values, path), found, allowed)
