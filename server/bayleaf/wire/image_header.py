"""Reads type and size of a picture from its first bytes; decodes nothing.

JPEG: ITU-T T.81, annex B: markers FFxx, segments with their length, frame headers SOF0 to SOF15.
PNG: W3C PNG (third edition), 5.2 signature and 11.2.1 IHDR.
"""

from __future__ import annotations

from dataclasses import dataclass

JPEG_START = b"\xff\xd8\xff"
PNG_START = b"\x89PNG\r\n\x1a\n"
PNG_HEADER_BYTES = 24
MAGIC_BYTES = 8
FRAME_MARKERS = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
BARE_MARKERS = frozenset(range(0xD0, 0xD8)) | {0x01}
START_OF_SCAN = 0xDA
END_OF_IMAGE = 0xD9


@dataclass(frozen=True)
class ImageHeader:
    """What the header claims."""

    type: str
    width: int
    height: int


def type_of(start: bytes) -> str:
    """By the magic bytes; empty for anything but JPEG and PNG."""
    if start.startswith(JPEG_START):
        return "image/jpeg"
    return "image/png" if start.startswith(PNG_START) else ""


def read_header(start: bytes) -> ImageHeader | None:
    """None where these bytes hold no JPEG or PNG header."""
    match type_of(start):
        case "image/png":
            return _png(start)
        case "image/jpeg":
            return _jpeg(start)
        case _:
            return None


def _png(start: bytes) -> ImageHeader | None:
    if len(start) < PNG_HEADER_BYTES or start[12:16] != b"IHDR":
        return None
    return ImageHeader("image/png", int.from_bytes(start[16:20], "big"), int.from_bytes(start[20:24], "big"))


def _jpeg(start: bytes) -> ImageHeader | None:
    at = 2
    while at + 9 <= len(start):
        if start[at] != 0xFF:  # noqa: PLR2004  (what begins every marker)
            return None
        marker = start[at + 1]
        if marker == 0xFF:  # noqa: PLR2004  (a fill byte)
            at += 1
        elif marker in BARE_MARKERS:
            at += 2
        elif marker in FRAME_MARKERS:
            height = int.from_bytes(start[at + 5 : at + 7], "big")
            return ImageHeader("image/jpeg", int.from_bytes(start[at + 7 : at + 9], "big"), height)
        elif marker in (START_OF_SCAN, END_OF_IMAGE):
            return None
        else:
            at += 2 + int.from_bytes(start[at + 2 : at + 4], "big")
    return None
