"""What every drawn photo is made of: a wall with uneven light, words, cards."""

from __future__ import annotations

import random

from PIL import Image, ImageDraw, ImageFont

WIDTH, HEIGHT = 1600, 1200
METAL, DARK, RESIN, WALL, FLOOR = (
    (168, 172, 170),
    (44, 48, 47),
    (70, 66, 58),
    (196, 198, 190),
    (120, 118, 112),
)
RED = (176, 40, 36)
Pen = ImageDraw.ImageDraw


def scene(background: tuple[int, int, int], seed: int) -> Image.Image:
    """A wall with uneven light and grain, so that no two shots look like flat colour."""
    chance = random.Random(seed)
    small = Image.new("RGB", (160, 120))
    for y in range(120):
        for x in range(160):
            light = 0.75 + 0.35 * (1 - ((x - 50) ** 2 + (y - 40) ** 2) / 25_000) + chance.uniform(-0.03, 0.03)
            small.putpixel((x, y), tuple(min(255, int(part * light)) for part in background))
    return small.resize((WIDTH, HEIGHT), Image.Resampling.BICUBIC)


def label(pen: Pen, at: tuple[int, int], text: str, size: int = 60, ink: tuple[int, int, int] = DARK) -> None:
    pen.text(at, text, fill=ink, font=ImageFont.load_default(size), anchor="mm")


def card(pen: Pen, box: tuple[int, int, int, int], text: str) -> None:
    """A paper card in the picture."""
    pen.rectangle(box, fill=(246, 244, 236), outline=DARK, width=4)
    label(pen, ((box[0] + box[2]) // 2, (box[1] + box[3]) // 2), text, size=(box[3] - box[1]) // 2)
