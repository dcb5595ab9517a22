"""One scale of colours for temperature: even steps look even, dark to light, and it survives grey printing.

Made here in CIE L*a*b*: lightness rises evenly from 18 to 92, hue turns from blue over red to yellow (CIE
15:2018, Colorimetry, sec. 8.2.1; sRGB by IEC 61966-2-1).
"""

from __future__ import annotations

import math
from functools import cache

STEPS = 256
DARK, LIGHT = 18.0, 92.0
HUE_FROM, HUE_TO = 290.0, 90.0 + 360.0
CHROMA = 46.0
WHITE = (0.95047, 1.0, 1.08883)
TO_RGB = ((3.2406, -1.5372, -0.4986), (-0.9689, 1.8758, 0.0415), (0.0557, -0.2040, 1.0570))


def colour(share: float) -> str:
    """#rrggbb for a share from 0 (coldest) to 1 (hottest); shares beyond take the end colours."""
    return _step(round(min(max(share, 0.0), 1.0) * (STEPS - 1)))


@cache
def _step(number: int) -> str:
    share = number / (STEPS - 1)
    hue = math.radians(HUE_FROM + (HUE_TO - HUE_FROM) * share)
    chroma = CHROMA * math.sin(math.pi * (0.15 + 0.7 * share))
    return _srgb(DARK + (LIGHT - DARK) * share, chroma * math.cos(hue), chroma * math.sin(hue))


def _srgb(lightness: float, a: float, b: float) -> str:
    y = (lightness + 16) / 116
    xyz = [white * _cube(f) for white, f in zip(WHITE, (y + a / 500, y, y - b / 200), strict=True)]
    linear = [sum(m * one for m, one in zip(row, xyz, strict=True)) for row in TO_RGB]
    return "#" + "".join(f"{round(255 * _gamma(min(max(one, 0.0), 1.0))):02x}" for one in linear)


def _cube(f: float) -> float:
    return f**3 if f > 6 / 29 else 3 * (6 / 29) ** 2 * (f - 4 / 29)


def _gamma(linear: float) -> float:
    return 12.92 * linear if linear <= 0.0031308 else 1.055 * linear ** (1 / 2.4) - 0.055  # noqa: PLR2004  IEC figures
