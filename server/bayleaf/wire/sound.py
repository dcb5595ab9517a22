"""The quick way through: entries that are sound in every respect, as nearly all are. Says yes, or nothing.

Whatever it does not know to be sound is read again by `entries.read_entry`, which says what is wrong with it.
A sound entry of a known kind has known members only, and the schemas have seen each of its values; so the
text is canonical if it is what its value is written as: no number can be unsafe, no key can be doubled.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from typing import Any

import orjson

from bayleaf.canonical.form import MAX_BYTES, MAX_SAFE
from bayleaf.domain.kinds import is_kind
from bayleaf.wire.bodies import SHAPES, shape_of
from bayleaf.wire.shapes import quick_check
from bayleaf.wire.values import digest

BODY_CHECKS = {shape: quick_check(shape) for shapes in SHAPES.values() for shape in shapes}
MEMBERS = 14
_SHARED = ("v", "kind", "job", "device", "by", "load", "auth")
_COUNTS = ("v", "seq", "at_ms", "mono_ms")
_REMEMBERED = 10_000
_remembered: set[tuple[object, ...]] = set()
_is_hash = digest().check


def remember(parsed: Mapping[str, Any]) -> None:
    """Who, where and what: the entries of one push share it, and it has been judged to be sound."""
    if len(_remembered) >= _REMEMBERED:
        _remembered.clear()
    _remembered.add(_shared(parsed))


def sound_entry(text: str) -> dict[str, Any] | None:
    """The members of an entry that this program knows whole and finds sound; None is no verdict."""
    try:
        raw = text.encode()
        parsed = orjson.loads(raw)
        return parsed if len(parsed) == MEMBERS and _is_sound(parsed, raw) else None
    except (ValueError, KeyError, TypeError):
        return None


def _is_sound(parsed: dict[str, Any], raw: bytes) -> bool:
    if b"\\u0000" in raw or len(raw) > MAX_BYTES or _shared(parsed) not in _remembered:
        return False
    written = orjson.dumps(parsed, option=orjson.OPT_SORT_KEYS)
    return written == raw and _has_its_hash(parsed, raw) and _rest_is_sound(parsed)


def _has_its_hash(parsed: dict[str, Any], raw: bytes) -> bool:
    """In a canonical text the last `hash` member, cut out, leaves what is hashed."""
    member = f',"hash":"{parsed["hash"]}"'.encode()
    at = raw.rfind(member)
    cut = raw[:at] + raw[at + len(member) :]
    return at > 0 and hashlib.sha256(cut).hexdigest() == parsed["hash"]


def _rest_is_sound(parsed: dict[str, Any]) -> bool:
    """What the entries of one push do not share."""
    for name in _COUNTS:
        count = parsed[name]
        if type(count) is not int or not 0 <= count <= MAX_SAFE:
            return False
    kind, body = parsed["kind"], parsed["body"]
    if parsed["v"] != 1 or parsed["seq"] == 0 or not is_kind(kind) or type(body) is not dict:
        return False
    return _is_hash(parsed["prev"]) and BODY_CHECKS[shape_of(kind, body)](body)


def _shared(parsed: Mapping[str, Any]) -> tuple[object, ...]:
    return (*(parsed[name] for name in _SHARED), *parsed["as"])
