"""The `bayleaf fastening` command."""

from __future__ import annotations

from bayleaf.cli_computation import command_of
from bayleaf.computations import FASTENING


@command_of(FASTENING, "fastening")
def fastening() -> None:
    """Compute NAME about rivets: holes, grip, edge distance, pieces, pairing, VIN.

    Reads one JSON document from FILE or standard input (-), and answers one: result, model, inputs with
    their defaults, band, remarks and sources. The document holds the inputs of NAME. Without NAME it says
    itself what it asks: {"computation": "grip", "inputs": {...}}, or inputs whose field names fit one
    computation only. --schema prints what may be asked and how it is answered. The vehicle maker's
    instruction and the product's data sheet come first.

    \b
    Example: bayleaf fastening grip asked.json
             bayleaf fastening asked.json
             echo '{"vin": "0BAYLEAF2T0000001"}' | bayleaf fastening vin -
    Exit status: 0 with a result; 3 if the document is refused: the answer then names field, found and
    allowed, and one line says the same on standard error; 2 if there is no document to read.
    """
