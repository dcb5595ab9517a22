"""Dew point margin: how far the coldest surface stands over the dew point, and where it is going.

At least 3 K: ISO 8502-4, guidance on the probability of condensation; written for painting steel and
borrowed here, read second-hand. A product's sheet overrides it. Compared in whole steps of the reading.
Model "margin-1".
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from bayleaf.bonding.refusal import Refused
from bayleaf.bonding.units import difference, scaled

MODEL: Final = "margin-1"
REQUIRED_K: Final = 3.0


@dataclass(frozen=True, slots=True)
class Margin:
    """Surface minus dew point, K, against what is asked for."""

    margin_K: float
    required_K: float
    meets_rule: bool
    water_on_surface: bool


@dataclass(frozen=True, slots=True)
class Trend:
    """Slope between two margins, and minutes from the second until the limit; None if it does not fall."""

    slope_K_per_min: float
    time_to_limit_min: float | None


def coldest(surfaces_C: Mapping[str, float]) -> tuple[str, float]:
    """The coldest surface by name, and its temperature, C: it decides."""
    if not surfaces_C:
        raise Refused("surface_temperatures_C", "none", "at least one named surface")
    name = min(surfaces_C, key=surfaces_C.__getitem__)
    return name, surfaces_C[name]


def margin(surface_C: float, dew_point_C: float, required_K: float = REQUIRED_K) -> Margin:
    """Exactly the required margin is enough; at or under 0 there is water on the surface now."""
    found = difference(surface_C, dew_point_C)
    return Margin(found, required_K, scaled(found) >= scaled(required_K), scaled(found) <= 0)


def trend(first_K: float, second_K: float, between_min: float, required_K: float = REQUIRED_K) -> Trend:
    """A straight line through two margins (common practice, no source)."""
    slope = (second_K - first_K) / between_min
    if slope >= 0:
        return Trend(slope, None)
    return Trend(slope, max(0.0, (second_K - required_K) / -slope))
