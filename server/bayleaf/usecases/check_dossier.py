"""Checks a dossier by itself: no server, no extraction, its container read once."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any, Protocol

from bayleaf.canonical.digest import sha256_hex
from bayleaf.domain import dossier
from bayleaf.domain.dossier import DossierFault, Seen
from bayleaf.domain.dossier_contents import Contents, canonical_object, held_to, read_contents, text_of
from bayleaf.domain.fold import FOLD_VERSION
from bayleaf.usecases.dossier_faults import Verifies, content_faults

PUBLIC_KEY = re.compile(r"04[0-9a-f]{128}")


class Container(Protocol):
    """A dossier's file, read front to back, once."""

    folder: str

    @property
    def sha256(self) -> str: ...
    def members(self) -> Iterator[Seen]: ...


class SealShown(StrEnum):
    """What could be said of the seal."""

    SAME = "sealed by this fingerprint"
    OTHER = "sealed by another fingerprint"
    NOT_COMPARED = "seal not compared"
    BROKEN = "seal broken"


@dataclass(frozen=True)
class Verdict:
    """What the check could show. An intact dossier has no `faults`; `notes` are none."""

    faults: tuple[str, ...]
    notes: tuple[str, ...]
    seal: SealShown
    fingerprint: str
    sha256: str
    job: str = ""
    entries: int = 0
    devices: int = 0
    photos: int = 0

    @property
    def intact(self) -> bool:
        return not self.faults

    @property
    def good(self) -> bool:
        """Intact, and not sealed by somebody else than was asked for."""
        return self.intact and self.seal in {SealShown.SAME, SealShown.NOT_COMPARED}


@dataclass
class _Check:
    """One check under way."""

    verifies: Verifies
    seen: dict[str, Seen] = field(default_factory=dict)
    faults: list[str] = field(default_factory=list)
    seal: dossier.Seal | None = None


def check_dossier(container: Container, verifies: Verifies, seal_fingerprint: str = "") -> Verdict:
    """Reads the container once and judges it.

    `verifies(public key, text, signature)` checks ECDSA P-256; `seal_fingerprint` is the SHA-256 of the
    seal's public key, empty where there is none to compare with.
    """
    check = _Check(verifies)
    contents: Contents | None = None
    try:
        for member in container.members():
            check.seen[member.name] = member
        check.seal = _read_seal(check)
        contents = read_contents(check.seen)
        check.faults += _all_faults(check, contents, container.folder)
    except DossierFault as fault:
        check.faults.append(str(fault))
    return _verdict(check, contents, container.sha256, seal_fingerprint)


def _verdict(check: _Check, contents: Contents | None, sha256: str, wanted: str) -> Verdict:
    fingerprint = sha256_hex(bytes.fromhex(check.seal.public_key)) if check.seal else ""
    if check.seal is None:
        shown = SealShown.BROKEN
    elif not wanted:
        shown = SealShown.NOT_COMPARED
    else:
        shown = SealShown.SAME if wanted == fingerprint else SealShown.OTHER
    if contents is None:
        return Verdict(tuple(check.faults), (), shown, fingerprint, sha256)
    return Verdict(
        tuple(check.faults),
        () if check.faults else tuple(_notes(check, contents)),
        shown,
        fingerprint,
        sha256,
        job=str(contents.about["job"]),
        entries=len(contents.entries),
        devices=len({entry.device for entry in contents.entries}),
        photos=sum(name.startswith("data/photos/") for name in check.seen),
    )


def _read_seal(check: _Check) -> dossier.Seal:
    """The seal, if its signature over the tag manifest holds; it covers every other byte."""
    for name in (dossier.SEAL, dossier.TAG_MANIFEST):
        if name not in check.seen:
            raise DossierFault(f"{name}: missing")
    found = canonical_object(dossier.SEAL, text_of(check.seen, dossier.SEAL))
    held_to(found, {"v": int, "public_key": str, "signature": str}, dossier.SEAL)
    seal = dossier.Seal(found["public_key"], found["signature"])
    message = dossier.seal_message(text_of(check.seen, dossier.TAG_MANIFEST))
    if found["v"] != dossier.FORM or not PUBLIC_KEY.fullmatch(seal.public_key):
        raise DossierFault(f"{dossier.SEAL}: not a seal of a form that this program knows")
    if not check.verifies(seal.public_key, message, seal.signature):
        raise DossierFault(f"{dossier.SEAL}: its signature does not hold for this tag manifest")
    if seal != dossier.seal_of(seal.public_key, seal.signature):
        raise DossierFault(f"{dossier.SEAL}: its signature is not in its one spelling")
    return seal


def _all_faults(check: _Check, contents: Contents, folder: str) -> Iterator[str]:
    """A hostile file may hold entries that no schema took: a fault, and no crash."""
    wanted = dossier.bag_name(contents.about["job"])
    if folder != wanted:
        yield f"{folder}: the bag of another job, needed {wanted}"
    sealed_by = check.seal.public_key if check.seal else ""
    try:
        yield from content_faults(check.seen, contents, sealed_by, check.verifies)
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError, RecursionError) as error:
        yield f"contents: not in their form ({error!r})"


def _notes(check: _Check, contents: Contents) -> Iterator[str]:
    about: Any = contents.about
    if about["fold"] != FOLD_VERSION:
        yield f"card state not folded anew: filed by fold {about['fold']}, this program has {FOLD_VERSION}"
    for earlier in about.get("supersedes", []):
        yield f"addendum: follows dossier {earlier['dossier']}, SHA-256 {earlier['sha256']}"
    if about["reason"]:
        yield f"filed incomplete, the reason written: {about['reason']}"
    if "missing" in about:
        yield f"missing when it was filed: {', '.join(about['missing'])}"
    yield from (
        f"chain {gap['device']}: {gap['first']} to {gap['last']} never arrived" for gap in about["gaps"]
    )
    for key, what in (
        ("unsigned", "entries without a signed head"),
        ("photos_missing", "photos that never arrived"),
    ):
        if about[key]:
            yield f"{what}: {len(about[key])}"
    refused = check.seen[dossier.REFUSED].content.count(b"\n")
    if refused:
        yield f"refused texts kept beside the entries: {refused}"
