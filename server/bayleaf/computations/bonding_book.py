"""All bonding computations by name."""

from bayleaf.computations import bonding_adhesive, bonding_air, bonding_cure, bonding_fit
from bayleaf.computations.shapes import book_of

BONDING = book_of(
    bonding_air.COMPUTATIONS,
    bonding_adhesive.COMPUTATIONS,
    bonding_cure.COMPUTATIONS,
    bonding_fit.COMPUTATIONS,
)
