"""A plan as one SVG picture: the joint to scale with its hottest bondline, and the curves with band and limits."""

from __future__ import annotations

from html import escape

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.colours import colour
from bayleaf.heat.places import Place, histories
from bayleaf.heat.plan import FIRST, Plan
from bayleaf.heat.plan_json import answer_sentence
from bayleaf.heat.zone import Box, Zone

Floats = NDArray[np.float64]
WIDTH, MARGIN, CURVES_HIGH = 900.0, 50.0, 300.0
FIELD_CELLS = 90
PAD_INK, TEXT_INK, LIMIT_INK = "#1a1a1a", "#1a1a1a", "#7a1f1f"


def picture(plan: Plan) -> str:
    """The whole picture; text is escaped, sizes in px, the joint in one scale along and across."""
    zone = plan.zone
    scale = (WIDTH - 2 * MARGIN) / zone.size_m[0]
    joint_high = zone.size_m[1] * scale
    at_field = 70.0
    at_curves = at_field + joint_high + 90.0
    high = at_curves + CURVES_HIGH + 70.0
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {high:.0f}" font-family="sans-serif" '
        f'font-size="13" fill="{TEXT_INK}">',
        f"<title>{escape(zone.name)}: heat plan</title>",
        f'<rect width="{WIDTH:g}" height="{high:.0f}" fill="#ffffff"/>',
        _text(MARGIN, 28, answer_sentence(plan), size=16),
        _text(
            MARGIN, 50, f"{zone.name}{' (invented)' if zone.invented else ''}: peak of the metal, to scale"
        ),
        f'<g transform="translate({MARGIN:g} {at_field:g})">{_joint(plan, scale)}</g>',
        _scale_bar(plan, at_field + joint_high + 18),
        f'<g transform="translate({MARGIN:g} {at_curves:g})">{_curves(plan)}</g>',
        _text(MARGIN, high - 12, FIRST),
        "</svg>",
    ]
    return "\n".join(parts) + "\n"


def _text(
    x: float, y: float, words: str, *, size: int = 13, ink: str = TEXT_INK, anchor: str = "start"
) -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" fill="{ink}" text-anchor="{anchor}">{escape(words)}</text>'


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
    for box in zone.layer(zone.bondline).covers:
        parts.append(_box(box, scale, high, stroke="#ffffff", dash="4 3"))
    for pad in zone.pads:
        parts.append(_box(pad.box, scale, high, stroke=PAD_INK))
        parts.append(_text(pad.box.x0 * scale + 4, (high - pad.box.y1) * scale - 4, pad.id, ink="#ffffff"))
    parts += [_dot(zone, s.x_m, s.y_m, scale, s.id, "#ffffff") for s in zone.sensors]
    parts += [
        _dot(zone, n.x_m, n.y_m, scale, n.name, "#c8c8c8") for n in zone.neighbours if _inside(zone, n.x_m)
    ]
    for name, spot in (("leads", plan.leading), ("lags", plan.lagging)):
        parts.append(_dot(zone, spot.place.x_m, spot.place.y_m, scale, name, "#000000"))
    return "".join(parts)


def _inside(zone: Zone, x_m: float) -> bool:
    return 0 <= x_m <= zone.size_m[0]


def _box(
    box: Box, scale: float, high: float, *, fill: str = "none", stroke: str = "none", dash: str = ""
) -> str:
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<rect x="{box.x0 * scale:.1f}" y="{(high - box.y1) * scale:.1f}" width="{(box.x1 - box.x0) * scale + 0.3:.1f}" '
        f'height="{(box.y1 - box.y0) * scale + 0.3:.1f}" fill="{fill}" stroke="{stroke}"{dashed}/>'
    )


def _dot(zone: Zone, x_m: float, y_m: float, scale: float, name: str, ink: str) -> str:
    x, y = x_m * scale, (zone.size_m[1] - y_m) * scale
    dot = f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="{ink}" stroke="#000000"/>'
    return dot + _text(x + 6, y + 4, name, size=11, ink="#ffffff" if ink != "#c8c8c8" else "#f0f0f0")


def _scale_bar(plan: Plan, y: float) -> str:
    _, low_C, high_C = _peaks(plan)
    steps = 40
    bar = "".join(
        f'<rect x="{MARGIN + 6 * k:.0f}" y="{y:.1f}" width="6.5" height="12" fill="{colour(k / (steps - 1))}"/>'
        for k in range(steps)
    )
    ends = _text(MARGIN, y + 28, f"{low_C:.0f} C") + _text(
        MARGIN + 6 * steps, y + 28, f"{high_C:.0f} C", anchor="end"
    )
    return bar + ends


def _curves(plan: Plan) -> str:
    wide = WIDTH - 2 * MARGIN
    end_s = float(plan.bond.times_s[-1])
    top_C = 20.0 * np.ceil((max(plan.metal_band_C[1], plan.zone.maximum_C) + 10) / 20)

    def line(times_s: Floats, T_C: Floats) -> str:
        x, y = times_s / end_s * wide, CURVES_HIGH * (1 - T_C / top_C)
        return " ".join(f"{a:.1f},{b:.1f}" for a, b in zip(x, y, strict=True))

    members = [member for row in plan.family.members for member in row]
    clock = plan.family.times_s
    low = np.min([member.coldest_C for member in members], axis=0)
    high = np.max([member.coldest_C for member in members], axis=0)
    band = line(clock, low) + " " + " ".join(reversed(line(clock, high).split()))
    parts = [f'<polygon points="{band}" fill="#d8dde3"/>', _axes(wide, end_s, float(top_C))]
    for limit, name in ((plan.zone.workable_C, "workable"), (plan.zone.maximum_C, "bondline maximum")):
        y = CURVES_HIGH * (1 - limit / top_C)
        parts.append(
            f'<line x1="0" x2="{wide:g}" y1="{y:.1f}" y2="{y:.1f}" stroke="{LIMIT_INK}" stroke-dasharray="5 4"/>'
        )
        parts.append(_text(wide, y - 4, f"{name} {limit:.0f} C", ink=LIMIT_INK, anchor="end", size=11))
    for T_C, ink in ((plan.bond.coldest_C, colour(0.15)), (plan.bond.hottest_C, colour(0.65))):
        points = line(plan.bond.times_s[::3], T_C[::3])
        parts.append(f'<polyline points="{points}" fill="none" stroke="{ink}" stroke-width="2"/>')
    for act in plan.acts:
        x = act.at_s / end_s * wide
        parts.append(
            f'<line x1="{x:.1f}" x2="{x:.1f}" y1="{CURVES_HIGH - 8:g}" y2="{CURVES_HIGH:g}" stroke="{PAD_INK}"/>'
        )
    parts.append(
        _text(
            0,
            CURVES_HIGH + 36,
            "coldest and hottest bondline; grey: band of the coldest; ticks: release steps",
        )
    )
    return "".join(parts)


def _axes(wide: float, end_s: float, top_C: float) -> str:
    parts = [f'<path d="M0 0V{CURVES_HIGH:g}H{wide:g}" fill="none" stroke="{TEXT_INK}"/>']
    for T_C in range(0, int(top_C) + 1, 40):
        parts.append(_text(-6, CURVES_HIGH * (1 - T_C / top_C) + 4, str(T_C), size=11, anchor="end"))
    every_min = max(10, round(end_s / 60 / 8 / 10) * 10)
    for at_min in range(0, int(end_s / 60) + 1, every_min):
        parts.append(
            _text(at_min * 60 / end_s * wide, CURVES_HIGH + 16, f"{at_min} min", size=11, anchor="middle")
        )
    return "".join(parts)
