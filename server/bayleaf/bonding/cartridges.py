"""Cartridges and mixers for a volume, with what stays behind in both; and the two sides of a mix.

Counted in decimals: 4.2 mL at 1.4 mL each are 3 cartridges, not 4. Model "cartridges-1".
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal
from typing import Final

from bayleaf.bonding.refusal import Refused

MODEL: Final = "cartridges-1"


@dataclass(frozen=True, slots=True)
class Cartridge:
    """One size: its volume, what is left in each mixer and in the empty cartridge, mixers per cartridge."""

    volume_mL: float
    left_in_mixer_mL: float
    left_in_cartridge_mL: float
    mixers: int = 1

    def usable_mL(self) -> Decimal:
        """What reaches the flange. Refused where the waste takes it all."""
        waste = self.mixers * _exact(self.left_in_mixer_mL) + _exact(self.left_in_cartridge_mL)
        usable = _exact(self.volume_mL) - waste
        if usable <= 0:
            raise Refused(
                "cartridge_mL", f"{self.volume_mL} mL", f"more than the {waste} mL that stay behind"
            )
        return usable


@dataclass(frozen=True, slots=True)
class Wanted:
    """What to have ready; mL."""

    usable_per_cartridge_mL: float
    cartridges: int
    mixers: int
    bought_mL: float
    spare_mL: float


@dataclass(frozen=True, slots=True)
class Mix:
    """Two components of a mix; ratio by volume is not ratio by mass."""

    a_mL: float
    b_mL: float
    mass_g: float
    mass_a_per_b: float


def cartridges_for(needed_mL: float, cartridge: Cartridge) -> Wanted:
    """Whole cartridges; no adhesive wanted, no cartridge."""
    usable = cartridge.usable_mL()
    count = int((_exact(needed_mL) / usable).to_integral_value(ROUND_CEILING))
    return Wanted(
        usable_per_cartridge_mL=float(usable),
        cartridges=count,
        mixers=count * cartridge.mixers,
        bought_mL=float(count * _exact(cartridge.volume_mL)),
        spare_mL=float(count * usable - _exact(needed_mL)),
    )


def mix(needed_mL: float, parts: tuple[float, float], densities_g_per_mL: tuple[float, float]) -> Mix:
    """Volumes and mass of components A and B by their parts by volume."""
    a_mL, b_mL = (needed_mL * part / sum(parts) for part in parts)
    a_g, b_g = a_mL * densities_g_per_mL[0], b_mL * densities_g_per_mL[1]
    by_mass = parts[0] * densities_g_per_mL[0] / (parts[1] * densities_g_per_mL[1])
    return Mix(a_mL, b_mL, a_g + b_g, by_mass)


def _exact(volume_mL: float) -> Decimal:
    return Decimal(str(volume_mL))
