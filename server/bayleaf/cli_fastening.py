"""The `bayleaf fastening` command."""

from __future__ import annotations

from bayleaf.cli_computation import command_of
from bayleaf.computations import FASTENING


@command_of(FASTENING, "fastening")
def fastening() -> None:
    """Compute NAME about rivets: holes, grip, edge distance, pieces, pairing, VIN.

    Reads one JSON document from FILE, or - for standard input, and answers one: result, model, inputs with
    their defaults, band, remarks and sources. The vehicle maker's instruction and the product's data sheet
    come first.

    \b
    Example: bayleaf fastening grip asked.json
    Exit status: 0 with a result; 2 if the document is refused: the answer then names field, found and
    allowed, and one line says the same on standard error.
    """
