"""Suppliers' sheets: the figures that one may give, and which input of which computation takes them.

A figure of the sheet that is in use stands in the place of the method's own fixed figure. Figures that only
mean something together (a time and the temperature that it holds at) are given together or not at all.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from bayleaf.step_computations.inputs import RivetTable

GROUPS: Final = ("adhesives", "rivets", "bits", "materials")


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure by its name, in its one unit, with the range in which it can be meant."""

    name: str
    unit: str
    least: float
    most: float


@dataclass(frozen=True, slots=True)
class SheetValue:
    """A figure of a sheet: `value`, and the range that it may take, in `unit` / 10^decimals."""

    name: str
    value: int
    low: int
    high: int
    unit: str
    decimals: int


@dataclass(frozen=True, slots=True)
class MaterialSheet:
    """What phones and computations know of a sheet; `digest` is of all that it says."""

    digest: str
    group: str
    material: str
    name: str
    sheet: str
    revision: str
    dated: str
    values: tuple[SheetValue, ...]
    table: RivetTable | None = None

    def figure(self, name: str) -> SheetValue | None:
        return next((one for one in self.values if one.name == name), None)


FIGURES: Final[Mapping[str, tuple[Figure, ...]]] = {
    "adhesives": (
        Figure("open_time", "min", 1, 600),
        Figure("open_time_at", "C", 0, 60),
        Figure("mixer_gel_time", "min", 0.5, 240),
        Figure("handling_time", "h", 0.1, 1_000),
        Figure("full_cure", "h", 0.1, 5_000),
        Figure("cure_at", "C", 0, 200),
        Figure("activation_energy", "kJ/mol", 10, 200),
        Figure("minimum_cure", "C", -20, 100),
        Figure("blob_hardness_min", "Shore D", 1, 100),
        Figure("bondline_min", "mm", 0.05, 10),
        Figure("bondline_max", "mm", 0.05, 10),
        Figure("cartridge", "mL", 1, 5_000),
        Figure("left_in_mixer", "mL", 0, 500),
        Figure("shear_modulus", "MPa", 0.1, 10_000),
    ),
    "rivets": (
        Figure("grip_from", "mm", 0.1, 100),
        Figure("grip_to", "mm", 0.1, 100),
        Figure("hole_min", "mm", 1, 25),
        Figure("hole_max", "mm", 1, 25),
    ),
    "bits": (Figure("diameter", "mm", 0.5, 25), Figure("holes_per_bit", "pcs", 1, 10_000)),
    "materials": (
        Figure("expansion", "1e-6/K", -5, 200),
        Figure("modulus", "MPa", 1, 500_000),
        Figure("temperature_max", "C", 20, 600),
    ),
}
TOGETHER: Final = (
    ("open_time", "open_time_at"),
    ("handling_time", "full_cure", "cure_at"),
    ("bondline_min", "bondline_max"),
    ("grip_from", "grip_to"),
    ("hole_min", "hole_max"),
)
RISING: Final = (
    ("handling_time", "full_cure"),
    ("bondline_min", "bondline_max"),
    ("grip_from", "grip_to"),
    ("hole_min", "hole_max"),
)

ADHESIVE: Final = "adhesive"
RIVETS: Final = "rivets"
BIT: Final = "bit"

# By computation and input: the lot or material input (else the material of that name) whose sheet it is, and
# the figure.
TAKES: Final[Mapping[str, Mapping[str, tuple[str, str]]]] = {
    "open_time": {"sheet_time": (ADHESIVE, "open_time"), "sheet_temperature": (ADHESIVE, "open_time_at")},
    "cure_progress": {
        "handling_time": (ADHESIVE, "handling_time"),
        "full_time": (ADHESIVE, "full_cure"),
        "sheet_temperature": (ADHESIVE, "cure_at"),
        "activation_energy": (ADHESIVE, "activation_energy"),
        "blob_least": (ADHESIVE, "blob_hardness_min"),
        "minimum_cure": (ADHESIVE, "minimum_cure"),
    },
    "bead_volume": {
        "thinnest": (ADHESIVE, "bondline_min"),
        "thickest": (ADHESIVE, "bondline_max"),
        "cartridge": (ADHESIVE, "cartridge"),
        "left_in_mixer": (ADHESIVE, "left_in_mixer"),
    },
    "thermal_mismatch": {"shear_modulus": (ADHESIVE, "shear_modulus")},
    "bit_use": {"limit": (BIT, "holes_per_bit")},
    "grip": {"grip_from": (RIVETS, "grip_from"), "grip_to": (RIVETS, "grip_to")},
}
# By computation: the input that takes a sheet's table of rivet lengths, and the lot whose sheet it is. The
# table also stands in the place of one rivet's range.
TABLES: Final[Mapping[str, tuple[str, str]]] = {"grip": ("lengths", RIVETS)}
RANGE: Final = ("grip_from", "grip_to")
LENGTH: Final = Figure("length", "mm", 1, 200)
# Facts of the method that a computation reads beside its inputs.
FACTS: Final[Mapping[str, Mapping[str, tuple[str, str]]]] = {
    "hole_decision": {
        "rivet.hole_min_mm": (RIVETS, "hole_min"),
        "rivet.hole_max_mm": (RIVETS, "hole_max"),
    },
}


def sheet_of(sheets: Sequence[MaterialSheet], material: str) -> MaterialSheet | None:
    """The one in use for a material: the first, for the newest comes first."""
    return next((one for one in sheets if one.material == material), None)
