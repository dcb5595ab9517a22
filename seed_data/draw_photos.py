"""Draws the demonstration's photos: invented scenes of an invented part, the same bytes every time.

Usage, from the folder above: python -m seed_data.draw_photos [FOLDER]. Writes JPEGs into FOLDER (default:
photos beside this file), named `<step>-<slot>.jpg` after the photo slots of methods/spine.yaml and
methods/rear_frame.yaml. Every picture says that it is invented. Needs Pillow.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from textwrap import wrap

from PIL import Image, ImageDraw, ImageFilter
from seed_data.photo_pen import DARK, label, scene
from seed_data.photo_practice import SCENES
from seed_data.photo_slots import SLOTS, draw_slot

from bayleaf.method_files import compile_methods

HERE = Path(__file__).parent
PRACTICE_QUALITY, QUALITY = 60, 50
SMALL = (1200, 900)
WALLS = ((196, 198, 190), (182, 180, 172), (176, 180, 178), (150, 156, 158))


def main(folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    for name, picture, quality in (*practice_photos(), *frame_photos()):
        path = folder / f"{name}.jpg"
        picture.filter(ImageFilter.GaussianBlur(1.2)).save(path, "JPEG", quality=quality)
        print(f"{path}: {path.stat().st_size} bytes")


def practice_photos() -> Iterator[tuple[str, Image.Image, int]]:
    """Those of the practice method."""
    for seed, (name, (draw, background)) in enumerate(SCENES.items()):
        picture = scene(background, seed)
        pen = ImageDraw.Draw(picture)
        draw(pen)
        label(pen, (1300, 1165), "DRAWN, INVENTED", 40, (70, 70, 70))
        yield name, picture, PRACTICE_QUALITY


def frame_photos() -> Iterator[tuple[str, Image.Image, int]]:
    """Those of the rear frame, each with its slot's words."""
    words = wanted(HERE / "methods" / "rear_frame.yaml")
    for seed, name in enumerate(SLOTS):
        picture = scene(WALLS[seed % len(WALLS)], 100 + seed).resize(SMALL)
        pen = ImageDraw.Draw(picture)
        draw_slot(pen, name)
        pen.rectangle((0, 780, *SMALL), fill=(246, 244, 236))
        label(pen, (600, 808), "DRAWN, INVENTED: NOT A REAL VEHICLE", 34, (134, 21, 15))
        for row, line in enumerate(wrap(words[name], 66)):
            label(pen, (600, 846 + 34 * row), line, 32, DARK)
        yield name, picture, QUALITY


def wanted(file: Path) -> dict[str, str]:
    """What each photo slot of a method file must show, by `<step>-<slot>`."""
    drawings = {path.name: path.read_bytes() for path in file.parent.glob("*.svg")}
    documents = [one.document for one in compile_methods(file.read_text("utf-8"), drawings)]
    steps = [step for one in documents for stage in one["stages"] for step in stage["steps"]]
    asks = [(step["id"], ask) for step in steps for ask in step["asks"] if ask["kind"] == "photo"]
    return {f"{step}-{ask['id']}": str(ask["show"]) for step, ask in asks}


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else HERE / "photos")
