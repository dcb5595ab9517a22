"""Reads the hand-in file that a phone writes: a line that names the form, a line of JSON, then bytes.

The bytes of pictures stay in the file until they are asked for, so that no file fills the memory.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import IO, Any

from marshmallow import EXCLUDE, ValidationError, fields

from bayleaf.wire.shapes import Inside, Shape
from bayleaf.wire.values import Listed, OneOf, Whole, Words, digest, uuid

FIRST_LINE = b"bayleaf-handin-1\n"
SIGNATURE = 128
MANY = 1_000_000
CARD = 20_000
LINE = 64_000_000  # a phone's unsent entries, many times over
CHUNK = 1 << 16


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
class Blob:
    """Bytes that lie in the file."""

    file: IO[bytes]
    at: int
    size: int

    def chunks(self) -> Iterator[bytes]:
        """All of them, piece by piece."""
        for start in range(0, self.size, CHUNK):
            self.file.seek(self.at + start)
            yield self.file.read(min(CHUNK, self.size - start))


@dataclass(frozen=True)
class HandInPhoto:
    """A photo with its bytes."""

    sha256: str
    type: str
    job: str
    content: Blob


@dataclass(frozen=True)
class HandIn:
    """What the file holds; its pictures can be read as long as the file is open."""

    device: str
    cards: Sequence[HandInCard]
    heads: Sequence[HandInHead]
    entries: Sequence[str]
    refused: Sequence[str]
    photos: Sequence[HandInPhoto]
    thumbs: Sequence[tuple[str, Blob]]


def read_hand_in(file: IO[bytes]) -> HandIn:
    """Raises BrokenHandIn with a sentence; a file that was cut is broken, whatever it still holds.

    The file has to be one that can seek.
    """
    if file.read(len(FIRST_LINE)) != FIRST_LINE:
        raise BrokenHandIn("The file does not begin with bayleaf-handin-1: it is no hand-in of a phone.")
    line = file.readline(LINE + 1)
    if len(line) > LINE:
        raise BrokenHandIn(f"The second line is over the {LINE} bytes that it may have.")
    if not line.endswith(b"\n"):
        raise BrokenHandIn("The file ends within its second line: it was cut.")
    told, at = _told(line), file.tell()
    sizes = [item["bytes"] for item in (*told["photos"], *told["thumbs"])]
    follow = file.seek(0, os.SEEK_END) - at
    if sum(sizes) != follow:
        raise BrokenHandIn(f"Photos: {sum(sizes)} bytes are announced and {follow} follow.")
    blobs = _cut(file, at, sizes)
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


def _cut(file: IO[bytes], at: int, sizes: Sequence[int]) -> list[Blob]:
    blobs = []
    for size in sizes:
        blobs.append(Blob(file, at, size))
        at += size
    return blobs
