"""The record of drying a laminate before hot work: minutes inside the band, longest run of them, gaps.

Moisture in a laminate can turn to steam and blister it: dry before heated bonded repairs (MIL-
HDBK-17-3F, vol. 3 chapter 12). Temperature band and hours are the maker's; no moisture content is
claimed. Model "drying-1".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bayleaf.bonding.cure_log import CountRule, Sample, Stretch, cool_part, stretches, warm_part
from bayleaf.bonding.refusal import Refused

MODEL: Final = "drying-1"


@dataclass(frozen=True, slots=True)
class DryingRule:
    """What the method asks for: a band in C, and minutes in it."""

    minimum_C: float
    maximum_C: float
    required_min: float

    def __post_init__(self) -> None:
        if self.minimum_C > self.maximum_C:
            allowed = f"at most maximum_temperature_C, {self.maximum_C} C"
            raise Refused("minimum_temperature_C", f"{self.minimum_C} C", allowed)


@dataclass(frozen=True, slots=True)
class DryingRecord:
    """What the log shows; minutes and C. Dried only if long enough and never over the maximum."""

    in_band_min: float
    over_min: float
    peak_C: float
    gaps_min: tuple[tuple[float, float], ...]
    required_min: float

    @property
    def dried(self) -> bool:
        return self.in_band_min >= self.required_min and self.over_min == 0


def drying_record(
    samples: Sequence[Sample], rule: DryingRule, longest_interval_min: float | None
) -> DryingRecord:
    """Counts a drying log: minutes in the band add up, gaps count nothing and are named."""
    every = stretches(samples)
    gap_rule = CountRule(longest_interval_min)
    longest = gap_rule.longest_interval_min
    kept = [one for one in every if longest is None or one.minutes <= longest]
    gaps = tuple((one.start_min, one.end_min) for one in every if one not in kept)
    return DryingRecord(
        in_band_min=sum(_minutes_in_band(one, rule) for one in kept),
        over_min=sum(one.minutes - _minutes(cool_part(one, rule.maximum_C)) for one in kept),
        peak_C=max(temperature for _, temperature in samples),
        gaps_min=gaps,
        required_min=rule.required_min,
    )


def _minutes_in_band(one: Stretch, rule: DryingRule) -> float:
    warm = warm_part(one, rule.minimum_C)
    if warm is None or warm.minutes == 0:
        return 0.0
    return _minutes(cool_part(warm, rule.maximum_C))


def _minutes(one: Stretch | None) -> float:
    return one.minutes if one else 0.0
