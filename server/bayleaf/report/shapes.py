"""The shapes of states and rivets as small pictures, the same as on the screens (`ui/parts/mark.tsx`)."""

from __future__ import annotations

from typing import Final, NamedTuple

INK: Final = "#13201b"
BAY: Final = "#124636"
STOP: Final = "#86150f"
DEV: Final = "#4a2685"


class Drawing(NamedTuple):
    """Paths in a 24 x 24 square: filled even-odd, lined at 2, lined at 3.2."""

    fill: str = ""
    line: str = ""
    thick: str = ""
    colour: str = INK


def disc(r: float) -> str:
    """A disc as a path, so that even-odd filling cuts it out."""
    return f"M{12 - r:g} 12a{r:g} {r:g} 0 1 0 {2 * r:g} 0a{r:g} {r:g} 0 1 0 {-2 * r:g} 0z"


TICK_CUT: Final = "M6.2 12.4 8 10.5l2.9 2.8 5.2-5.9 1.9 1.7-7 7.9z"

DRAWINGS: Final[dict[str, Drawing]] = {
    "open": Drawing(line="M4 4h16v16H4z"),
    "done": Drawing(fill=f"M3 3h18v18H3z{TICK_CUT}", colour=BAY),
    "held": Drawing(fill="M3 3h6v6.5h6V3h6v18h-6v-6.5H9V21H3z", colour=STOP),
    "hold": Drawing(fill="M3 3h6v6.5h6V3h6v18h-6v-6.5H9V21H3z"),
    "deviation": Drawing(thick="M2 7h7l6 10h7", colour=DEV),
    "finding": Drawing(line="M3 3h18v18H3z", fill="M10.6 6.5h2.8v7h-2.8zM10.6 15h2.8v2.8h-2.8z", colour=STOP),
    "absent": Drawing(thick="M5 12h14"),
    "untouched": Drawing(line=disc(9)),
    "hole_checked": Drawing(line=f"{disc(9)}M12 3v18M3 12h18"),
    "rivet_seated": Drawing(line=disc(9), fill="M3 12a9 9 0 0 0 18 0z"),
    "set": Drawing(fill=disc(10)),
    "set_and_checked": Drawing(fill=disc(10) + TICK_CUT, colour=BAY),
    "in_place": Drawing(fill=disc(10) + disc(6.4) + disc(3.2)),
    "mandrel_out": Drawing(fill=disc(10) + disc(4)),
    "head_drilled": Drawing(
        thick="M8.1 5.5A7.6 7.6 0 0 1 15.9 5.5M18.5 8.1A7.6 7.6 0 0 1 18.5 15.9"
        "M15.9 18.5A7.6 7.6 0 0 1 8.1 18.5M5.5 15.9A7.6 7.6 0 0 1 5.5 8.1"
    ),
    "head_off": Drawing(line=disc(9), fill=disc(4.6)),
    "shank_out": Drawing(line=disc(9), thick="M7.5 12.3l3.2 3.2 5.8-6.4", colour=BAY),
    "damaged_hole": Drawing(
        line="M2.5 2.5h19v19h-19zM15 9.5l4-4-1 4 2.5.5-3.6 1.4A5.4 5.4 0 1 1 11 8.6l1-3.6 1.6 3z", colour=STOP
    ),
    "lost": Drawing(
        line="M2.5 2.5h19v19h-19zM2.5 8H9M15 8h6.5M9 5.5V8M15 5.5V8",
        fill="M11 11.5l4 1-1.6 6-4-1z",
        colour=STOP,
    ),
    "hole_used": Drawing("M12 0 24 12 12 24 0 12zM7 8.6h10v2.5H7zM7 12.9h10v2.5H7z"),
    "hole_opened": Drawing(
        "M12 0 24 12 12 24 0 12zM10.7 6.5h2.6v4.2h4.2v2.6h-4.2v4.2h-2.6v-4.2H6.5v-2.6h4.2z"
    ),
    "hole_larger": Drawing("M12 0 24 12 12 24 0 12zM12 4.6l5.6 6.4h-4v7.4h-3.2V11h-4z", colour=STOP),
    "hole_to_maker": Drawing(
        "M12 0 24 12 12 24 0 12zM8 9.4a4 4 0 1 1 6.1 3.4l-.8.6v1.2h-2.6v-2.6l1.9-1.3a1.4 1.4 0 1 0-2-1.3z"
        "M10.7 16.2h2.6v2.6h-2.6z",
        colour=STOP,
    ),
    "hole_not_read": Drawing(line="M12 2 22 12 12 22 2 12z"),
}


def shapes() -> dict[str, str]:
    """Each shape as an SVG of its own, on white so that it reads over a drawing."""
    return {name: _svg(drawing, on_white=name in _RIVETS) for name, drawing in DRAWINGS.items()}


_RIVETS: Final = frozenset(list(DRAWINGS)[list(DRAWINGS).index("untouched") :])


def _svg(drawing: Drawing, *, on_white: bool) -> str:
    c = drawing.colour
    parts = ['<circle cx="12" cy="12" r="11" fill="#ffffff"/>'] if on_white else []
    if drawing.fill:
        parts.append(f'<path d="{drawing.fill}" fill="{c}" fill-rule="evenodd"/>')
    if drawing.line:
        parts.append(f'<path d="{drawing.line}" fill="none" stroke="{c}" stroke-width="2"/>')
    if drawing.thick:
        parts.append(f'<path d="{drawing.thick}" fill="none" stroke="{c}" stroke-width="3.2"/>')
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24">{"".join(parts)}</svg>'
