"""The record of drying a laminate before hot work: minutes inside the band, longest run of them, gaps.

Moisture in a laminate can turn to steam and blister it: dry before heated bonded repairs (MIL-
HDBK-17-3F, vol. 3 chapter 12). Temperature band and hours are the maker's; no moisture content is
claimed. Model "drying-1".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bayleaf.bonding.cure_log import CountRule, Sample, Stretch, cool_part, gaps_of, kept_stretches, warm_part
from bayleaf.bonding.refusal import Refused
from bayleaf.bonding.units import scaled

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
    """What the log shows; minutes and C.

    Dried only if long enough and never over the maximum, not even at one reading beside a gap.
    """

    in_band_min: float
    over_min: float
    peak_C: float
    gaps_min: tuple[tuple[float, float], ...]
    rule: DryingRule

    @property
    def required_min(self) -> float:
        return self.rule.required_min

    @property
    def dried(self) -> bool:
        is_long_enough = scaled(self.in_band_min) >= scaled(self.required_min)
        return is_long_enough and scaled(self.peak_C) <= scaled(self.rule.maximum_C)


def drying_record(
    samples: Sequence[Sample], rule: DryingRule, longest_interval_min: float | None
) -> DryingRecord:
    """Counts a drying log: minutes in the band add up, gaps count nothing and are named."""
    count_rule = CountRule(longest_interval_min)
    kept = kept_stretches(samples, count_rule)
    return DryingRecord(
        in_band_min=sum(_minutes_in_band(one, rule) for one in kept),
        over_min=sum(one.minutes - _minutes(cool_part(one, rule.maximum_C)) for one in kept),
        peak_C=max(temperature for _, temperature in samples),
        gaps_min=gaps_of(samples, count_rule),
        rule=rule,
    )


def _minutes_in_band(one: Stretch, rule: DryingRule) -> float:
    warm = warm_part(one, rule.minimum_C)
    if warm is None or warm.minutes == 0:
        return 0.0
    return _minutes(cool_part(warm, rule.maximum_C))


def _minutes(one: Stretch | None) -> float:
    return one.minutes if one else 0.0
