"""All fastening computations by name."""

from bayleaf.computations import (
    fastening_holes,
    fastening_picks,
    fastening_pieces,
    fastening_rivets,
    fastening_spacing,
)
from bayleaf.computations.shapes import book_of

FASTENING = book_of(
    fastening_holes.COMPUTATIONS,
    fastening_spacing.COMPUTATIONS,
    fastening_rivets.COMPUTATIONS,
    fastening_picks.COMPUTATIONS,
    fastening_pieces.COMPUTATIONS,
)
