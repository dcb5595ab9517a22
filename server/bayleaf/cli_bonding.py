"""The `bayleaf bonding` command."""

from __future__ import annotations

from bayleaf.cli_computation import command_of
from bayleaf.computations import BONDING


@command_of(BONDING, "bonding")
def bonding() -> None:
    """Compute NAME about bonds: air, clocks, bead, cure, thermal mismatch, fit.

    Reads one JSON document from FILE or standard input (-), and answers one: result, model, inputs with
    their defaults, band, remarks and sources. The document holds the inputs of NAME. Without NAME it says
    itself what it asks: {"computation": "margin", "inputs": {...}}, or inputs whose field names fit one
    computation only. --schema prints what may be asked and how it is answered. The vehicle maker's
    instruction and the product's data sheet come first.

    \b
    Example: bayleaf bonding dew-point asked.json
             bayleaf bonding asked.json
             echo '{"surface_temperature_C": 13.1, "dew_point_C": 10}' | bayleaf bonding margin -
    Exit status: 0 with a result; 3 if the document is refused: the answer then names field, found and
    allowed, and one line says the same on standard error; 2 if there is no document to read.
    """
