"""How much parts grow and shrink: 6061 aluminium in the cold, carbon steel, laminates from their lamina.

Aluminium 6061-T6: NIST cryogenic material properties (public domain), (L - L293)/L293 x 1e5 as a cubic in T,
18 to 300 K, fit error 4 percent. Steel: EN 1993-1-2, 3.4.1.1, dl/l = 1.2e-5 t + 0.4e-8 t^2 - 2.416e-4, 20 to
750 C. Laminates: classical laminate theory, Kaw, Mechanics of Composite Materials, chapters 2 and 4.
Model "expansion-1".
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from bayleaf.bonding.refusal import Range, Refused
from bayleaf.bonding.units import kelvin

MODEL: Final = "expansion-1"
ALUMINIUM_C: Final = Range(-255.15, 26.85, "C", "range of the NIST polynomial for 6061, 18 to 300 K")
STEEL_C: Final = Range(20, 750, "C", "range of the formula in EN 1993-1-2, 3.4.1.1")
_NIST_6061: Final = (-412.77, -0.30389, 8.7696e-3, -9.9821e-6)
_BASE_C: Final = 20.0
Matrix = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Growth:
    """Strain from 20 C to a temperature, and the mean coefficient between, 1/K (None at 20 C itself)."""

    strain: float
    mean_per_K: float | None

    def change_mm(self, length_mm: float) -> float:
        return self.strain * length_mm


@dataclass(frozen=True, slots=True)
class Lamina:
    """One unidirectional ply: along (1) and across (2) its fibres; MPa and 1/K."""

    E1_MPa: float
    E2_MPa: float
    nu12: float
    G12_MPa: float
    expansion_1_per_K: float
    expansion_2_per_K: float

    def __post_init__(self) -> None:
        if self.nu12**2 * self.E2_MPa / self.E1_MPa >= 1:
            allowed = "a ratio whose square stays under E1 / E2: else the ply would give energy"
            raise Refused("nu12", self.nu12, allowed)

    def stiffness(self) -> Matrix:
        """Reduced stiffness Q in the ply's own axes (Kaw, equation 2.93), MPa."""
        by = 1 - self.nu12**2 * self.E2_MPa / self.E1_MPa
        Q12 = self.nu12 * self.E2_MPa / by
        return np.array([[self.E1_MPa / by, Q12, 0], [Q12, self.E2_MPa / by, 0], [0, 0, self.G12_MPa]])


def aluminium_6061(temperature_C: float) -> Growth:
    """Strain of 6061-T6 from 293 K; -255 to 26.85 C."""
    ALUMINIUM_C.refuse_outside("temperature_C", temperature_C)
    T = kelvin(temperature_C)
    return _growth(_nist_strain(T), _nist_strain(kelvin(_BASE_C)), temperature_C)


def carbon_steel(temperature_C: float) -> Growth:
    """Strain of carbon steel from 20 C; 20 to 750 C."""
    STEEL_C.refuse_outside("temperature_C", temperature_C)
    strain = 1.2e-5 * temperature_C + 0.4e-8 * temperature_C**2 - 2.416e-4
    return _growth(strain, 0.0, temperature_C)


def quasi_isotropic_per_K(ply: Lamina) -> float:
    """Expansion of a laminate as stiff in every in-plane direction, by the invariants of its ply, 1/K."""
    (Q11, Q12, _), (_, Q22, _), _ = ply.stiffness()
    force = ply.expansion_1_per_K * (Q11 + Q12) + ply.expansion_2_per_K * (Q12 + Q22)
    return float(force / (Q11 + Q22 + 2 * Q12))


def laminate_per_K(ply: Lamina, stack_deg: Sequence[float], field: str = "stack_deg") -> tuple[float, float]:
    """Membrane expansion along and across a symmetric stack of equal plies, 1/K; 90 and -90 are one ply.

    Refused at the field: a stack that is not symmetric, since it would also bend.
    """
    lie_deg = [angle % 180 for angle in stack_deg]
    if lie_deg != lie_deg[::-1]:
        raise Refused(field, list(stack_deg), "a stack that reads the same from both faces")
    A, N = np.zeros((3, 3)), np.zeros(3)
    for angle in stack_deg:
        stiffness, alpha = _turned(ply, math.radians(angle))
        A += stiffness
        N += stiffness @ alpha
    try:
        along, across, _ = np.linalg.solve(A, N)
    except np.linalg.LinAlgError as error:
        raise Refused(field, list(stack_deg), "plies that hold the stack in every direction") from error
    return float(along), float(across)


def _turned(ply: Lamina, angle: float) -> tuple[Matrix, Matrix]:
    """Stiffness and expansion of a ply in the laminate's axes, engineering shear (Kaw, equation 2.104)."""
    c, s = math.cos(angle), math.sin(angle)
    strains = np.array(
        [[c * c, s * s, c * s], [s * s, c * c, -c * s], [-2 * c * s, 2 * c * s, c * c - s * s]]
    )
    own = np.array([ply.expansion_1_per_K, ply.expansion_2_per_K, 0.0])
    return strains.T @ ply.stiffness() @ strains, np.linalg.solve(strains, own)


def _nist_strain(T: float) -> float:
    return sum(factor * T**power for power, factor in enumerate(_NIST_6061)) * 1e-5


def _growth(strain: float, at_base: float, temperature_C: float) -> Growth:
    """The mean is taken from what the same formula gives at 20 C, so that it holds beside 20 C too."""
    rise = temperature_C - _BASE_C
    return Growth(strain, (strain - at_base) / rise if rise else None)
