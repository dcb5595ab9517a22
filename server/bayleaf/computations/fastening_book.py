"""All fastening computations by name."""

from bayleaf.computations import fastening_holes, fastening_pieces, fastening_rivets
from bayleaf.computations.shapes import book_of

FASTENING = book_of(
    fastening_holes.COMPUTATIONS, fastening_rivets.COMPUTATIONS, fastening_pieces.COMPUTATIONS
)
