"""All bonding computations by name."""

from bayleaf.computations import (
    bonding_adhesive,
    bonding_air,
    bonding_clocks,
    bonding_cure,
    bonding_cure_time,
    bonding_expansion,
    bonding_fit,
    bonding_mismatch,
)
from bayleaf.computations.shapes import book_of

BONDING = book_of(
    bonding_air.COMPUTATIONS,
    bonding_clocks.COMPUTATIONS,
    bonding_adhesive.COMPUTATIONS,
    bonding_cure_time.COMPUTATIONS,
    bonding_cure.COMPUTATIONS,
    bonding_mismatch.COMPUTATIONS,
    bonding_expansion.COMPUTATIONS,
    bonding_fit.COMPUTATIONS,
)
