"""Makes a photo small enough for a page; in the typesetter's child process only, since it decodes."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Final

from PIL import Image, ImageOps

MOST_PIXELS: Final = {"JPEG": 120_000_000, "PNG": 40_000_000}  # a JPEG is decoded at a fraction of its size
QUALITY: Final = 80
EDGES: Final = ((80, 1000), (200, 800), (10**9, 640))  # up to so many photos: their longer edge in pixels
WHITE: Final = (255, 255, 255)


Image.MAX_IMAGE_PIXELS = None  # the limits above stand in its place, in this process only


class BadPicture(Exception):
    """Why a photo cannot be shown, in words."""


def edge_for(photos: int) -> int:
    """The longer edge in pixels, so that a report of many photos stays within its size."""
    return next(edge for most, edge in EDGES if photos <= most)


def shrink(source: Path, sha256: str, target: Path, edge: int) -> None:
    """Writes the photo as an upright RGB JPEG of at most `edge` pixels; raises BadPicture."""
    with source.open("rb") as file:
        if hashlib.file_digest(file, "sha256").hexdigest() != sha256:
            raise BadPicture("Its bytes are no longer those of this hash.")
    try:
        _shrink(source, target, edge)
    except BadPicture:
        raise
    except Exception as error:
        raise BadPicture(f"It cannot be decoded ({type(error).__name__}).") from error


def _shrink(source: Path, target: Path, edge: int) -> None:
    with Image.open(source, formats=("JPEG", "PNG")) as opened:
        most = MOST_PIXELS[opened.format or "PNG"]
        if opened.width * opened.height > most:
            raise BadPicture(f"It has {opened.width} x {opened.height} pixels; at most {most} are decoded.")
        opened.draft("RGB", _fitting(opened.size, edge))
        upright = ImageOps.exif_transpose(opened)
        upright.thumbnail((edge, edge), Image.Resampling.LANCZOS, reducing_gap=2.0)
        _on_white(upright).save(target, "JPEG", quality=QUALITY)


def _fitting(size: tuple[int, int], edge: int) -> tuple[int, int]:
    """The size with its longer edge at `edge`: a JPEG is decoded near to it, which costs a fraction."""
    longer = max(size)
    return max(size[0] * edge // longer, 1), max(size[1] * edge // longer, 1)


def _on_white(picture: Image.Image) -> Image.Image:
    """Without transparency, palette or a fourth ink."""
    if picture.mode in ("RGBA", "LA", "PA") or "transparency" in picture.info:
        clear = picture.convert("RGBA")
        paper = Image.new("RGB", clear.size, WHITE)
        paper.paste(clear, mask=clear.getchannel("A"))
        return paper
    return picture.convert("RGB")
