"""The flange and the part, whole or a stretch of it, with what is to be seen on them.

Drawn on 1200 x 900. `region` is what is seen: whole, header, post, corner or foot.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from seed_data.photo_pen import DARK, METAL, RED, Pen, label

Point = tuple[int, int]
PALE, BLUE, GLUE = (226, 226, 220), (60, 90, 120), (210, 204, 186)
SOOT, BRIGHT = (24, 26, 26), (198, 202, 200)

BANDS: dict[str, list[Point]] = {
    "whole": [
        (1080, 110), (330, 110), (220, 160), (180, 260), (180, 640), (230, 760), (900, 760), (900, 640),
        (340, 640), (300, 600), (300, 290), (350, 230), (1080, 230),
    ],
    "header": [(60, 250), (1140, 250), (1140, 560), (60, 560)],
    "post": [(430, 20), (770, 20), (770, 800), (430, 800)],
    "corner": [
        (1160, 170), (470, 170), (290, 240), (220, 400), (220, 800), (470, 800), (470, 480), (540, 400),
        (1160, 400),
    ],
    "foot": [(90, 330), (1110, 330), (1110, 640), (90, 640)],
}  # fmt: skip
HOLES: dict[str, list[tuple[str, Point]]] = {
    "whole": [(f"H{n}", (1030 - 105 * (n - 1), 170)) for n in range(1, 8)]
    + [(f"P{n}", (240, 250 + 44 * (n - 1))) for n in range(1, 10)]
    + [(f"F{n}", (300 + 105 * (n - 1), 700)) for n in range(1, 7)],
    "header": [(f"H{n}", (1060 - 155 * (n - 1), 380)) for n in range(1, 8)],
    "post": [(f"P{n}", (600, 75 + 82 * (n - 1))) for n in range(1, 10)],
    "corner": [(f"H{n}", (1090 - 110 * (n - 1), 280)) for n in range(1, 8)],
    "foot": [(f"F{n}", (190 + 165 * (n - 1), 480)) for n in range(1, 7)],
}
MIDDLES: dict[str, list[Point]] = {
    "whole": [(1080, 210), (350, 210), (280, 290), (280, 610)],
    "header": [(60, 490), (1140, 490)],
    "post": [(700, 20), (700, 800)],
    "corner": [(1160, 330), (480, 330), (380, 440), (380, 800)],
    "foot": [(90, 560), (1110, 560)],
}


def flange(
    pen: Pen,
    region: str = "whole",
    face: tuple[int, int, int] = METAL,
    *,
    marks: Sequence[str] = (),
) -> None:
    """The band of flange or part; `marks` name what is to be seen on it."""
    pen.polygon(BANDS[region], fill=face, outline=DARK, width=6)
    drawn: dict[str, Callable[[Pen, str], None]] = {
        "holes": _holes,
        "heads": _heads,
        "numbers": _numbers,
        "glue": _glue,
        "bead": _bead,
        "sealed": _sealed,
        "squeeze": _squeeze,
        "abraded": _abraded,
        "low_light": _low_light,
        "clamps": _clamps,
        "pins": _pins,
        "taps": _taps,
        "trim_off": _trim_off,
    }
    for mark in marks:
        drawn[mark](pen, region)


def ring(pen: Pen, at: Point, radius: int, fill: tuple[int, int, int], width: int = 4) -> None:
    x, y = at
    pen.ellipse((x - radius, y - radius, x + radius, y + radius), fill=fill, outline=DARK, width=width)


def _radius(region: str) -> int:
    return 14 if region == "whole" else 26


def _holes(pen: Pen, region: str) -> None:
    for _, at in HOLES[region]:
        ring(pen, at, _radius(region), SOOT)


def _heads(pen: Pen, region: str) -> None:
    for _, at in HOLES[region]:
        ring(pen, at, _radius(region) + 4, BRIGHT)
        ring(pen, at, _radius(region) // 3, DARK)


def _numbers(pen: Pen, region: str) -> None:
    size = 26 if region == "whole" else 44
    aside = region == "post"
    for name, (x, y) in HOLES[region]:
        label(pen, (x - 90, y) if aside else (x, y - _radius(region) - size), name, size, PALE)


def _bead(pen: Pen, region: str) -> None:
    pen.line(MIDDLES[region], fill=(232, 214, 150), width=30)
    for _, (x, y) in HOLES[region]:
        pen.ellipse((x - 44, y - 44, x + 44, y + 44), outline=(232, 214, 150), width=14)


def _glue(pen: Pen, region: str) -> None:
    pen.line(MIDDLES[region], fill=GLUE, width=34)


def _squeeze(pen: Pen, region: str) -> None:
    pen.line(MIDDLES[region], fill=(232, 214, 150), width=16)


def _sealed(pen: Pen, region: str) -> None:
    band = BANDS[region]
    pen.line([*band, band[0]], fill=PALE, width=18)


def _abraded(pen: Pen, region: str) -> None:
    xs = [x for x, _ in BANDS[region]]
    ys = [y for _, y in BANDS[region]]
    for step in range(min(xs) + 20, max(xs) - 60, 38):
        pen.line([(step, min(ys) + 30), (step + 46, min(ys) + 60)], fill=BRIGHT, width=2)


def _low_light(pen: Pen, region: str) -> None:
    pen.line([(x + 6, y + 10) for x, y in BANDS[region]], fill=(250, 236, 190), width=8)


def _clamps(pen: Pen, region: str) -> None:
    for x, y in MIDDLES[region]:
        pen.rectangle((x - 22, y - 80, x + 22, y + 40), fill=BLUE, outline=DARK, width=4)
        pen.rectangle((x - 44, y - 100, x + 44, y - 76), fill=DARK)


def _pins(pen: Pen, region: str) -> None:
    for name, at in HOLES[region]:
        if name in {"H4", "P5", "F3"}:
            ring(pen, at, 24, RED)


def _taps(pen: Pen, region: str) -> None:
    for _, (x, y) in HOLES[region]:
        pen.line([(x - 10, y + 34), (x + 10, y + 54)], fill=(240, 240, 236), width=6)
        pen.line([(x + 10, y + 34), (x - 10, y + 54)], fill=(240, 240, 236), width=6)


def _trim_off(pen: Pen, region: str) -> None:
    for x, y in MIDDLES[region]:
        pen.rectangle((x - 16, y - 16, x + 16, y + 16), outline=SOOT, width=6)
