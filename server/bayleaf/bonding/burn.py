"""Burn threshold of bare smooth metal: how hot it may be for how long on bare skin.

EN 563:1994 and EN ISO 13732-1, table for uncoated metals, read second-hand: up to 1 s 65 to 70, 1 min 51, 10
min 48, 8 h and longer 43 C; 10 s (55 to 57) from memory. Healthy adult skin, a small area, a surface that
keeps its temperature. Under the low value no burn is expected, over the high one it is. Model "burn-1".
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bayleaf.bonding.refusal import Range, Refused
from bayleaf.bonding.units import scaled

MODEL: Final = "burn-1"
BARE_METAL: Final = "bare metal"
CONTACT_S: Final = Range(0, 86_400, "s", "contact with bare skin", above=True)


@dataclass(frozen=True, slots=True)
class BurnRow:
    """Contact up to so many seconds, and the span in which the threshold lies, C."""

    contact_s: float
    low_C: float
    high_C: float
    source: str


_TABLE: Final = "EN 563:1994, uncoated metals; kept by EN ISO 13732-1"
_ROWS: Final = (
    BurnRow(1, 65, 70, _TABLE),
    BurnRow(10, 55, 57, "from memory"),
    BurnRow(60, 51, 51, _TABLE),
    BurnRow(600, 48, 48, _TABLE),
    BurnRow(28_800, 43, 43, _TABLE),
)


def burn_row(contact_s: float, surface: str) -> BurnRow:
    """The row for a contact: between rows the longer one holds, over the longest it stays."""
    if surface != BARE_METAL:
        raise Refused("surface", surface, f"{BARE_METAL}: coated metal and plastics have tables of their own")
    CONTACT_S.refuse_outside("contact_s", contact_s)
    return next((row for row in _ROWS if contact_s <= row.contact_s), _ROWS[-1])


def can_burn(surface_C: float, row: BurnRow) -> bool:
    """Whether bare skin may be burnt: from the low value on."""
    return scaled(surface_C) >= scaled(row.low_C)
