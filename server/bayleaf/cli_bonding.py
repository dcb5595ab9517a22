"""The `bayleaf bonding` command."""

from __future__ import annotations

from bayleaf.cli_computation import command_of
from bayleaf.computations import BONDING


@command_of(BONDING, "bonding")
def bonding() -> None:
    """Compute NAME about bonds: air, clocks, bead, cure, thermal mismatch, fit.

    Reads one JSON document from FILE, or - for standard input, and answers one: result, model, inputs with
    their defaults, band, remarks and sources. The vehicle maker's instruction and the product's data sheet
    come first.

    \b
    Example: bayleaf bonding dew-point asked.json
    Exit status: 0 with a result; 2 if the document is refused: the answer then names field, found and
    allowed, and one line says the same on standard error.
    """
