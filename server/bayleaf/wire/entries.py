"""Reads the text of an entry: refused with a code, or read, with a word on what is not known here yet."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from bayleaf.canonical.form import NotCanonical, parse_strict
from bayleaf.domain.entries import EntryRefused, check_envelope, check_hash, unknown_members
from bayleaf.domain.kinds import is_kind
from bayleaf.wire.bodies import shape_of
from bayleaf.wire.shapes import faults_of
from bayleaf.wire.sound import BODY_CHECKS, remember, sound_entry

_UUID = "[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}"
_HASH = "[0-9a-f]{64}"
_FAULTS_TOLD = 5


@dataclass(frozen=True, slots=True)
class ReadEntry:
    """A sound entry, its text as it came. `unknown` says what of it is not known here, or nothing."""

    hash: str
    text: str
    parsed: Mapping[str, Any]
    unknown: str


class Malformed(Exception):
    """A text that is no entry; `job` and `hash` are what it says of itself, where that can be told."""

    def __init__(self, code: str, message: str, field: str, text: str = "") -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.field = field
        self.job, self.hash = _said_of_itself(text)


def read_entry(text: str) -> ReadEntry:
    """The entry that the text spells; raises Malformed. The hash is checked before any schema."""
    quick = sound_entry(text)
    if quick is not None:
        return ReadEntry(quick["hash"], text, quick, "")
    try:
        parsed = parse_strict(text)
        check_hash(parsed)
        check_envelope(parsed)
    except (NotCanonical, EntryRefused) as error:
        raise Malformed(error.code, error.message, error.field, text) from error
    remember(parsed)
    try:
        return ReadEntry(parsed["hash"], text, parsed, _unknown(parsed))
    except Malformed as error:
        raise Malformed(error.code, error.message, error.field, text) from error


def judge_body(kind: str, body: Mapping[str, Any]) -> list[str]:
    """Raises Malformed `broken_body`; the fields that are not known here, if that is its only fault."""
    shape = shape_of(kind, body)
    if BODY_CHECKS[shape](body):
        return []
    faults, unknown = faults_of(shape, body)
    if faults:
        said = [(f"body.{field}" if field else "body", sentence) for field, sentence in faults[:_FAULTS_TOLD]]
        raise Malformed("broken_body", " ".join(": ".join(fault) for fault in said), said[0][0])
    return [f"body.{field}" for field in unknown]


def _said_of_itself(text: str) -> tuple[str, str]:
    try:
        told = json.loads(text)
    except (ValueError, RecursionError):
        told = None
    if isinstance(told, dict):
        return _matching(_UUID, told.get("job")), _matching(_HASH, told.get("hash"))
    jobs = re.findall(f'"job":"({_UUID})"', text)
    return str(jobs[-1]) if jobs else "", ""


def _matching(pattern: str, found: object) -> str:
    return found if isinstance(found, str) and re.fullmatch(pattern, found) else ""


def _unknown(parsed: Mapping[str, Any]) -> str:
    """What this server does not know of an entry; raises Malformed where it knows better."""
    if parsed["v"] != 1:
        return f"v: form {parsed['v']} of the envelope is not known here; 1 is."
    kind = parsed["kind"]
    if not is_kind(kind):
        return f"kind: {kind} is not known here."
    strangers = unknown_members(parsed) + judge_body(kind, parsed["body"])
    return f"{', '.join(strangers)}: not known here." if strangers else ""
