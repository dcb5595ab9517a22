"""Rows of blind-rivet tables: which length holds which grip, which hole takes which diameter.

The built-in rows are an arithmetic example: open end blind rivets AlA/AlA of ISO 15981:2002, clause 3,
table of rivet lengths and recommended grip ranges. The supplier's sheet of the rivet that is used comes
first, and plain aluminium rivets are not what belongs through carbon laminate. Which diameter heads
which column, and the holes (diameter + 0.1 to + 0.2 mm, as in the application annex of ISO 15977 to
15984), are from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from bayleaf.fastening.lengths import exact, hundredths
from bayleaf.fastening.refusal import Refused

HOLE_OVER_MM: Final = (0.1, 0.2)
BODY_OVER_MM: Final = 0.08
LENGTH_OVER_MM: Final = 1
MATERIAL_15981: Final = "AlA/AlA"


@dataclass(frozen=True, slots=True)
class RivetRow:
    """One length of a table, and the grip it may clamp, limits included."""

    length_mm: float
    grip_min_mm: float
    grip_max_mm: float

    def holds(self, low_mm: float, high_mm: float) -> bool:
        lowest, highest = hundredths(self.grip_min_mm), hundredths(self.grip_max_mm)
        return lowest <= hundredths(low_mm) and hundredths(high_mm) <= highest

    def ends_at(self, grip_mm: float) -> bool:
        return hundredths(grip_mm) in (hundredths(self.grip_min_mm), hundredths(self.grip_max_mm))


# Nominal length: grip range per column of nominal diameter.
_ROWS_15981: Final[dict[int, dict[str, tuple[float, float]]]] = {
    5: {"3.2": (0.5, 1.5)},
    6: {"2.4": (0.5, 3.0), "3.2": (1.5, 3.5), "4.0": (1.0, 3.0), "4.8": (1.5, 2.5)},
    8: {"3.2": (3.5, 5.0), "4.0": (3.0, 5.0), "4.8": (2.5, 4.0)},
    9: {"2.4": (3.0, 6.0)},
    10: {"3.2": (5.0, 7.0), "4.0": (5.0, 6.5), "4.8": (4.0, 6.0)},
    12: {"2.4": (6.0, 9.0), "3.2": (7.0, 9.0), "4.0": (6.5, 8.5), "4.8": (6.0, 8.0), "6.4": (3.0, 6.0)},
    16: {"3.2": (9.0, 13.0), "4.0": (8.5, 12.5), "4.8": (8.0, 12.0), "6.4": (6.0, 10.0)},
    20: {"3.2": (13.0, 17.0), "4.0": (12.5, 16.5), "4.8": (12.0, 15.0), "6.4": (10.0, 14.0)},
    25: {"3.2": (17.0, 22.0), "4.0": (16.5, 21.0), "4.8": (15.0, 20.0), "6.4": (14.0, 18.0)},
    30: {"4.8": (20.0, 25.0), "6.4": (18.0, 23.0)},
}
_COLUMNS: Final = {2.4: "2.4", 3.0: "3.2", 3.2: "3.2", 4.0: "4.0", 4.8: "4.8", 5.0: "4.8", 6.4: "6.4"}
HOLE_DIAMETERS_MM: Final = (2.4, 3.0, 3.2, 4.0, 4.8, 5.0, 6.0, 6.4)
LENGTHS_15981_MM: Final = tuple(_ROWS_15981)


def rows_15981(nominal_diameter_mm: float) -> tuple[RivetRow, ...]:
    """The rows of ISO 15981:2002 for a nominal diameter; Refused names the diameters that it has."""
    column = _COLUMNS.get(nominal_diameter_mm)
    if column is None:
        raise Refused("nominal_diameter_mm", nominal_diameter_mm, f"one of {_listed(_COLUMNS)} mm")
    return tuple(
        RivetRow(length, *ranges[column]) for length, ranges in _ROWS_15981.items() if column in ranges
    )


def same_rows_as_mm(nominal_diameter_mm: float) -> list[float]:
    """The other nominal diameters under the same column of the table, mm."""
    column = _COLUMNS.get(nominal_diameter_mm)
    return [other for other, its in _COLUMNS.items() if its == column and other != nominal_diameter_mm]


def span_mm(rows: tuple[RivetRow, ...]) -> tuple[float, float]:
    """Smallest and largest grip that any row holds, mm. There may be holes between: it decides nothing."""
    return min(row.grip_min_mm for row in rows), max(row.grip_max_mm for row in rows)


def hole_range_mm(nominal_diameter_mm: float) -> tuple[float, float]:
    """Smallest and largest hole for a nominal diameter, mm (ISO 15977 family, application data, from
    memory).
    """
    low, high = (float(exact(nominal_diameter_mm) + exact(over)) for over in HOLE_OVER_MM)
    return low, high


def known_hole_range_mm(nominal_diameter_mm: float) -> tuple[float, float]:
    """The same, for the diameters that the standards name; Refused for others."""
    if nominal_diameter_mm not in HOLE_DIAMETERS_MM:
        allowed = f"each one of {_listed(HOLE_DIAMETERS_MM)} mm"
        raise Refused("nominal_diameters_mm", nominal_diameter_mm, allowed)
    return hole_range_mm(nominal_diameter_mm)


def longest_of_nominal_mm(nominal_length_mm: int) -> int:
    """The longest that a rivet of a nominal length may be, mm: 1 more (ISO 15981:2002, clause 3)."""
    if nominal_length_mm not in _ROWS_15981:
        raise Refused("nominal_lengths_mm", nominal_length_mm, f"each one of {_listed(_ROWS_15981)} mm")
    return nominal_length_mm + LENGTH_OVER_MM


def thickest_body_mm(nominal_diameter_mm: float) -> float:
    """Upper limit of the rivet's body, mm: nominal + 0.08 (DIN 7337, followed by ISO 15973 to 15984)."""
    return float(exact(nominal_diameter_mm) + exact(BODY_OVER_MM))


def least_clearance_mm(nominal_diameter_mm: float) -> float:
    """Room of the thickest body in the smallest hole, mm."""
    smallest_hole = exact(hole_range_mm(nominal_diameter_mm)[0])
    return float(smallest_hole - Decimal(str(thickest_body_mm(nominal_diameter_mm))))


def _listed(values: object) -> str:
    return ", ".join(str(one) for one in sorted(values))  # type: ignore[call-overload]
