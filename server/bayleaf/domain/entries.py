"""An entry: one immutable record made on one device, and the checks of its envelope.

`read_entry` tells the two refusals that need no schema: a wrong hash and a broken envelope. An envelope
of another `v` is checked like any other, since its job, device and chain must be readable to keep it;
members that this program does not know are no fault here (`unknown_members` names them).
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from bayleaf.canonical.digest import parsed_hash
from bayleaf.canonical.form import MAX_SAFE, parse_strict

NIL: Final = "00000000-0000-0000-0000-000000000000"  # stands in `by` where no person acted
AUTHS: Final = ("own", "pin", "picked")


class EntryRefused(ValueError):
    """An entry that is malformed; `code` never changes, `message` is a sentence, `field` names the member."""

    def __init__(self, code: str, message: str, field: str = "") -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.field = field


@dataclass(frozen=True, slots=True, eq=False)
class Entry:
    """One entry as its envelope names it; `as_` is the envelope's `as`. Identity is `hash`."""

    v: int
    job: str
    device: str
    seq: int
    by: str
    auth: str
    as_: tuple[str, ...]
    at_ms: int
    mono_ms: int
    load: str
    kind: str
    body: Mapping[str, Any]
    prev: str
    hash: str


def read_entry(text: str) -> Entry:
    """The entry that a text spells; raises NotCanonical or EntryRefused, both with code, message, field."""
    parsed = parse_strict(text)
    check_hash(parsed)
    check_envelope(parsed)
    return entry_of(parsed)


def entry_of(parsed: Mapping[str, Any]) -> Entry:
    """The entry in a mapping whose envelope has been checked."""
    return Entry(
        v=parsed["v"],
        job=parsed["job"],
        device=parsed["device"],
        seq=parsed["seq"],
        by=parsed["by"],
        auth=parsed["auth"],
        as_=tuple(parsed["as"]),
        at_ms=parsed["at_ms"],
        mono_ms=parsed["mono_ms"],
        load=parsed["load"],
        kind=parsed["kind"],
        body=parsed["body"],
        prev=parsed["prev"],
        hash=parsed["hash"],
    )


def check_hash(parsed: Mapping[str, Any]) -> None:
    """Raises EntryRefused `wrong_hash` unless `hash` is that of all other members, parsed strictly before."""
    expected = parsed_hash(parsed)
    if parsed.get("hash") != expected:
        found = str(parsed.get("hash", "none"))[:64]
        raise EntryRefused("wrong_hash", f"hash: found {found}, the entry's own hash is {expected}.", "hash")


def check_envelope(parsed: Mapping[str, Any]) -> None:
    """Raises EntryRefused `broken_envelope` for the first member, in the envelope's order, that is wrong."""
    for field, (allowed, holds) in _ENVELOPE.items():
        if field not in parsed:
            raise EntryRefused("broken_envelope", f"{field}: missing; {allowed} is needed.", field)
        if not holds(parsed[field]):
            found = repr(parsed[field])[:60]
            raise EntryRefused("broken_envelope", f"{field}: found {found}; allowed is {allowed}.", field)


def unknown_members(parsed: Mapping[str, Any]) -> list[str]:
    """The members of an envelope that this program does not know, sorted."""
    return sorted(parsed.keys() - _ENVELOPE.keys())


def _matches(pattern: str) -> Callable[[Any], bool]:
    matching = re.compile(pattern)
    return lambda found: isinstance(found, str) and matching.fullmatch(found) is not None


def _integer_from(least: int) -> Callable[[Any], bool]:
    return lambda found: type(found) is int and least <= found <= MAX_SAFE


def _is_as(found: Any) -> bool:
    is_id = _matches(r"[a-z0-9_-]{1,64}")
    return isinstance(found, list) and all(is_id(item) for item in found) and sorted(set(found)) == found


_IS_UUID = _matches(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
_IS_HASH = _matches(r"[0-9a-f]{64}")
_UUID_NEED = "a lower-case UUID"
_HASH_NEED = "64 lower-case hex digits"

_ENVELOPE: Final[dict[str, tuple[str, Callable[[Any], bool]]]] = {
    "v": ("an integer from 1", _integer_from(1)),
    "job": (_UUID_NEED, _IS_UUID),
    "device": (_UUID_NEED, _IS_UUID),
    "seq": ("an integer from 1", _integer_from(1)),
    "by": (_UUID_NEED, _IS_UUID),
    "auth": ("own, pin or picked", lambda found: isinstance(found, str) and found in AUTHS),
    "as": ("a sorted list of different ids [a-z0-9_-]{1,64}", _is_as),
    "at_ms": ("an integer from 0", _integer_from(0)),
    "mono_ms": ("an integer from 0", _integer_from(0)),
    "load": (_UUID_NEED, _IS_UUID),
    "kind": ("a word [a-z_]{1,32}", _matches(r"[a-z_]{1,32}")),
    "body": ("an object", lambda found: isinstance(found, dict)),
    "prev": (_HASH_NEED, _IS_HASH),
    "hash": (_HASH_NEED, _IS_HASH),
}
