"""Reads an asking document: strict JSON, then its schema; the first fault as one sentence."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Mapping
from typing import Any

from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError, relevance

from bayleaf.computations.shapes import Computation, Inputs

MOST_BYTES = 4_000_000
SHOWN = 60


class DocumentRefused(ValueError):
    """Names the field ("" for the document itself), what was found, and what is allowed."""

    def __init__(self, field: str, found: str, allowed: str, shown: Mapping[str, Any] | None = None) -> None:
        super().__init__(f"{field or 'document'}: found {found}; allowed: {allowed}")
        self.field = field
        self.found = found
        self.allowed = allowed
        self.shown = dict(shown or {})


def read_inputs(computation: Computation, written: str) -> Inputs:
    """The inputs of a written document. Raises DocumentRefused."""
    parsed = _parsed(written)
    odd = next(_not_finite(parsed, ""), None)
    if odd is not None:
        field, found = odd
        whole = _meaning(computation, field.partition(".")[0].partition("[")[0])
        raise DocumentRefused(field, found, f"finite numbers; {whole}")
    return checked_inputs(computation, parsed)


def checked_inputs(computation: Computation, document: Any) -> Inputs:
    """The inputs with the schema's defaults filled in. Raises DocumentRefused."""
    if not isinstance(document, dict):
        raise DocumentRefused("", _shown(document), "one JSON object")
    faults = list(Draft202012Validator(computation.schema()).iter_errors(document))
    if faults:
        raise _refused(max(faults, key=relevance), computation)
    return {**computation.defaults(), **document}


def _parsed(written: str) -> Any:
    if len(written) > MOST_BYTES:
        raise DocumentRefused("", f"{len(written)} characters", f"at most {MOST_BYTES}")
    try:
        return json.loads(
            written, object_pairs_hook=_no_twins, parse_constant=_NotFinite, parse_float=_finite
        )
    except json.JSONDecodeError as error:
        found = f"no JSON at line {error.lineno}, column {error.colno} ({error.msg})"
        raise DocumentRefused("", found, "one JSON object") from error
    except RecursionError as error:
        raise DocumentRefused("", "brackets nested too deep", "one JSON object") from error


def _no_twins(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    read: dict[str, Any] = {}
    for name, value in pairs:
        if name in read:
            raise DocumentRefused(name, "the name twice in one object", "each name once")
        read[name] = value
    return read


class _NotFinite:
    """What stands where no number can: NaN, an infinity, or digits beyond all range."""

    def __init__(self, written: str) -> None:
        self.written = written


def _finite(written: str) -> float | _NotFinite:
    number = float(written)
    return number if math.isfinite(number) else _NotFinite(written)


def _not_finite(value: Any, where: str) -> Iterator[tuple[str, str]]:
    """(field, what is written there), in the order of the document."""
    match value:
        case _NotFinite():
            yield where, value.written
        case dict():
            for name, inner in value.items():
                yield from _not_finite(inner, f"{where}.{name}".removeprefix("."))
        case list():
            for place, inner in enumerate(value):
                yield from _not_finite(inner, f"{where}[{place}]")


def _refused(fault: ValidationError, computation: Computation) -> DocumentRefused:
    found: Any = fault.instance
    wanted: Any = fault.validator_value
    where = fault.json_path.removeprefix("$").removeprefix(".")
    match fault.validator:
        case "required":
            missing = next(name for name in wanted if name not in found)
            field = f"{where}.{missing}".removeprefix(".")
            return DocumentRefused(field, "nothing", _meaning(computation, field))
        case "additionalProperties":
            schema: Any = fault.schema
            known = list(schema["properties"])
            odd = next(name for name in found if name not in known)
            return DocumentRefused(
                f"{where}.{odd}".removeprefix("."), "an unknown field", f"only {', '.join(known)}"
            )
        case "oneOf":
            sets = " | ".join(", ".join(names) for names in computation.one_of)
            return DocumentRefused("", ", ".join(found) or "nothing", f"exactly one of: {sets}")
        case "pattern":
            return DocumentRefused(where, _shown(found), "numbers as names, such as 23 or 4.8")
        case _:
            return DocumentRefused(where, _shown(found), _allowed(fault.schema))


def _meaning(computation: Computation, field: str) -> str:
    schema = {**computation.asks, **computation.may}.get(field)
    return "a value" if schema is None else _allowed(schema)


def _allowed(schema: Any) -> str:
    """A schema in words: its range or kind, and what it means."""
    if not isinstance(schema, dict):
        return "nothing more"
    about = schema.get("description", "")
    if "enum" in schema:
        return f"one of {', '.join(schema['enum'])} ({about})"
    if "exclusiveMinimum" in schema or "minimum" in schema:
        return f"{_range(schema)} ({about})"
    if schema.get("type") in ("array", "object") and "minItems" in schema:
        return f"a list of {schema['minItems']} to {schema['maxItems']} items ({about})"
    return f"{schema.get('type', 'a value')} ({about})"


def _range(schema: Mapping[str, Any]) -> str:
    kind = "whole number" if schema["type"] == "integer" else "number"
    low = f"from {schema['minimum']:g}" if "minimum" in schema else f"above {schema['exclusiveMinimum']:g}"
    high = f"to {schema['maximum']:g}" if "maximum" in schema else f"under {schema['exclusiveMaximum']:g}"
    return f"a {kind} {low} {high}"


def _shown(found: Any) -> str:
    written = json.dumps(found, ensure_ascii=False)
    return written if len(written) <= SHOWN else f"{written[:SHOWN]}..."
