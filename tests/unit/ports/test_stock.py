"""The promise of the shop's registers, written once and asked of every adapter of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from bayleaf.adapters.database import open_engine
from bayleaf.adapters.memory_stock import MemoryStock
from bayleaf.adapters.sql_stock import SqlStock
from bayleaf.adapters.tables import metadata
from bayleaf.stock_ports import Instrument, Sheet, ShelfLot, Stock

TORQUE = Instrument("i-1", "T-07", "torque tool", "2026-05-31", "", gone=False, changed_ms=5)
GAUGE = Instrument("i-2", "G-02", "bore gauge", "", "drawer 3", gone=False, changed_ms=6)
ADHESIVE = ShelfLot("l-1", "adhesive", "KL-77", "2026-12-31", "", gone=False, changed_ms=7)
SHEET = Sheet("s-1", "adhesives", "adhesive", "Adhesive", "Sheet A", "1", "{}", "person-1", 8)


def check_stock(stock: Stock) -> None:
    """Rows in order, replaced whole; a revision of a sheet once; another version after every change."""
    versions = [stock.version()]
    stock.put_instrument(TORQUE)
    versions.append(stock.version())
    stock.put_instrument(GAUGE)
    assert list(stock.instruments()) == [GAUGE, TORQUE]
    gone = replace(TORQUE, gone=True, changed_ms=9)
    stock.put_instrument(gone)
    versions.append(stock.version())
    assert list(stock.instruments()) == [GAUGE, gone]
    stock.put_lot(ADHESIVE)
    versions.append(stock.version())
    assert list(stock.lots()) == [ADHESIVE]
    assert stock.add_sheet(SHEET)
    versions.append(stock.version())
    assert len(set(versions)) == len(versions)
    assert not stock.add_sheet(replace(SHEET, id="s-2", things="other")), "a revision is never edited"
    newer = replace(SHEET, id="s-3", revision="2", made_ms=9)
    assert stock.add_sheet(newer)
    assert list(stock.sheets()) == [newer, SHEET]
    check_withdrawing(stock, newer)


def check_withdrawing(stock: Stock, newer: Sheet) -> None:
    """Once, and it stays; then its revision may be entered again."""
    before = stock.version()
    withdrawn = replace(newer, withdrawn_ms=12, withdrawn_by="person-2", why="typed wrong")
    assert stock.withdraw_sheet(withdrawn)
    assert stock.version() != before
    assert list(stock.sheets()) == [withdrawn, SHEET]
    assert not stock.withdraw_sheet(replace(withdrawn, why="again"))
    assert not stock.withdraw_sheet(replace(withdrawn, id="s-9"))
    again = replace(newer, id="s-4", things="right", made_ms=13)
    assert stock.add_sheet(again)
    assert not stock.add_sheet(replace(again, id="s-5")), "the one that counts is here"
    assert list(stock.sheets()) == [again, withdrawn, SHEET]


def on_sqlite(folder: Path) -> Stock:
    engine = open_engine(f"sqlite:///{folder / 'stock.sqlite3'}")
    metadata.create_all(engine)
    return SqlStock(engine)


@pytest.mark.parametrize("make", [on_sqlite, lambda _: MemoryStock()], ids=["sqlite", "memory"])
def test_every_register_keeps_the_promise(make: Callable[[Path], Stock], tmp_path: Path) -> None:
    check_stock(make(tmp_path))
