"""The drawn photos of the practice method: one scene per photo slot of methods/spine.yaml."""

from __future__ import annotations

from collections.abc import Callable

from seed_data.photo_pen import DARK, FLOOR, HEIGHT, METAL, RESIN, WALL, WIDTH, Pen, card, label


def frame_half(pen: Pen, *, holes: bool = False) -> None:
    """The bracket half: header and post as one bent band."""
    band = [
        (120, 330),
        (1180, 330),
        (1380, 430),
        (1420, 1120),
        (1240, 1120),
        (1210, 560),
        (1110, 500),
        (120, 500),
    ]
    pen.polygon(band, fill=RESIN, outline=DARK)
    pen.line([(150, 355), (1170, 355), (1350, 450), (1390, 1100)], fill=(100, 96, 86), width=5)
    for x, y in [(240, 415), (520, 415), (800, 415), (1080, 415), (1300, 720), (1320, 980)]:
        ring = (20, 20, 20) if holes else METAL
        pen.ellipse((x - 22, y - 22, x + 22, y + 22), fill=ring, outline=DARK, width=4)


def damage(pen: Pen) -> None:
    frame_half(pen)
    crack = [(760, 340), (790, 380), (770, 420), (820, 455), (800, 498)]
    pen.line(crack, fill=(12, 12, 12), width=9)
    pen.line([(820, 455), (880, 470), (930, 462)], fill=(12, 12, 12), width=6)
    card(pen, (180, 760, 560, 960), "LEFT")


def lock(pen: Pen) -> None:
    pen.rounded_rectangle((560, 220, 1040, 520), 30, fill=(212, 120, 40), outline=DARK, width=6)
    label(pen, (800, 370), "disconnect", 70)
    pen.arc((700, 480, 900, 760), 180, 360, fill=METAL, width=34)
    pen.rounded_rectangle((660, 620, 940, 860), 24, fill=(176, 40, 36), outline=DARK, width=6)
    card(pen, (610, 900, 990, 1080), "M. Ilves")


def stands(pen: Pen) -> None:
    pen.rectangle((0, 900, WIDTH, HEIGHT), fill=FLOOR)
    pen.rectangle((0, 300, WIDTH, 420), fill=METAL, outline=DARK, width=5)
    for x in (420, 1180):
        pen.polygon(
            [(x - 170, 960), (x + 170, 960), (x + 50, 520), (x - 50, 520)], fill=(60, 90, 120), outline=DARK
        )
        pen.rectangle((x - 28, 420, x + 28, 560), fill=DARK)


def tray(pen: Pen) -> None:
    pen.rounded_rectangle((90, 120, 1510, 1080), 40, fill=(90, 98, 92), outline=DARK, width=8)
    for number, name in enumerate(("H1", "H2", "H3", "H4", "P1", "P2")):
        x, y = 330 + number % 3 * 470, 360 + number // 3 * 470
        pen.ellipse((x - 170, y - 170, x + 170, y + 170), fill=(226, 226, 220), outline=DARK, width=6)
        pen.ellipse((x - 90, y - 40, x - 30, y + 20), fill=METAL, outline=DARK, width=4)
        pen.line([(x - 10, y + 70), (x + 80, y - 60)], fill=(130, 134, 132), width=14)
        pen.rectangle((x + 10, y + 50, x + 90, y + 100), fill=METAL, outline=DARK, width=4)
        label(pen, (x, y - 115), name, 70)


def pads(pen: Pen) -> None:
    pen.rectangle((80, 420, 1520, 900), fill=METAL, outline=DARK, width=6)
    for box, name in (((200, 500, 900, 800), "U1"), ((960, 500, 1420, 800), "U2")):
        pen.rounded_rectangle(box, 20, fill=(158, 84, 52), outline=DARK, width=6)
        label(pen, ((box[0] + box[2]) // 2, (box[1] + box[3]) // 2), name, 120, (245, 236, 220))
    for x, name in ((550, "a"), (930, "b"), (1470, "m")):
        pen.line([(x, 470), (x, 180)], fill=(210, 190, 60), width=9)
        card(pen, (x - 60, 90, x + 60, 200), name)


def display(pen: Pen) -> None:
    pen.rounded_rectangle((220, 180, 1380, 1020), 50, fill=(52, 56, 58), outline=DARK, width=8)
    pen.rectangle((310, 270, 1290, 800), fill=(196, 214, 180))
    for row, text in enumerate(("a   138 C", "b   131 C", "m   164 C")):
        label(pen, (800, 360 + 165 * row), text, 130)
    label(pen, (800, 910), "invented logger", 60, (220, 220, 214))


def flange(pen: Pen) -> None:
    frame_half(pen, holes=True)
    pen.line([(150, 470), (1090, 470), (1190, 540), (1225, 1090)], fill=(214, 208, 186), width=26)
    pen.rectangle((160, 700, 960, 1060), fill=METAL, outline=DARK, width=6)
    pen.rectangle((160, 830, 960, 910), fill=(206, 200, 176))
    for x in range(240, 961, 200):
        pen.ellipse((x - 20, 850, x + 20, 890), fill=DARK)


SCENES: dict[str, tuple[Callable[[Pen], None], tuple[int, int, int]]] = {
    "spn-01-damage": (damage, WALL),
    "spn-03-lock": (lock, (150, 156, 158)),
    "spn-04-stands": (stands, (176, 180, 178)),
    "spn-06-tray": (tray, (140, 136, 128)),
    "spn-07-pads": (pads, (120, 124, 126)),
    "spn-09-display": (display, (150, 142, 132)),
    "spn-12-flange": (flange, (182, 180, 172)),
}
