"""The curves of a plan's picture: coldest and hottest bondline, the band, limits and release steps."""

from __future__ import annotations

from html import escape

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.colours import colour
from bayleaf.heat.plan import Plan

Floats = NDArray[np.float64]
WIDTH, MARGIN, CURVES_HIGH = 900.0, 50.0, 300.0
TEXT_INK, LIMIT_INK, BAND_INK = "#1a1a1a", "#7a1f1f", "#d8dde3"
CAPTION = "coldest and hottest bondline; grey: band of the coldest while heated; ticks: release steps"


def text(
    x: float,
    y: float,
    words: str,
    *,
    size: int = 13,
    ink: str = TEXT_INK,
    anchor: str = "start",
    halo: bool = False,
) -> str:
    """Words at a place; a white halo keeps them readable on the picture of temperatures."""
    at = f'x="{x:.1f}" y="{y:.1f}" font-size="{size}"'
    edge = ' stroke="#ffffff" stroke-width="3" paint-order="stroke"' if halo else ""
    return f'<text {at} fill="{ink}" text-anchor="{anchor}"{edge}>{escape(words)}</text>'


def curves(plan: Plan) -> str:
    """One group, its origin at the upper left of the axes; time to the right, temperature up."""
    end_s = float(plan.bond.times_s[-1])
    top_C = float(20.0 * np.ceil((max(plan.metal_band_C[1], plan.zone.maximum_C) + 10) / 20))
    limits = ((plan.zone.workable_C, "workable"), (plan.zone.maximum_C, "bondline maximum"))
    lines = ((plan.bond.coldest_C, colour(0.15)), (plan.bond.hottest_C, colour(0.65)))
    parts = [_band(plan, end_s, top_C), _axes(end_s, top_C)]
    parts += [_limit(T_C, name, top_C) for T_C, name in limits]
    parts += [_line(_points(plan.bond.times_s[::3], T_C[::3], end_s, top_C), ink) for T_C, ink in lines]
    parts += [_tick(act.at_s / end_s) for act in plan.acts]
    return "".join([*parts, text(0, CURVES_HIGH + 36, CAPTION)])


def _wide() -> float:
    return WIDTH - 2 * MARGIN


def _points(times_s: Floats, T_C: Floats, end_s: float, top_C: float) -> list[str]:
    x, y = times_s / end_s * _wide(), CURVES_HIGH * (1 - T_C / top_C)
    return [f"{a:.1f},{b:.1f}" for a, b in zip(x, y, strict=True)]


def _band(plan: Plan, end_s: float, top_C: float) -> str:
    members = [member for row in plan.family.members for member in row]
    kept = plan.family.times_s <= plan.heat_until_s
    coldest = np.array([member.coldest_C[kept] for member in members])
    low = _points(plan.family.times_s[kept], coldest.min(axis=0), end_s, top_C)
    high = _points(plan.family.times_s[kept], coldest.max(axis=0), end_s, top_C)
    return f'<polygon points="{" ".join([*low, *reversed(high)])}" fill="{BAND_INK}"/>'


def _line(points: list[str], ink: str) -> str:
    return f'<polyline points="{" ".join(points)}" fill="none" stroke="{ink}" stroke-width="2"/>'


def _limit(T_C: float, name: str, top_C: float) -> str:
    y, wide = CURVES_HIGH * (1 - T_C / top_C), _wide()
    ends = f'x1="0" x2="{wide:g}" y1="{y:.1f}" y2="{y:.1f}"'
    words = text(wide, y - 4, f"{name} {T_C:.0f} C", ink=LIMIT_INK, anchor="end", size=11)
    return f'<line {ends} stroke="{LIMIT_INK}" stroke-dasharray="5 4"/>{words}'


def _tick(share: float) -> str:
    x = share * _wide()
    ends = f'x1="{x:.1f}" x2="{x:.1f}" y1="{CURVES_HIGH - 8:g}" y2="{CURVES_HIGH:g}"'
    return f'<line {ends} stroke="{TEXT_INK}"/>'


def _axes(end_s: float, top_C: float) -> str:
    parts = [f'<path d="M0 0V{CURVES_HIGH:g}H{_wide():g}" fill="none" stroke="{TEXT_INK}"/>']
    parts += [
        text(-6, CURVES_HIGH * (1 - T_C / top_C) + 4, str(T_C), size=11, anchor="end")
        for T_C in range(0, int(top_C) + 1, 40)
    ]
    every_min = max(10, round(end_s / 60 / 8 / 10) * 10)
    for at_min in range(0, int(end_s / 60) + 1, every_min):
        x = at_min * 60 / end_s * _wide()
        parts.append(text(x, CURVES_HIGH + 16, f"{at_min} min", size=11, anchor="middle"))
    return "".join(parts)
