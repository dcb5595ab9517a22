"""A product sheet's limits for the work: air, humidity, surface, each compared in its own whole steps.

The limits are the sheet's; a value on a limit is good. Model "limits-1".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bayleaf.bonding.refusal import Refused
from bayleaf.bonding.units import scaled

MODEL: Final = "limits-1"


@dataclass(frozen=True, slots=True)
class Limit:
    """One reading with its unit and decimals, and the limits that the sheet gives for it."""

    name: str
    found: float
    unit: str
    decimals: int
    minimum: float | None = None
    maximum: float | None = None


@dataclass(frozen=True, slots=True)
class Judged:
    """A reading in whole steps, as it is recorded, and how it stands."""

    name: str
    whole: int
    inside: bool
    sentence: str


def judge(limits: Sequence[Limit]) -> list[Judged]:
    """Every reading against its limits, in order. Refused: no limit, or limits that cross."""
    return [_judge(one) for one in limits]


def _judge(one: Limit) -> Judged:
    if one.minimum is None and one.maximum is None:
        raise Refused(f"readings.{one.name}", "no limit", "a minimum, a maximum, or both, from the sheet")
    whole = scaled(one.found, one.decimals)
    low = None if one.minimum is None else scaled(one.minimum, one.decimals)
    high = None if one.maximum is None else scaled(one.maximum, one.decimals)
    if low is not None and high is not None and low > high:
        raise Refused(f"readings.{one.name}", f"minimum {one.minimum}", f"at most the maximum, {one.maximum}")
    if low is not None and whole < low:
        return Judged(one.name, whole, inside=False, sentence=f"under {one.minimum} {one.unit}")
    if high is not None and whole > high:
        return Judged(one.name, whole, inside=False, sentence=f"over {one.maximum} {one.unit}")
    return Judged(one.name, whole, inside=True, sentence="inside")
