"""The kinds of picture that the slots of the rear frame want, each drawn from a few parameters.

A kind draws on 1200 x 900.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from seed_data.photo_flange import BLUE, BRIGHT, GLUE, PALE, SOOT, Point, flange, ring
from seed_data.photo_pen import DARK, FLOOR, METAL, RED, RESIN, Pen, card, label

PAD = (158, 84, 52)


def pads(pen: Pen, names: Sequence[str] = ("U1", "U2"), letters: str = "", *, upright: bool = False) -> None:
    """Two pads end to end on the flange, sensors with their letters."""
    flange(pen, "post" if upright else "header")
    for number, name in enumerate(names):
        box = (500, 60 + 390 * number, 660, 420 + 350 * number) if upright else (
            100 + 560 * number, 320, 620 + 480 * number, 480)  # fmt: skip
        pen.rounded_rectangle(box, 16, fill=PAD, outline=DARK, width=6)
        label(pen, ((box[0] + box[2]) // 2, (box[1] + box[3]) // 2), name, 90, (245, 236, 220))
    for number, letter in enumerate(letters):
        at = (860, 110 + 150 * number) if upright else (180 + 210 * number, 680)
        pen.line([at, (700, at[1] - 40) if upright else (at[0], 540)], fill=(210, 190, 60), width=7)
        card(pen, (at[0] - 45, at[1] - 40, at[0] + 45, at[1] + 40), letter)


def display(pen: Pen, lines: Sequence[str]) -> None:
    """An instrument's display, or a sheet of paper, with lines of words."""
    pen.rounded_rectangle((130, 90, 1070, 760), 40, fill=(52, 56, 58), outline=DARK, width=8)
    pen.rectangle((190, 150, 1010, 700), fill=(214, 224, 204))
    size = min(84, 460 // max(1, len(lines)))
    for row, text in enumerate(lines):
        label(pen, (600, 220 + (450 // max(1, len(lines))) * row), text, size)


def paper(pen: Pen, lines: Sequence[str]) -> None:
    pen.rectangle((200, 70, 1000, 780), fill=(246, 244, 236), outline=DARK, width=5)
    for row, text in enumerate(lines):
        label(pen, (600, 160 + 105 * row), text, 54)


def plate(pen: Pen, text: str) -> None:
    """A stamped plate, straight on."""
    pen.rounded_rectangle((90, 330, 1110, 540), 20, fill=BRIGHT, outline=DARK, width=8)
    label(pen, (600, 435), text, 84)
    for x in (130, 1070):
        ring(pen, (x, 435), 16, METAL)


def vehicle(pen: Pen, *, rear: bool = False, left_card: bool = False, covered: bool = False) -> None:
    """A minibus seen from a corner: its face or its open rear, then its side."""
    paint = (122, 150, 148)
    pen.rectangle((0, 700, 1200, 900), fill=FLOOR)
    pen.polygon(
        [(170, 690), (170, 330), (250, 200), (860, 240), (1010, 340), (1020, 680)], fill=paint, outline=DARK
    )
    glass = SOOT if rear else (70, 84, 92)
    pen.polygon([(190, 460), (200, 320), (262, 236), (400, 246), (420, 450)], fill=glass, outline=DARK)
    pen.line([(420, 450), (430, 690)], fill=DARK, width=6)
    pen.polygon([(480, 300), (880, 318), (890, 430), (480, 420)], fill=(70, 84, 92), outline=DARK)
    for x in (330, 890):
        ring(pen, (x, 690), 84, SOOT)
        ring(pen, (x, 690), 40, METAL)
    if covered:
        pen.polygon([(440, 230), (1010, 250), (1020, 560), (450, 560)], fill=(206, 208, 210), outline=DARK)
    if left_card:
        card(pen, (1030, 420, 1190, 540), "LEFT")


def crack(pen: Pen) -> None:
    flange(pen, "corner", RESIN, marks=("heads",))
    pen.line([(640, 180), (680, 250), (650, 300), (720, 350), (690, 400)], fill=(8, 8, 8), width=9)
    rule(pen, (500, 470))


def rule(pen: Pen, at: Point, length: int = 560) -> None:
    """A scale in the picture."""
    x, y = at
    pen.rectangle((x, y, x + length, y + 70), fill=(238, 226, 150), outline=DARK, width=4)
    for tick in range(x + 20, x + length - 10, 20):
        pen.line([(tick, y), (tick, y + (34 if (tick - x) % 100 == 0 else 18))], fill=DARK, width=3)


def bay(pen: Pen) -> None:
    pen.rectangle((0, 640, 1200, 900), fill=FLOOR)
    for x in range(0, 1200, 90):
        pen.rectangle((x, 40, x + 78, 640), fill=(150, 158, 150), outline=(120, 126, 120), width=3)
    pen.rounded_rectangle((160, 420, 400, 700), 20, fill=BLUE, outline=DARK, width=6)
    pen.line([(280, 420), (300, 200), (560, 160)], fill=DARK, width=26)
    pen.rounded_rectangle((940, 470, 1030, 730), 30, fill=RED, outline=DARK, width=6)
    label(pen, (280, 560), "extraction", 40, PALE)


def lock(pen: Pen) -> None:
    pen.rounded_rectangle((420, 60, 780, 220), 24, fill=(212, 120, 40), outline=DARK, width=6)
    pen.arc((520, 190, 680, 420), 180, 360, fill=METAL, width=28)
    pen.rounded_rectangle((490, 300, 710, 470), 20, fill=RED, outline=DARK, width=6)
    card(pen, (430, 520, 770, 640), "M. Ilves")
    card(pen, (430, 645, 770, 765), "demo day 1")


def terminal(pen: Pen) -> None:
    pen.rectangle((150, 380, 1050, 800), fill=(58, 62, 64), outline=DARK, width=6)
    pen.rounded_rectangle((300, 250, 560, 420), 40, fill=RED, outline=DARK, width=6)
    ring(pen, (800, 330), 46, METAL)
    pen.line([(820, 90), (960, 60), (1120, 150)], fill=SOOT, width=26)
    label(pen, (430, 340), "cover", 60, PALE)


def stand(pen: Pen, *, brace: bool = False) -> None:
    """A stand under the sill, or the brace across the aperture."""
    if brace:
        flange(pen, "whole", RESIN)
        pen.line([(310, 600), (1080, 240)], fill=BLUE, width=34)
        for at in ((310, 600), (1080, 240)):
            ring(pen, at, 34, BRIGHT)
        return
    pen.rectangle((0, 720, 1200, 900), fill=FLOOR)
    pen.rectangle((0, 160, 1200, 280), fill=METAL, outline=DARK, width=5)
    pen.polygon([(420, 760), (780, 760), (650, 400), (550, 400)], fill=BLUE, outline=DARK)
    pen.rectangle((570, 290, 630, 420), fill=DARK)
    pen.rectangle((520, 270, 680, 300), fill=SOOT)


def loom(pen: Pen, *, fixed: bool = False) -> None:
    flange(pen, "post")
    bend = [(1000, 0), (960, 240), (1020, 500), (980, 840)]
    for aside in (0, 26, 52):
        pen.line([(x + aside, y) for x, y in bend], fill=SOOT, width=18)
    if fixed:
        pen.rectangle((930, 380, 1110, 460), fill=METAL, outline=DARK, width=5)
    else:
        rule(pen, (770, 400), 210)


def cavity(pen: Pen, *, stop: bool) -> None:
    """What a camera on a cord sees inside the post."""
    pen.rectangle((0, 0, 1200, 900), fill=SOOT)
    for size, shade in ((400, 60), (300, 86), (200, 110), (110, 70)):
        pen.ellipse((600 - size, 420 - size, 600 + size, 420 + size), fill=(shade, shade, shade - 6))
    if stop:
        pen.ellipse((490, 310, 710, 530), fill=(214, 190, 90), outline=DARK, width=5)
        pen.line([(600, 420), (560, 760)], fill=PALE, width=8)


def one_hole(pen: Pen, name: str) -> None:
    pen.rectangle((0, 0, 1200, 900), fill=METAL)
    ring(pen, (600, 410), 200, SOOT, 26)
    pen.ellipse((420, 230, 780, 590), outline=RESIN, width=22)
    label(pen, (600, 120), name, 90)


def tray(pen: Pen) -> None:
    pen.rounded_rectangle((40, 40, 1160, 800), 36, fill=(90, 98, 92), outline=DARK, width=8)
    rows = (("H", 7), ("P", 9), ("F", 6))
    for row, (letter, count) in enumerate(rows):
        for number in range(count):
            x, y = 600 + 120 * number - 60 * (count - 1), 170 + 240 * row
            ring(pen, (x, y), 52, PALE)
            ring(pen, (x - 18, y + 6), 12, METAL, 3)
            pen.line([(x - 2, y + 26), (x + 26, y - 18)], fill=(130, 134, 132), width=7)
            pen.rectangle((x + 2, y + 16, x + 28, y + 32), fill=METAL, outline=DARK, width=2)
            label(pen, (x, y - 74), f"{letter}{number + 1}", 34, PALE)


def open_joint(pen: Pen) -> None:
    pen.rectangle((0, 200, 1200, 360), fill=METAL, outline=DARK, width=5)
    pen.polygon([(0, 470), (1200, 380), (1200, 560), (0, 650)], fill=RESIN, outline=DARK)
    for x in (200, 620, 1000):
        pen.rectangle((x, 350, x + 60, 480 - x // 14), fill=(230, 226, 214), outline=DARK, width=4)


def part_off(pen: Pen) -> None:
    pen.rectangle((0, 700, 1200, 900), fill=FLOOR)
    hook = [(150, 330), (850, 210), (1010, 300), (980, 620), (860, 600), (880, 350), (820, 330), (170, 440)]
    pen.polygon(hook, fill=RESIN, outline=DARK, width=5)
    pen.line([(170, 390), (840, 270), (940, 330)], fill=GLUE, width=30)
    for x in (300, 800):
        pen.line([(x, 410), (x - 80, 740)], fill=BLUE, width=26)
        pen.line([(x, 410), (x + 80, 740)], fill=BLUE, width=26)


def corner_gap(pen: Pen) -> None:
    pen.rectangle((0, 0, 1200, 900), fill=(122, 150, 148))
    pen.line([(0, 420), (760, 420), (900, 560), (900, 900)], fill=SOOT, width=60)
    pen.polygon(
        [(380, 60), (480, 60), (480, 430), (430, 480), (380, 430)], fill=BRIGHT, outline=DARK, width=5
    )
    label(pen, (430, 200), "3.5", 56)


def section(pen: Pen) -> None:
    """A rivet cut lengthwise in its three layers."""
    for top, bottom, shade in ((280, 440, RESIN), (440, 500, GLUE), (500, 640, METAL)):
        pen.rectangle((60, top, 1140, bottom), fill=shade, outline=DARK, width=4)
    pen.rectangle((510, 270, 690, 700), fill=BRIGHT, outline=DARK, width=5)
    pen.pieslice((430, 170, 770, 400), 180, 360, fill=BRIGHT, outline=DARK, width=5)
    pen.ellipse((440, 620, 760, 800), fill=BRIGHT, outline=DARK, width=5)
    pen.rectangle((565, 240, 635, 780), fill=(140, 144, 142), outline=DARK, width=4)


def purge(pen: Pen) -> None:
    pen.rectangle((120, 120, 1080, 760), fill=(246, 244, 236), outline=DARK, width=5)
    pen.line([(220, 300), (860, 300)], fill=(206, 188, 130), width=60)
    ring(pen, (420, 560), 110, (206, 188, 130))
    label(pen, (760, 560), "14:05", 110)


KINDS: dict[str, Callable[..., Any]] = {
    one.__name__: one
    for one in (
        flange, pads, display, paper, plate, vehicle, crack, bay, lock, terminal, stand, loom, cavity,
        one_hole, tray, open_joint, part_off, corner_gap, section, purge,
    )
}  # fmt: skip
