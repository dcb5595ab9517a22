"""Imports a hand-in: the unsent records of a phone that will not see the network again, as a file."""

from __future__ import annotations

import hashlib
from collections import Counter
from dataclasses import replace
from typing import IO

from bayleaf.photo_ports import Upload
from bayleaf.ports import Caller, SignedHead
from bayleaf.usecases.cards import is_signed_card, read_card
from bayleaf.usecases.fates import Brought, Fate, FateOf, ShownCard
from bayleaf.usecases.office import Office
from bayleaf.usecases.receive_entries import receive_entries
from bayleaf.usecases.receive_photo import THUMB_BYTES, add_to_upload, begin_upload, put_thumb
from bayleaf.usecases.refusal import Refusal
from bayleaf.wire.hand_in import Blob, BrokenHandIn, HandIn, HandInPhoto, read_hand_in

AT_ONCE = 500


def hand_in(office: Office, caller: Caller, file: IO[bytes]) -> dict[str, object]:
    """The same fates as by sync; a second import of the same file changes nothing."""
    try:
        found = read_hand_in(file)
    except BrokenHandIn as error:
        raise Refusal("broken_handin", str(error), "file") from error
    _require_whole(found)
    fates = _receive(office, found)
    photos = Counter(_receive_photo(office, caller, photo) for photo in found.photos)
    thumbs = Counter(_receive_thumb(office, sha256, thumb) for sha256, thumb in found.thumbs)
    counts = Counter(str(fate.fate) for fate in fates if not fate.known)
    return {
        "taken": counts[Fate.TAKEN],
        "set_aside": counts[Fate.SET_ASIDE],
        "refused": counts[Fate.REFUSED],
        "known": sum(fate.known for fate in fates),
        "photos": photos["new"],
        "pictures_refused": photos["refused"] + thumbs["refused"],
        "jobs": sorted({fate.job for fate in fates if fate.job}),
        "devices": _devices(office, found),
    }


def _receive(office: Office, found: HandIn) -> list[FateOf]:
    """In portions, each with all heads and cards, so that no transaction holds the store for long."""
    heads = [SignedHead(head.job, head.device, head.seq, head.hash, head.signature) for head in found.heads]
    brought = Brought((), heads, [ShownCard(card.card, card.signature) for card in found.cards])
    texts = [*found.entries, *found.refused]
    fates: list[FateOf] = []
    for start in range(0, len(texts), AT_ONCE):
        some = receive_entries(office, found.device, replace(brought, texts=texts[start : start + AT_ONCE]))
        fates += [replace(fate, index=fate.index + start) for fate in some]
    return fates


def _require_whole(found: HandIn) -> None:
    """Before anything is kept: a file whose pictures were changed on the way is not to be trusted at all."""
    pictures = [(photo.sha256, photo.content) for photo in found.photos]
    for sha256, content in (*pictures, *found.thumbs):
        digest = hashlib.sha256()
        for chunk in content.chunks():
            digest.update(chunk)
        if digest.hexdigest() != sha256:
            said = f"picture {sha256}: its bytes have another SHA-256; the file was changed on the way."
            raise Refusal("broken_handin", said, "file")


def _receive_photo(office: Office, caller: Caller, photo: HandInPhoto) -> str:
    """new, known or refused: one that is no photo holds up nothing else, and is counted."""
    if office.photos.held([photo.sha256]):
        return "known"
    claimed = Upload("", photo.sha256, photo.content.size, photo.type, photo.job, caller.device, 0)
    try:
        begun = begin_upload(office, caller, claimed)
        add_to_upload(office, caller, begun.id, 0, photo.content.chunks())
    except Refusal:
        return "refused"
    return "new"


def _receive_thumb(office: Office, sha256: str, thumb: Blob) -> str:
    if thumb.size > THUMB_BYTES:
        return "refused"
    try:
        put_thumb(office, sha256, b"".join(thumb.chunks()))
    except Refusal:
        return "refused"
    return "kept"


def _devices(office: Office, found: HandIn) -> list[str]:
    names = {
        read_card(card.card).name
        for card in found.cards
        if is_signed_card(office.keys, office.seal.public_key, card.card, card.signature)
    }
    known = office.devices.find(found.device)
    return sorted(names | ({known.name} if known is not None else set()))
