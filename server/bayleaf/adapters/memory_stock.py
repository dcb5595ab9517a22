"""The shop's registers in memory, for tests."""

from __future__ import annotations

from collections.abc import Sequence

from bayleaf.stock_ports import Instrument, Sheet, ShelfLot


class MemoryStock:
    """The port Stock."""

    def __init__(self) -> None:
        self._instruments: dict[str, Instrument] = {}
        self._lots: dict[str, ShelfLot] = {}
        self._sheets: list[Sheet] = []

    def instruments(self) -> Sequence[Instrument]:
        """By kind and number."""
        return sorted(self._instruments.values(), key=lambda one: (one.kind, one.number, one.id))

    def put_instrument(self, put: Instrument) -> None:
        """Add or replace."""
        self._instruments[put.id] = put

    def lots(self) -> Sequence[ShelfLot]:
        """By material and lot."""
        return sorted(self._lots.values(), key=lambda one: (one.material, one.lot, one.id))

    def put_lot(self, put: ShelfLot) -> None:
        """Add or replace."""
        self._lots[put.id] = put

    def sheets(self) -> Sequence[Sheet]:
        """By material, the newest first."""
        return sorted(self._sheets, key=lambda one: (one.material, -one.made_ms, one.id))

    def add_sheet(self, added: Sheet) -> bool:
        """Once a revision, those that are withdrawn apart."""
        same = (added.material, added.sheet, added.revision, 0)
        if any((one.material, one.sheet, one.revision, one.withdrawn_ms) == same for one in self._sheets):
            return False
        self._sheets.append(added)
        return True

    def withdraw_sheet(self, withdrawn: Sheet) -> bool:
        """Once."""
        counting = {one.id: place for place, one in enumerate(self._sheets) if one.withdrawn_ms == 0}
        if withdrawn.id not in counting:
            return False
        self._sheets[counting[withdrawn.id]] = withdrawn
        return True

    def version(self) -> str:
        """By when they changed."""
        changed = [[one.changed_ms for one in kept.values()] for kept in (self._instruments, self._lots)]
        changed.append([one.made_ms for one in self._sheets])
        changed.append([one.withdrawn_ms for one in self._sheets])
        return " ".join(f"{len(times)} {sum(times)}" for times in changed)
