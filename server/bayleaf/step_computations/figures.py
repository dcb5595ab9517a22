"""Figures of answers: how they are rounded and compared, the same in both languages.

Rounding is half away from zero, as on paper; what lies within a billionth of a step under a half counts as
the half, so that the machine's binary fractions decide nothing. What is reached is rounded down, what is
left is rounded up. A limit is compared in whole steps of the figure that is shown; a value on it is good.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final, Protocol

from bayleaf.step_computations.shapes import Value

_NOISE: Final = 1e-9
MS_PER_MIN: Final = 60_000


class Scaled(Protocol):
    """A whole number of steps of 10^-decimals."""

    @property
    def value(self) -> int: ...
    @property
    def decimals(self) -> int: ...


def ten_to(decimals: int) -> int:
    """Steps in one unit."""
    return int(10**decimals)


def rounded(number: float, decimals: int) -> int:
    """Whole steps of 10^-decimals, half away from zero."""
    steps = math.floor(abs(number) * ten_to(decimals) + 0.5 + _NOISE)
    return -steps if number < 0 else steps


def reached(number: float) -> int:
    """Whole units that are reached."""
    return math.floor(number + _NOISE)


def left(number: float) -> int:
    """Whole units that are still needed; never less than none."""
    return max(0, math.ceil(number - _NOISE))


def figure(name: str, number: float, unit: str, decimals: int) -> Value:
    """A figure of an answer, rounded."""
    return Value(name, rounded(number, decimals), unit, decimals)


def number_of(scaled: Scaled) -> float:
    """The number that a figure stands for."""
    return scaled.value / ten_to(scaled.decimals)


def steps_of(scaled: Scaled, decimals: int) -> int:
    """A figure in steps of 10^-decimals, which must not be coarser than its own."""
    return scaled.value * ten_to(decimals - scaled.decimals)


def finest(scaled: Iterable[Scaled]) -> int:
    """The most decimals of several figures."""
    return max((one.decimals for one in scaled), default=0)


def is_over(first: Scaled, second: Scaled) -> bool:
    """first > second, in whole steps of the finer one."""
    decimals = finest((first, second))
    return steps_of(first, decimals) > steps_of(second, decimals)


def difference(name: str, first: Scaled, second: Scaled, unit: str) -> Value:
    """first - second, exact."""
    decimals = finest((first, second))
    return Value(name, steps_of(first, decimals) - steps_of(second, decimals), unit, decimals)
