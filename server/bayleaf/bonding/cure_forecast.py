"""Forecast of a cure: time still needed at the present temperature, and what warming would save.

Counts heating up and cooling down where their rates are given: a part is ready when it is cured *and* back at
the present temperature. Under the sheet's minimum time counts nothing: there is no end at such a present
temperature, and of ramps their warm part counts. One activation energy describes the time to a stage that
chemistry governs; near the glass transition the reaction nearly stops, so full cure is the data sheet's.
Model "forecast-1".
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bayleaf.bonding.rate_laws import RateLaw
from bayleaf.bonding.refusal import Refused

MODEL: Final = "forecast-1"


@dataclass(frozen=True, slots=True)
class Warming:
    """Heating to a temperature, and the sheet's minimum, C; rates in K/min, None if ramps are not counted."""

    heated_C: float
    heating_K_per_min: float | None = None
    cooling_K_per_min: float | None = None
    minimum_C: float | None = None


@dataclass(frozen=True, slots=True)
class Forecast:
    """Minutes still needed, without and with heat; `soak_min` is the time at the heated temperature.

    At the present temperature None where that is under the sheet's minimum: it would never end.
    """

    progress: float
    remaining_at_present_min: float | None
    remaining_heated_min: float
    ramps_min: float
    soak_min: float

    @property
    def remaining_with_ramps_min(self) -> float:
        return self.ramps_min + self.soak_min

    @property
    def saved_min(self) -> float | None:
        return self._less(self.remaining_heated_min)

    @property
    def saved_with_ramps_min(self) -> float | None:
        return self._less(self.remaining_with_ramps_min)

    def _less(self, minutes: float) -> float | None:
        present = self.remaining_at_present_min
        return None if present is None else present - minutes


def forecast(
    law: RateLaw, needed_min: float, reached_min: float, present_C: float, warming: Warming
) -> Forecast:
    """Equivalent minutes needed and reached to clock minutes.

    Refused: heating to below the present, or to below the sheet's minimum.
    """
    minimum_C = present_C if warming.minimum_C is None else warming.minimum_C
    _refuse_cold(warming.heated_C, present_C, minimum_C)
    left = max(0.0, needed_min - reached_min)
    hot_rate = law.rate(warming.heated_C)
    up, down = (
        _ramp_min(rate, warming.heated_C - present_C)
        for rate in (warming.heating_K_per_min, warming.cooling_K_per_min)
    )
    warm_from_C = max(present_C, minimum_C)
    warm_share = _share(warming.heated_C - warm_from_C, warming.heated_C - present_C)
    in_ramps = (up + down) * warm_share * law.mean_rate(warm_from_C, warming.heated_C)
    return Forecast(
        progress=min(1.0, reached_min / needed_min),
        remaining_at_present_min=None if left and present_C < minimum_C else left / law.rate(present_C),
        remaining_heated_min=left / hot_rate,
        ramps_min=up + down if left else 0.0,
        soak_min=max(0.0, left - in_ramps) / hot_rate,
    )


def _refuse_cold(heated_C: float, present_C: float, minimum_C: float) -> None:
    for name, least_C in (("the present temperature", present_C), ("the sheet's minimum", minimum_C)):
        if heated_C < least_C:
            raise Refused("heated_temperature_C", f"{heated_C} C", f"at least {name}, {least_C} C")


def _share(part_K: float, whole_K: float) -> float:
    return part_K / whole_K if whole_K else 1.0


def _ramp_min(rate_K_per_min: float | None, rise_K: float) -> float:
    return 0.0 if rate_K_per_min is None else rise_K / rate_K_per_min
