"""Readings compared at a limit: in whole steps of the named unit, never in binary fractions.

8.2 - 5.2 is 2.9999999999999991 in binary; in tenths it is 30. A value on a limit is good.
"""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal
from typing import Final

ZERO_C_IN_K: Final = 273.15
FINEST_DECIMALS: Final = 4


def scaled(reading: float, decimals: int = FINEST_DECIMALS) -> int:
    """A reading as a whole number of its last decimal, half to even."""
    return int(Decimal(str(reading)).scaleb(decimals).to_integral_value(ROUND_HALF_EVEN))


def difference(first: float, second: float, decimals: int = FINEST_DECIMALS) -> float:
    """first - second as one would write it on paper, to so many decimals."""
    return float(Decimal(scaled(first, decimals) - scaled(second, decimals)).scaleb(-decimals))


def kelvin(temperature_C: float) -> float:
    """Thermodynamic temperature, K."""
    return temperature_C + ZERO_C_IN_K
