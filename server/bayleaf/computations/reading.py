"""Holds an asked document to the schema of its computation; the first fault as one sentence."""

from __future__ import annotations

import json
from typing import Any

from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError, relevance

from bayleaf.computations.allowed import in_words
from bayleaf.computations.parsing import ONE_OBJECT, inside, not_finite, parsed
from bayleaf.computations.refusal import DocumentRefused
from bayleaf.computations.shapes import Computation, Inputs

SHOWN = 60
ALTERNATIVES_TOLD = 4


def read_inputs(computation: Computation, written: str | bytes) -> Inputs:
    """The inputs of a written document. Raises DocumentRefused."""
    return parsed_inputs(computation, parsed(written))


def parsed_inputs(computation: Computation, document: Any) -> Inputs:
    """The inputs of a parsed document in which numbers may be odd. Raises DocumentRefused."""
    odd = next(not_finite(document), None)
    if odd is not None:
        field, found = odd
        whole = _meaning(computation, field.partition(".")[0].partition("[")[0])
        raise DocumentRefused(field, found, f"finite numbers; {whole}")
    return checked_inputs(computation, document)


def checked_inputs(computation: Computation, document: Any) -> Inputs:
    """The inputs with the schema's defaults filled in. Raises DocumentRefused."""
    if not isinstance(document, dict):
        raise DocumentRefused("", _shown(document), ONE_OBJECT)
    faults = list(Draft202012Validator(computation.schema()).iter_errors(document))
    if faults:
        raise _refused(_innermost(max(faults, key=relevance)), computation)
    return {**computation.defaults(), **document}


def _innermost(fault: ValidationError) -> ValidationError:
    """Of alternatives for one value, the fault of the one that is of its kind: a list, or named lists."""
    if fault.validator != "anyOf":
        return fault
    of_its_kind = [one for one in fault.context or () if one.schema_path[1] != "type"]
    return max(of_its_kind, key=relevance) if of_its_kind else fault


def _refused(fault: ValidationError, computation: Computation) -> DocumentRefused:
    found: Any = fault.instance
    wanted: Any = fault.validator_value
    schema: Any = fault.schema
    where = ""
    for step in fault.absolute_path:
        where = inside(where, step)
    match fault.validator:
        case "required":
            missing = next(name for name in wanted if name not in found)
            return DocumentRefused(inside(where, missing), "nothing", in_words(schema["properties"][missing]))
        case "additionalProperties":
            known = list(schema["properties"])
            odd = next(name for name in found if name not in known)
            return DocumentRefused(inside(where, odd), "an unknown field", f"only {', '.join(known)}")
        case "oneOf":
            return _refused_set(computation, set(found))
        case "pattern":
            return DocumentRefused(where, _shown(found), "numbers as names, such as 23 or 4.8")
        case _:
            return DocumentRefused(where, _shown(found), in_words(schema))


def _refused_set(computation: Computation, there: set[str]) -> DocumentRefused:
    """Of sets of which exactly one must be there: the field that is wanting in the nearest."""
    named = {name for names in computation.one_of for name in names}
    near = [names for names in computation.one_of if there & named <= set(names)]
    told = near if near and there & named else list(computation.one_of)
    sets = " | ".join(", ".join(names) for names in told[:ALTERNATIVES_TOLD])
    more = " | ..." if len(told) > ALTERNATIVES_TOLD else ""
    if not near or not there & named:
        return DocumentRefused("", ", ".join(sorted(there)) or "nothing", f"exactly one of: {sets}{more}")
    nearest = min(near, key=lambda names: len(set(names) - there))
    missing = next(name for name in nearest if name not in there)
    meaning = _meaning(computation, missing)
    return DocumentRefused(missing, "nothing", f"{meaning}; exactly one of: {sets}{more}")


def _meaning(computation: Computation, field: str) -> str:
    schema = {**computation.asks, **computation.may}.get(field)
    return "a value" if schema is None else in_words(schema)


def _shown(found: Any) -> str:
    written = json.dumps(found, ensure_ascii=False)
    return written if len(written) <= SHOWN else f"{written[:SHOWN]}..."
