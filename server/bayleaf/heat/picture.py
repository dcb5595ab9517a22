"""A plan as one SVG picture: the joint to scale with the metal's peak, and the curves."""

from __future__ import annotations

from html import escape

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.colours import colour
from bayleaf.heat.model import MODEL_ID
from bayleaf.heat.picture_curves import CURVES_HIGH, MARGIN, TEXT_INK, WIDTH, curves, text
from bayleaf.heat.places import Place, histories
from bayleaf.heat.plan import FIRST, Plan
from bayleaf.heat.plan_json import answer_sentence
from bayleaf.heat.zone import Box, Zone

Floats = NDArray[np.float64]
FIELD_CELLS = 90
OVERLAP_PX = 0.3  # so that no white lines show between cells
PAD_INK = "#1a1a1a"


def picture(plan: Plan) -> str:
    """The whole picture; text is escaped, sizes in px, the joint in one scale along and across."""
    zone = plan.zone
    scale = (WIDTH - 2 * MARGIN) / zone.size_m[0]
    joint_high = zone.size_m[1] * scale
    at_field = 70.0
    at_curves = at_field + joint_high + 90.0
    high = at_curves + CURVES_HIGH + 108.0
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {high:.0f}"'
    what = f"{zone.name}{' (invented)' if zone.invented else ''}: peak of the metal, to scale"
    parts = [
        f'{head} font-family="sans-serif" font-size="13" fill="{TEXT_INK}">',
        f"<title>{escape(zone.name)}: heat plan</title>",
        f'<rect width="{WIDTH:g}" height="{high:.0f}" fill="#ffffff"/>',
        text(MARGIN, 28, answer_sentence(plan), size=16),
        text(MARGIN, 50, what),
        f'<g transform="translate({MARGIN:g} {at_field:g})">{_joint(plan, scale)}</g>',
        _scale_bar(plan, at_field + joint_high + 18),
        f'<g transform="translate({MARGIN:g} {at_curves:g})">{curves(plan)}</g>',
        *(text(MARGIN, high - 48 + 18 * n, line) for n, line in enumerate((*_rests(zone), FIRST))),
        "</svg>",
    ]
    return "\n".join(parts) + "\n"


def _rests(zone: Zone) -> tuple[str, str]:
    """Which model, of which inputs, over which band."""
    (low, high), (least, most) = zone.contact_band, zone.loss_band
    band = f"band: contact {low:g} to {high:g} and loss {least:g} to {most:g} times what the zone says"
    return f"model {MODEL_ID}; inputs: zone {zone.id}, {zone.digest[:16]}", band


def _peaks(plan: Plan) -> tuple[list[tuple[Box, float]], float, float]:
    """Peak of the heated layer over an even raster of the zone."""
    zone = plan.zone
    side = zone.size_m[0] / FIELD_CELLS
    rows = max(1, round(zone.size_m[1] / side))
    high = zone.size_m[1] / rows
    boxes = [
        Box(i * side, j * high, (i + 1) * side, (j + 1) * high)
        for i in range(FIELD_CELLS)
        for j in range(rows)
    ]
    top = zone.layers[0]
    boxes = [b for b in boxes if any(c.holds((b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2) for c in top.covers)]
    places = tuple(Place(top.id, (b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2) for b in boxes)
    peaks = histories(plan.run, places).max(axis=0)
    return list(zip(boxes, map(float, peaks), strict=True)), zone.ambient_C, float(peaks.max())


def _joint(plan: Plan, scale: float) -> str:
    zone, high = plan.zone, plan.zone.size_m[1]
    cells, low_C, high_C = _peaks(plan)
    parts = [_box(box, scale, high, fill=colour((T - low_C) / (high_C - low_C))) for box, T in cells]
    covers = zone.layer(zone.bondline).covers
    parts += [_box(box, scale, high, stroke="#ffffff", dash="4 3") for box in covers]
    for pad in zone.pads:
        parts.append(_box(pad.box, scale, high, stroke=PAD_INK))
        parts.append(text(pad.box.x0 * scale + 4, (high - pad.box.y1) * scale - 4, pad.id, halo=True))
    parts += [_dot(zone, (s.x_m, s.y_m), scale, s.id, "#ffffff") for s in zone.sensors]
    parts += [
        _dot(zone, (n.x_m, n.y_m), scale, n.name, "#c8c8c8") for n in zone.neighbours if _inside(zone, n.x_m)
    ]
    spots = (("leads", plan.leading.place), ("lags", plan.lagging.place))
    parts += [_dot(zone, (at.x_m, at.y_m), scale, name, "#000000") for name, at in spots]
    return "".join(parts)


def _inside(zone: Zone, x_m: float) -> bool:
    return 0 <= x_m <= zone.size_m[0]


def _box(
    box: Box, scale: float, high: float, *, fill: str = "none", stroke: str = "none", dash: str = ""
) -> str:
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    wide, tall = (box.x1 - box.x0) * scale + OVERLAP_PX, (box.y1 - box.y0) * scale + OVERLAP_PX
    at = f'x="{box.x0 * scale:.1f}" y="{(high - box.y1) * scale:.1f}" width="{wide:.1f}" height="{tall:.1f}"'
    return f'<rect {at} fill="{fill}" stroke="{stroke}"{dashed}/>'


def _dot(zone: Zone, at: tuple[float, float], scale: float, name: str, ink: str) -> str:
    x, y = at[0] * scale, (zone.size_m[1] - at[1]) * scale
    dot = f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="{ink}" stroke="#000000"/>'
    return dot + text(x + 6, y + 4, name, size=11, halo=True)


def _scale_bar(plan: Plan, y: float) -> str:
    _, low_C, high_C = _peaks(plan)
    steps = 40
    size = f'y="{y:.1f}" width="6.5" height="12"'
    bar = "".join(
        f'<rect x="{MARGIN + 6 * k:.0f}" {size} fill="{colour(k / (steps - 1))}"/>' for k in range(steps)
    )
    ends = text(MARGIN, y + 28, f"{low_C:.0f} C") + text(
        MARGIN + 6 * steps, y + 28, f"{high_C:.0f} C", anchor="end"
    )
    return bar + ends
