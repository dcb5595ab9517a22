"""The drawn photos: one for every slot of the shipped methods, small, and each a picture of its own."""

from __future__ import annotations

import io
from hashlib import sha256
from pathlib import Path

import pytest
from PIL import Image

from bayleaf.demo_photos import PHOTO_FOLDER, demo_photo
from bayleaf.method_files import compile_methods

METHODS = Path(__file__).parents[3] / "seed_data" / "methods"
DRAWINGS = {path.name: path.read_bytes() for path in METHODS.glob("*.svg")}


def slots(file: str) -> list[tuple[str, str]]:
    documents = [one.document for one in compile_methods((METHODS / file).read_text("utf-8"), DRAWINGS)]
    steps = [step for one in documents for stage in one["stages"] for step in stage["steps"]]
    return [(step["id"], ask["id"]) for step in steps for ask in step["asks"] if ask["kind"] == "photo"]


@pytest.mark.parametrize(("file", "count"), [("spine.yaml", 7), ("rear_frame.yaml", 54)])
def test_every_slot_has_a_drawn_photo_of_its_own(file: str, count: int) -> None:
    photos = [demo_photo(step, slot) for step, slot in slots(file)]
    assert len({sha256(photo).hexdigest() for photo in photos}) == count
    for photo in photos:
        with Image.open(io.BytesIO(photo)) as picture:
            assert picture.format == "JPEG"
            assert max(picture.size) <= 1600


def test_all_of_them_are_carried_lightly() -> None:
    assert sum(path.stat().st_size for path in PHOTO_FOLDER.iterdir()) < 3_000_000


def test_a_slot_without_a_drawn_photo_is_told() -> None:
    with pytest.raises(KeyError, match="rem-01-none: no drawn photo"):
        demo_photo("rem-01", "none")
