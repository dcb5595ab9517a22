"""The band of a plan's answers as plain data: each figure as [low, high] over contact and loss."""

from __future__ import annotations

import math
from typing import Any

from bayleaf.heat.bands import Bands, LayerBands, Span
from bayleaf.heat.release import Release

Json = dict[str, Any]
NEVER = "never"


def bands_json(bands: Bands, release: Release | None) -> Json:
    """Every span; the release is told with how fast the worst member of the band falls under it."""
    return {
        "heat_until_min": _minutes(bands.heat_until_s),
        "ramp_K_min": _rounded(bands.ramp_K_min, 2),
        "cooling_K_min": _rounded(bands.cooling_K_min, 2),
        "coldest_bondline_C": _curve(bands.coldest_C),
        "hottest_bondline_C": _curve(bands.hottest_C),
        "layers": [_layer(one) for one in bands.layers],
        "neighbours_peak_C": {name: _rounded(span, 1) for name, span in bands.neighbours_C},
        "window_from_min": _minutes(bands.window_from_s),
        "window_until_min": _minutes(bands.window_until_s),
        "touch": [
            {"layer": layer, "contact": contact, "from_min": _minutes(span)}
            for layer, contact, span in bands.touch_s
        ],
        **({"release": _release(release)} if release else {}),
    }


def _release(release: Release) -> Json:
    return {
        "worst_cooling_K_min": round(release.band_steepest_K_min, 2),
        "keeps_limit_over_band": release.band_keeps_limit,
    }


def _layer(one: LayerBands) -> Json:
    found: Json = {
        "layer": one.layer,
        "peak_C": _rounded(one.peak_C, 1),
        "above": [{"above_C": limit_C, "run_min": _rounded(span, 1)} for limit_C, span in one.above_min],
    }
    if one.ageing_share is not None:
        found["ageing_share"] = _rounded(one.ageing_share, 4)
    return found


def _curve(rows: tuple[tuple[float, Span], ...]) -> Json:
    return {
        "t_s": [round(at_s) for at_s, _ in rows],
        "low": [round(span.low, 1) for _, span in rows],
        "high": [round(span.high, 1) for _, span in rows],
    }


def _rounded(span: Span, digits: int) -> list[float]:
    return [round(span.low, digits), round(span.high, digits)]


def _minutes(span: Span) -> list[float | str]:
    return [minutes(span.low), minutes(span.high)]


def minutes(at_s: float) -> float | str:
    """Minutes to a hundredth; a word for infinity."""
    return round(at_s / 60, 2) if math.isfinite(at_s) else NEVER
