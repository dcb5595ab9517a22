"""How much faster a cure runs at a temperature than at its reference: two laws, each exact over a ramp.

Arrhenius: exp(-Q (1/T - 1/Tr)), temperatures in kelvin, Q = Ea/R; equivalent age of ASTM C1074 (written for
concrete; the mathematics is the same) and Carino, The Maturity Method, 1984. R = 8.314462618 J/(mol K).
Over a straight ramp: the integral of exp(-c/T) dT is T exp(-c/T) - c E1(c/T), NIST DLMF 6.2 and 8.19.
Doubling per 10 K: F^((T - Tr)/10), the factor of ASTM F1980; for curing adhesive common practice, no source.
"""

from __future__ import annotations

import math
import sys
from dataclasses import dataclass
from typing import Final, Protocol

from bayleaf.bonding.units import kelvin

MODEL_ARRHENIUS: Final = "arrhenius-1"
MODEL_DOUBLING: Final = "doubling-1"
R_J_PER_MOL_K: Final = 8.314462618
_SMALL_RAMP_K: Final = 0.05


class RateLaw(Protocol):
    """A speed of cure relative to a reference temperature."""

    @property
    def model(self) -> str: ...
    def rate(self, temperature_C: float) -> float:
        """Equivalent minutes per minute at a constant temperature."""
        ...

    def mean_rate(self, start_C: float, end_C: float) -> float:
        """Equivalent minutes per minute over a straight ramp, exact."""
        ...


@dataclass(frozen=True, slots=True)
class Arrhenius:
    """By an activation temperature Q = Ea/R in K and a reference temperature in C."""

    activation_K: float
    reference_C: float

    @property
    def model(self) -> str:
        return MODEL_ARRHENIUS

    def rate(self, temperature_C: float) -> float:
        return math.exp(-self.activation_K * (1 / kelvin(temperature_C) - 1 / kelvin(self.reference_C)))

    def mean_rate(self, start_C: float, end_C: float) -> float:
        if abs(end_C - start_C) < _SMALL_RAMP_K:  # the closed form would subtract nearly equal numbers
            return _simpson(self, start_C, end_C)
        return (self._primitive(end_C) - self._primitive(start_C)) / (end_C - start_C)

    def _primitive(self, temperature_C: float) -> float:
        """T exp(-c/T) - c E1(c/T), times exp(c/Tr); K."""
        T = kelvin(temperature_C)
        x = self.activation_K / T
        return self.rate(temperature_C) * T * (1 - x * scaled_E1(x))


@dataclass(frozen=True, slots=True)
class Doubling:
    """By a factor per 10 K and a reference temperature in C."""

    factor_per_10K: float
    reference_C: float

    @property
    def model(self) -> str:
        return MODEL_DOUBLING

    def rate(self, temperature_C: float) -> float:
        return math.exp(self._per_K() * (temperature_C - self.reference_C))

    def mean_rate(self, start_C: float, end_C: float) -> float:
        rise = self._per_K() * (end_C - start_C)
        return self.rate(start_C) * (math.expm1(rise) / rise if rise else 1.0)

    def _per_K(self) -> float:
        return math.log(self.factor_per_10K) / 10


def arrhenius_of(activation_energy_J_per_mol: float, reference_C: float) -> Arrhenius:
    """The law by its activation energy in J/mol."""
    return Arrhenius(activation_energy_J_per_mol / R_J_PER_MOL_K, reference_C)


def implied_energy_J_per_mol(factor_per_10K: float, from_C: float) -> float:
    """The activation energy whose rate grows by the factor from a temperature to one 10 K above it.

    About 52 kJ/mol at room temperature and 65 at 60 C for a doubling: rule and one energy cannot both hold
    over a wide span.
    """
    span = 1 / kelvin(from_C) - 1 / kelvin(from_C + 10)
    return R_J_PER_MOL_K * math.log(factor_per_10K) / span


def scaled_E1(x: float) -> float:
    """exp(x) E1(x) for x >= 1, by the continued fraction of NIST DLMF 6.9.1 (modified Lentz)."""
    b = x + 1
    fraction = d = 1 / b
    c = 1e300
    for n in range(1, 300):
        b += 2
        d = 1 / (b - n * n * d)
        c = b - n * n / c
        step = c * d
        fraction *= step
        if abs(step - 1) <= sys.float_info.epsilon:
            break
    return fraction


def _simpson(law: Arrhenius, start_C: float, end_C: float) -> float:
    middle = law.rate((start_C + end_C) / 2)
    return (law.rate(start_C) + 4 * middle + law.rate(end_C)) / 6
