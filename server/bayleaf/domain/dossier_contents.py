"""Reads the members of a dossier that are looked into: entries, heads, cards, methods, and `about.json`."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from bayleaf.canonical.form import NotCanonical, dumps
from bayleaf.domain import dossier
from bayleaf.domain.dossier import DossierFault, Seen
from bayleaf.domain.entries import Entry, EntryRefused, read_entry
from bayleaf.domain.method import MethodDoc, method_of

ABOUT_KEYS: Mapping[str, type] = {
    "v": int, "job": str, "file": str, "filed_ms": int, "reason": str, "log": str, "fold": int,
    "set_digest": str, "state_digest": str, "gaps": list, "unlinked": list, "unsigned": list,
    "photos_missing": list,
}  # fmt: skip
# Only where they say something: what is missing, which dossiers an addendum follows, what else is beside.
ABOUT_MAY: Mapping[str, type] = {
    "missing": list,
    "supersedes": list,
    "papers": list,
    "readings": list,
    "sheets": list,
    "heat": list,
    "time_zone": dict,
}
TIME_ZONE_KEYS: Mapping[str, type] = {"name": str, "offsets": list, "until_ms": int}
BESIDE_KEYS: Mapping[str, type] = {"sha256": str, "name": str}
HEAT_KEYS: Mapping[str, type] = {
    "method": str, "zone": str, "digest": str, "model": str, "pinned_ms": int, "ended_ms": int,
    "document_sha256": str, "answer_sha256": str, "response_sha256": str,
}  # fmt: skip
EARLIER_KEYS: Mapping[str, type] = {"dossier": str, "sha256": str, "file": str}
ABOUT_ROWS: Mapping[str, Mapping[str, type]] = {
    "supersedes": EARLIER_KEYS,
    "papers": BESIDE_KEYS,
    "readings": BESIDE_KEYS,
    "sheets": BESIDE_KEYS,
    "heat": HEAT_KEYS,
}
HEAD_KEYS: Mapping[str, type] = {"job": str, "device": str, "seq": int, "hash": str, "signature": str}
CARD_KEYS: Mapping[str, type] = {"card": str, "signature": str}


@dataclass(frozen=True)
class Contents:
    """What a dossier holds, typed; photos and drawings by name only."""

    about: Mapping[str, Any]
    entries: tuple[Entry, ...]
    heads: tuple[Mapping[str, Any], ...]
    cards: Mapping[str, Mapping[str, Any]]
    card_signatures: Mapping[str, tuple[str, str]]
    methods: Mapping[str, MethodDoc]


def read_contents(seen: Mapping[str, Seen]) -> Contents:
    """Raises DossierFault for the first member that is missing or not in its form."""
    for name in (*dossier.ALWAYS, dossier.BAGIT, dossier.BAG_INFO, dossier.MANIFEST, dossier.TAG_MANIFEST):
        if name not in seen:
            raise DossierFault(f"{name}: missing")
    cards = {card["device"]: (card, row) for card, row in _cards(seen)}
    return Contents(
        about=_about(canonical_object(dossier.ABOUT, text_of(seen, dossier.ABOUT))),
        entries=tuple(_entries(text_of(seen, dossier.ENTRIES))),
        heads=tuple(_rows(seen, dossier.HEADS, HEAD_KEYS)),
        cards={device: card for device, (card, _) in cards.items()},
        card_signatures={device: (row["card"], row["signature"]) for device, (_, row) in cards.items()},
        methods=dict(_methods(seen)),
    )


def _about(found: dict[str, Any]) -> dict[str, Any]:
    may = {name: kind for name, kind in ABOUT_MAY.items() if name in found}
    about = held_to(found, {**ABOUT_KEYS, **may}, dossier.ABOUT)
    if any(not about[name] for name in may):
        raise DossierFault(f"{dossier.ABOUT}: {sorted(may)} stand there only where they say something")
    if not all(isinstance(one, str) for one in about.get("missing", [])):
        raise DossierFault(f"{dossier.ABOUT}: missing: not texts")
    for name, keys in ABOUT_ROWS.items():
        for row in about.get(name, []):
            held_to(row if isinstance(row, dict) else {}, keys, f"{dossier.ABOUT} {name}")
    if "time_zone" in about:
        held_to(about["time_zone"], TIME_ZONE_KEYS, f"{dossier.ABOUT} time_zone")
    return about


def text_of(seen: Mapping[str, Seen], name: str) -> str:
    try:
        return seen[name].content.decode("utf-8")
    except UnicodeDecodeError as error:
        raise DossierFault(f"{name}: not UTF-8 at byte {error.start}") from error


def canonical_object(where: str, text: str) -> dict[str, Any]:
    """The object that a canonical text spells."""
    try:
        value = json.loads(text)
        same = isinstance(value, dict) and dumps(value) == text
    except (ValueError, RecursionError) as error:
        raise DossierFault(f"{where}: not canonical JSON ({error})") from error
    if not same:
        raise DossierFault(f"{where}: not canonical JSON")
    found: dict[str, Any] = value
    return found


def held_to(row: dict[str, Any], keys: Mapping[str, type], where: str) -> dict[str, Any]:
    """The row, if it has exactly these keys of these types."""
    wrong = [key for key, kind in keys.items() if type(row.get(key)) is not kind]
    if wrong or row.keys() != keys.keys():
        raise DossierFault(f"{where}: found keys {sorted(row)}, needed {sorted(keys)} in their form")
    return row


def _lines(name: str, text: str) -> Iterator[tuple[str, str]]:
    """Each line with its place; every line, the last too, ends with a line feed."""
    if text and not text.endswith("\n"):
        raise DossierFault(f"{name}: its last line has no end")
    for number, line in enumerate(text.split("\n")[:-1], 1):
        yield f"{name} line {number}", line


def _rows(seen: Mapping[str, Seen], name: str, keys: Mapping[str, type]) -> Iterator[dict[str, Any]]:
    for where, line in _lines(name, text_of(seen, name)):
        yield held_to(canonical_object(where, line), keys, where)


def _entries(text: str) -> Iterator[Entry]:
    for where, line in _lines(dossier.ENTRIES, text):
        try:
            yield read_entry(line)
        except (NotCanonical, EntryRefused) as error:
            raise DossierFault(f"{where}: {error.code}: {error.message}") from error


def _cards(seen: Mapping[str, Seen]) -> Iterator[tuple[dict[str, Any], dict[str, Any]]]:
    for row in _rows(seen, dossier.CARDS, CARD_KEYS):
        card = canonical_object(dossier.CARDS, row["card"])
        if not isinstance(card.get("device"), str) or not isinstance(card.get("public_key"), str):
            raise DossierFault(f"{dossier.CARDS}: a card without device or public_key")
        yield card, row


def _methods(seen: Mapping[str, Seen]) -> Iterator[tuple[str, MethodDoc]]:
    for name, member in seen.items():
        if not name.startswith("data/methods/"):
            continue
        if name != dossier.method_name(member.sha256):
            raise DossierFault(f"{name}: its bytes have the digest {member.sha256}")
        try:
            yield member.sha256, method_of(canonical_object(name, text_of(seen, name)))
        except (KeyError, TypeError, ValueError) as error:
            raise DossierFault(f"{name}: not a compiled method ({error!r})") from error
