"""Dew point and frost point of the air, and how far they may be off.

Magnus form of the WMO, Guide to Meteorological Instruments and Methods of Observation (WMO-No. 8), annex 4.B:
saturation over water 6.112 exp(17.62 t / (243.12 + t)) hPa, -45 to 60 C; over ice 6.112, 22.46, 272.62,
-65 to 0 C (ice from memory). Humidity is over water, as sensors are scaled. Model "dew-1".
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from bayleaf.bonding.refusal import Range, Refused

MODEL: Final = "dew-1"
AIR_C: Final = Range(-45, 60, "C", "range of the Magnus coefficients over water")
HUMIDITY_PERCENT: Final = Range(0, 100, "%", "relative humidity; at 0 there is no dew point", above=True)
_WATER: Final = (17.62, 243.12)
_ICE: Final = (22.46, 272.62)
_ICE_BEGINS_C: Final = -65.0


@dataclass(frozen=True, slots=True)
class Air:
    """A reading of the air: temperature in C, relative humidity in percent over water."""

    temperature_C: float
    humidity_percent: float

    def __post_init__(self) -> None:
        AIR_C.refuse_outside("air_temperature_C", self.temperature_C)
        HUMIDITY_PERCENT.refuse_outside("relative_humidity_percent", self.humidity_percent)


@dataclass(frozen=True, slots=True)
class DewPoint:
    """Where water begins to settle, C; below 0 over ice too, which is higher and therefore counts."""

    over_water_C: float
    over_ice_C: float | None

    @property
    def counts_C(self) -> float:
        return self.over_water_C if self.over_ice_C is None else max(self.over_water_C, self.over_ice_C)

    @property
    def counts_as(self) -> Literal["dew point", "frost point"]:
        return "dew point" if self.over_ice_C is None else "frost point"


@dataclass(frozen=True, slots=True)
class DewUncertainty:
    """How the counting point follows the readings, and the combined uncertainty (JCGM 100:2008, 5.1.2)."""

    per_air_K: float
    per_percent: float
    combined_K: float


def dew_point(air: Air) -> DewPoint:
    """Dew point over water, and below 0 C the frost point. Refused where the frost point is under -65 C."""
    over_water = _inverted(_WATER, _vapour_log(air))
    if over_water >= 0:
        return DewPoint(over_water, None)
    over_ice = _inverted(_ICE, _vapour_log(air))
    if over_ice < _ICE_BEGINS_C:
        allowed = f"air with a frost point of {_ICE_BEGINS_C:g} C or more: the form over ice ends there"
        raise Refused("relative_humidity_percent", f"{air.humidity_percent} %", allowed)
    return DewPoint(over_water, over_ice)


def dew_uncertainty(air: Air, air_off_K: float, humidity_off_percent: float) -> DewUncertainty:
    """First derivatives of the point that counts, and their root sum of squares with the given errors."""
    coefficients = _WATER if dew_point(air).over_ice_C is None else _ICE
    b, c = coefficients
    slope_K = c * b / (b - _vapour_log(air)) ** 2
    b_air, c_air = _WATER
    per_air = slope_K * b_air * c_air / (c_air + air.temperature_C) ** 2
    per_percent = slope_K / air.humidity_percent
    combined = math.hypot(per_air * air_off_K, per_percent * humidity_off_percent)
    return DewUncertainty(per_air, per_percent, combined)


def _vapour_log(air: Air) -> float:
    """Natural logarithm of the vapour pressure over 6.112 hPa."""
    b, c = _WATER
    return math.log(air.humidity_percent) - math.log(100) + b * air.temperature_C / (c + air.temperature_C)


def _inverted(coefficients: tuple[float, float], vapour_log: float) -> float:
    b, c = coefficients
    return c * vapour_log / (b - vapour_log)
