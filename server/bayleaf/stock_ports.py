"""What the shop has besides people and phones: instruments, lots on the shelf, suppliers' sheets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol


@dataclass(frozen=True)
class Instrument:
    """A measuring instrument. `calibrated_until` is a day such as 2026-05-31, empty where nobody knows it."""

    id: str
    number: str
    kind: str
    calibrated_until: str
    note: str
    gone: bool
    changed_ms: int


@dataclass(frozen=True)
class ShelfLot:
    """A lot that was delivered. `expires` is a day, empty where none is printed."""

    id: str
    material: str
    lot: str
    expires: str
    note: str
    gone: bool
    changed_ms: int


@dataclass(frozen=True)
class Sheet:
    """What a supplier's sheet says of one material, in one revision of it; never edited in place.

    `things` is the canonical JSON of what it says: about, dated, values (each name, value, low, high, unit,
    decimals), and for a rivet its table of lengths where it has one. `withdrawn_ms`: 0 while it counts; then
    nothing is reckoned from it any more.
    """

    id: str
    group: str
    material: str
    name: str
    sheet: str
    revision: str
    things: str
    by: str
    made_ms: int
    withdrawn_ms: int = 0
    withdrawn_by: str = ""
    why: str = ""


class Stock(Protocol):
    """The shop's registers."""

    def instruments(self) -> Sequence[Instrument]:
        """By kind and number, those that are gone too."""

    def put_instrument(self, put: Instrument) -> None:
        """Add it, or replace the one of its id."""

    def lots(self) -> Sequence[ShelfLot]:
        """By material and lot, those that are gone too."""

    def put_lot(self, put: ShelfLot) -> None:
        """Add it, or replace the one of its id."""

    def sheets(self) -> Sequence[Sheet]:
        """By material, the newest first, those that are withdrawn too."""

    def add_sheet(self, sheet: Sheet) -> bool:
        """False, and nothing kept, if this revision of the sheet counts for the material already."""

    def withdraw_sheet(self, withdrawn: Sheet) -> bool:
        """Mark the sheet of its id as withdrawn; False, and nothing changed, if none of that id counts."""

    def version(self) -> str:
        """Another one after every change of an instrument, a lot or a sheet."""
