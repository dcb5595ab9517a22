"""Takes back methods and drawings that this server had lost; a hash says that they are the same."""

from __future__ import annotations

import json

from bayleaf.canonical.digest import sha256_hex
from bayleaf.domain.method import method_of
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal


def take_back_method(office: Office, digest: str, text: bytes) -> None:
    """A compiled method that a job here pins, or none that it knows."""
    _require_hash(digest, text)
    if not _is_pinned(office, digest):
        raise Refusal("unknown_method", "No job here pins a method with this digest.", "digest")
    try:
        method_of(json.loads(text))
    except (ValueError, KeyError, TypeError) as error:
        raise Refusal("broken_request", f"Not a compiled method ({error}).") from error
    office.methods.put(digest, text.decode(), "", office.clock.now_ms())


def take_back_drawing(office: Office, sha256: str, drawn: bytes) -> None:
    """A drawing that a method here names."""
    _require_hash(sha256, drawn)
    texts = office.methods.texts(office.methods.digests())
    if not any(sha256 in json.loads(text)["drawings"].values() for text in texts.values()):
        raise Refusal("not_found", "No method here names a drawing with this hash.", "sha256")
    office.methods.put_drawing(sha256, drawn)


def _require_hash(digest: str, content: bytes) -> None:
    if sha256_hex(content) != digest:
        raise Refusal("wrong_digest", "The bytes have another SHA-256 than the address names.", "digest")


def _is_pinned(office: Office, digest: str) -> bool:
    with office.log.reading() as log:
        pins = (pin for row in log.jobs() for pin in log.of_kinds(row.id, {"pin"}))
        return any(digest in json.loads(pin.text)["body"].get("methods", ()) for pin in pins)
