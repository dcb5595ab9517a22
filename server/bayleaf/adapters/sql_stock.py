"""The shop's registers in SQL."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict

from sqlalchemy import Engine, Table, delete, func, insert, select, update

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.stock_tables import instrument, sheet, shelf_lot
from bayleaf.stock_ports import Instrument, Sheet, ShelfLot

CHANGES = (instrument.c.changed_ms, shelf_lot.c.changed_ms, sheet.c.made_ms, sheet.c.withdrawn_ms)


class SqlStock:
    """The port Stock."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def instruments(self) -> Sequence[Instrument]:
        """By kind and number."""
        query = select(instrument).order_by(instrument.c.kind, instrument.c.number, instrument.c.id)
        with reading(self._engine) as connection:
            return [Instrument(**row) for row in connection.execute(query).mappings()]

    def put_instrument(self, put: Instrument) -> None:
        """Add or replace."""
        self._put(instrument, asdict(put))

    def lots(self) -> Sequence[ShelfLot]:
        """By material and lot."""
        query = select(shelf_lot).order_by(shelf_lot.c.material, shelf_lot.c.lot, shelf_lot.c.id)
        with reading(self._engine) as connection:
            return [ShelfLot(**row) for row in connection.execute(query).mappings()]

    def put_lot(self, put: ShelfLot) -> None:
        """Add or replace."""
        self._put(shelf_lot, asdict(put))

    def sheets(self) -> Sequence[Sheet]:
        """By material, the newest first."""
        query = select(sheet).order_by(sheet.c.material, sheet.c.made_ms.desc(), sheet.c.id)
        with reading(self._engine) as connection:
            return [Sheet(**row) for row in connection.execute(query).mappings()]

    def add_sheet(self, added: Sheet) -> bool:
        """Once a revision, those that are withdrawn apart."""
        same = (
            (sheet.c.material == added.material)
            & (sheet.c.sheet == added.sheet)
            & (sheet.c.revision == added.revision)
            & (sheet.c.withdrawn_ms == 0)
        )
        with writing(self._engine) as connection:
            if connection.scalar(select(sheet.c.id).where(same)) is not None:
                return False
            connection.execute(insert(sheet).values(asdict(added)))
            return True

    def withdraw_sheet(self, withdrawn: Sheet) -> bool:
        """Once."""
        counts = (sheet.c.id == withdrawn.id) & (sheet.c.withdrawn_ms == 0)
        said = {key: getattr(withdrawn, key) for key in ("withdrawn_ms", "withdrawn_by", "why")}
        with writing(self._engine) as connection:
            return connection.execute(update(sheet).where(counts).values(said)).rowcount == 1

    def version(self) -> str:
        """Counts and sums of when they changed: a replaced or withdrawn row changed later than before."""
        with reading(self._engine) as connection:
            return " ".join(
                str(figure)
                for changed_ms in CHANGES
                for figure in connection.execute(
                    select(func.count(), func.coalesce(func.sum(changed_ms), 0)).select_from(changed_ms.table)
                ).one()
            )

    def _put(self, table: Table, row: dict[str, object]) -> None:
        with writing(self._engine) as connection:
            connection.execute(delete(table).where(table.c.id == row["id"]))
            connection.execute(insert(table).values(row))
