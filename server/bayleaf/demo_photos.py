"""The drawn photos of the demonstration, read by photo slot; nothing is drawn when it runs."""

from __future__ import annotations

from typing import Final

from bayleaf.seed_folder import SEED_FOLDER

PHOTO_FOLDER: Final = SEED_FOLDER / "photos"


def demo_photo(step: str, slot: str) -> bytes:
    """The JPEG of a photo slot of the shipped methods, which says itself that it is invented.

    Raises KeyError where no photo is drawn for the slot, or where this is no clone.
    """
    file = PHOTO_FOLDER / f"{step}-{slot}.jpg"
    if not file.is_file():
        raise KeyError(f"{step}-{slot}: no drawn photo in {PHOTO_FOLDER}")
    return file.read_bytes()
