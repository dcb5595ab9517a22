"""Connections to the store: every one of them writes ahead, syncs fully, and holds to foreign keys."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event

WAIT_S = 30
PRAGMAS = (
    "PRAGMA journal_mode=WAL",
    "PRAGMA synchronous=FULL",
    "PRAGMA foreign_keys=ON",
)


def open_engine(url: str) -> Engine:
    """An engine whose connections keep what they promise."""
    options = {"connect_args": {"timeout": WAIT_S}} if url.startswith("sqlite") else {}
    engine = create_engine(url, **options)
    arm(engine)
    return engine


def arm(engine: Engine) -> None:
    """Make every connection of the engine durable. Call it once, before the first connection."""
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", _make_durable)
        event.listen(engine, "begin", _begin)


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """A transaction alone with the store from its first statement; on disk when the block has ended."""
    with engine.connect().execution_options(bayleaf_writes=True) as connection, connection.begin():
        yield connection


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """One consistent look at the store, which blocks no writer."""
    with engine.connect() as connection, connection.begin():
        yield connection


def _make_durable(connection: Any, _record: object) -> None:
    """Transactions are begun by `_begin`; the driver would begin them too late and too weakly."""
    if isinstance(connection, sqlite3.Connection):
        connection.isolation_level = None
        for pragma in PRAGMAS:
            connection.execute(pragma).close()


def _begin(connection: Connection) -> None:
    """A writer takes the lock before it reads what its writing depends on."""
    writes = connection.get_execution_options().get("bayleaf_writes", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")
