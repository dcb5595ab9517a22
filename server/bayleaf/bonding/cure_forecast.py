"""Forecast of a cure: time still needed at the present temperature, and what warming would save.

Counts heating up and cooling down where their rates are given: a part is ready when it is cured *and* back at
the present temperature. One activation energy describes the time to a stage that chemistry governs; near the
glass transition the reaction nearly stops, so full cure is the data sheet's. Model "forecast-1".
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bayleaf.bonding.rate_laws import RateLaw
from bayleaf.bonding.refusal import Refused

MODEL: Final = "forecast-1"


@dataclass(frozen=True, slots=True)
class Warming:
    """Heating to a temperature in C; rates in K/min, None where ramps are not counted."""

    heated_C: float
    heating_K_per_min: float | None = None
    cooling_K_per_min: float | None = None


@dataclass(frozen=True, slots=True)
class Forecast:
    """Minutes still needed, without and with heat; `soak_min` is the time at the heated temperature."""

    progress: float
    remaining_at_present_min: float
    remaining_heated_min: float
    ramps_min: float
    soak_min: float

    @property
    def remaining_with_ramps_min(self) -> float:
        return self.ramps_min + self.soak_min

    @property
    def saved_min(self) -> float:
        return self.remaining_at_present_min - self.remaining_heated_min

    @property
    def saved_with_ramps_min(self) -> float:
        return self.remaining_at_present_min - self.remaining_with_ramps_min


def forecast(
    law: RateLaw, needed_min: float, reached_min: float, present_C: float, warming: Warming
) -> Forecast:
    """Equivalent minutes needed and reached to clock minutes. Refused: heating to below the present."""
    if warming.heated_C < present_C:
        allowed = f"at least the present temperature, {present_C} C"
        raise Refused("heated_temperature_C", f"{warming.heated_C} C", allowed)
    left = max(0.0, needed_min - reached_min)
    hot_rate = law.rate(warming.heated_C)
    up, down = (
        _ramp_min(rate, warming.heated_C - present_C)
        for rate in (warming.heating_K_per_min, warming.cooling_K_per_min)
    )
    in_ramps = (up + down) * law.mean_rate(present_C, warming.heated_C)
    return Forecast(
        progress=min(1.0, reached_min / needed_min),
        remaining_at_present_min=left / law.rate(present_C),
        remaining_heated_min=left / hot_rate,
        ramps_min=up + down if left else 0.0,
        soak_min=max(0.0, left - in_ramps) / hot_rate,
    )


def _ramp_min(rate_K_per_min: float | None, rise_K: float) -> float:
    return 0.0 if rate_K_per_min is None else rise_K / rate_K_per_min
