"""Lengths that are compared at a limit: in whole hundredths of a millimetre, never in binary fractions.

A caliper reads hundredths, so a value on a limit is equal to it, and equal is good. Sums and products
are taken in decimals: 2.2 + 0.3 + 2.5 is 5.0 here.
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import ROUND_HALF_EVEN, Decimal
from typing import Final

HUNDREDTH_MM: Final = Decimal("0.01")


def exact(length_mm: float) -> Decimal:
    """The decimal number that was written."""
    return Decimal(str(length_mm))


def hundredths(length_mm: float | Decimal) -> int:
    """Whole hundredths of a millimetre, half to even."""
    written = length_mm if isinstance(length_mm, Decimal) else exact(length_mm)
    return int((written / HUNDREDTH_MM).to_integral_value(ROUND_HALF_EVEN))


def total_mm(lengths_mm: Iterable[float]) -> float:
    """The sum as one would write it on paper, mm."""
    return float(sum((exact(one) for one in lengths_mm), Decimal(0)))


def times_mm(factor: float, length_mm: float) -> float:
    """A multiple as one would write it on paper, mm."""
    return float(exact(factor) * exact(length_mm))


def short_by_mm(found_mm: float, minimum_mm: float) -> float:
    """How much is missing to a minimum, mm; 0 when it is reached in hundredths."""
    if hundredths(found_mm) >= hundredths(minimum_mm):
        return 0.0
    return float(exact(minimum_mm) - exact(found_mm))
