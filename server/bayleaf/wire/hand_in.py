"""Reads the hand-in file that a phone writes: a line that names the form, a line of JSON, then bytes."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from marshmallow import EXCLUDE, ValidationError, fields

from bayleaf.wire.shapes import Inside, Shape
from bayleaf.wire.values import Listed, OneOf, Whole, Words, digest, uuid

FIRST_LINE = b"bayleaf-handin-1\n"
SIGNATURE = 128
MANY = 1_000_000
CARD = 20_000


class BrokenHandIn(ValueError):
    """A file that is no hand-in."""


class HeadShape(Shape):
    """A signed head as it travels."""

    job = uuid()
    device = uuid()
    seq = Whole(1)
    hash = digest()
    signature = Words(SIGNATURE)


class CardShape(Shape):
    """A device card as it travels."""

    card = Words(CARD)
    signature = Words(SIGNATURE)


class RefusedShape(Shape):
    """A raw text that the server refused, or would."""

    text = Words(MANY)
    code = Words(64)


class PhotoShape(Shape):
    """A photo whose bytes follow."""

    sha256 = digest()
    type = OneOf(("image/jpeg", "image/png"))
    bytes = Whole(1)
    job = uuid()


class ThumbShape(Shape):
    """A thumbnail whose bytes follow."""

    sha256 = digest()
    bytes = Whole(1)


class HandInShape(Shape):
    """The second line."""

    class Meta:
        """A newer phone may say more."""

        unknown = EXCLUDE

    device = uuid()
    made_ms = Whole(0)
    cards = Listed(Inside(CardShape), MANY)
    heads = Listed(Inside(HeadShape), MANY)
    entries = fields.List(fields.String(), required=True)
    refused = Listed(Inside(RefusedShape), MANY)
    photos = Listed(Inside(PhotoShape), MANY)
    thumbs = Listed(Inside(ThumbShape), MANY)


@dataclass(frozen=True)
class HandInHead:
    """A signed head."""

    job: str
    device: str
    seq: int
    hash: str
    signature: str


@dataclass(frozen=True)
class HandInCard:
    """A device card."""

    card: str
    signature: str


@dataclass(frozen=True)
class HandInPhoto:
    """A photo with its bytes."""

    sha256: str
    type: str
    job: str
    content: bytes


@dataclass(frozen=True)
class HandIn:
    """What the file holds."""

    device: str
    cards: Sequence[HandInCard]
    heads: Sequence[HandInHead]
    entries: Sequence[str]
    refused: Sequence[str]
    photos: Sequence[HandInPhoto]
    thumbs: Sequence[tuple[str, bytes]]


def read_hand_in(file: bytes) -> HandIn:
    """Raises BrokenHandIn with a sentence; a file that was cut is broken, whatever it still holds."""
    if not file.startswith(FIRST_LINE):
        raise BrokenHandIn("The file does not begin with bayleaf-handin-1: it is no hand-in of a phone.")
    line, newline, rest = file[len(FIRST_LINE) :].partition(b"\n")
    if not newline:
        raise BrokenHandIn("The file ends within its second line: it was cut.")
    told = _told(line)
    sizes = [item["bytes"] for item in (*told["photos"], *told["thumbs"])]
    if sum(sizes) != len(rest):
        raise BrokenHandIn(f"Photos: {sum(sizes)} bytes are announced and {len(rest)} follow.")
    blobs = _cut(rest, sizes)
    return HandIn(
        device=told["device"],
        cards=[HandInCard(**card) for card in told["cards"]],
        heads=[HandInHead(**head) for head in told["heads"]],
        entries=told["entries"],
        refused=[refused["text"] for refused in told["refused"]],
        photos=[
            HandInPhoto(photo["sha256"], photo["type"], photo["job"], blob)
            for photo, blob in zip(told["photos"], blobs, strict=False)
        ],
        thumbs=[
            (thumb["sha256"], blob)
            for thumb, blob in zip(told["thumbs"], blobs[len(told["photos"]) :], strict=True)
        ],
    )


def _told(line: bytes) -> dict[str, Any]:
    try:
        told: dict[str, Any] = HandInShape().load(json.loads(line))
    except (ValueError, RecursionError) as error:
        raise BrokenHandIn(f"The second line is no JSON: {error}.") from error
    except ValidationError as error:
        raise BrokenHandIn(f"The second line is no list of records: {str(error.messages)[:300]}.") from error
    return told


def _cut(rest: bytes, sizes: Sequence[int]) -> list[bytes]:
    blobs, at = [], 0
    for size in sizes:
        blobs.append(rest[at : at + size])
        at += size
    return blobs
