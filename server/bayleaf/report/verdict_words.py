"""The verdict on a heat run in words: one line each for what was found, and how they add up."""

from __future__ import annotations

from typing import Final

from bayleaf.report.words import quantity
from bayleaf.step_computations.run_verdict import RunVerdict, VerdictLine
from bayleaf.step_computations.shapes import Value

OVERALL: Final = {
    "conforming": "Conforms",
    "conforming_with_deviations": "Conforms, with deviations",
    "not_conforming": "Does not conform",
    "not_judged": "Nothing to judge: no reading of the bond",
}
STANDING: Final = {
    "conforming": "within",
    "deviation": "deviates",
    "not_conforming": "not conforming",
    "not_judged": "no limit set",
    "not_recorded": "not judged: no turn-down, lift or switch-off was recorded",
    "pending": "not over yet",
}
WHAT: Final = {
    "ramp": "Steepest rise",
    "soak": "Soak",
    "soak_gap": "Gap in the soak",
    "bond_peak": "Hottest bond",
    "metal_peak": "Hottest metal",
    "metal_minutes": "Metal above its limit, all runs",
    "neighbour_peak": "Hottest neighbour",
    "release": "Pads out of order, or never",
    "cooling": "Steepest fall",
    "cold": "Last reading, hottest sensor",
    "sensor_gap": "Longest time without a reading",
}
LEAST: Final = ("soak",)


def found_words(line: VerdictLine, sensor: str = "") -> str:
    """The figure, the sensor that read it if that is told, and the limit that it stands against."""
    figure = f"{amount_words(line.figure)}{f' at sensor {sensor}' if sensor else ''}"
    if line.limit is None:
        return figure
    sense = "at least" if line.code in LEAST else "at most"
    return f"{figure}, {sense} {amount_words(line.limit)}"


def overall_words(made: RunVerdict) -> str:
    """How the lines add up; a run that is not over is judged so far."""
    said = OVERALL[made.overall]
    aborted = "; it was aborted" if made.aborted else ""
    return f"{said}{aborted}" if made.over else f"So far: {said[0].lower()}{said[1:]}"


def amount_words(one: Value) -> str:
    """A figure with its unit; of pads only their number."""
    return quantity(one.value, one.decimals, "" if one.unit == "pads" else one.unit)
