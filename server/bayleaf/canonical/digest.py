"""SHA-256 of bytes, of an entry, and of the set of a job's hashes."""

import hashlib
from collections.abc import Iterable, Mapping
from typing import Any, Final

from bayleaf.canonical.form import dumps, respelled

NO_ENTRY: Final = "0" * 64  # what stands in `prev` of a chain's first entry


def sha256_hex(content: bytes) -> str:
    """The lower-case hex SHA-256 of some bytes."""
    return hashlib.sha256(content).hexdigest()


def text_hash(text: str) -> str:
    """The lower-case hex SHA-256 of a text's UTF-8."""
    return sha256_hex(text.encode("utf-8"))


def entry_hash(entry: Mapping[str, Any]) -> str:
    """The hash of an entry: of the canonical JSON of all its members but `hash` itself."""
    return text_hash(dumps(_bare(entry)))


def parsed_hash(parsed: Mapping[str, Any]) -> str:
    """The hash of an entry that `parse_strict` has read; the same as `entry_hash`, without a second look."""
    return text_hash(respelled(_bare(parsed)))


def set_digest(hashes: Iterable[str]) -> str:
    """The digest of a set of entries: SHA-256 of their hashes, each once, sorted, joined by line feeds."""
    return text_hash("\n".join(sorted(set(hashes))))


def value_digest(value: Any) -> str:
    """The SHA-256 of a value's canonical JSON: `state_digest` of a card state, the digest of a method."""
    return text_hash(dumps(value))


def _bare(entry: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in entry.items() if key != "hash"}
