"""The entry log in SQL: opens transactions; what is done in them stands in the two files beside."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Engine

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.sql_log_reading import SqlLogReading
from bayleaf.adapters.sql_log_writing import SqlLogWriting


class SqlEntryLog:
    """The port EntryLog."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    @contextmanager
    def reading(self) -> Iterator[SqlLogReading]:
        """One consistent look."""
        with reading(self._engine) as connection:
            yield SqlLogReading(connection)

    @contextmanager
    def writing(self) -> Iterator[SqlLogWriting]:
        """All of the block or nothing; on disk when it has ended."""
        with writing(self._engine) as connection:
            yield SqlLogWriting(connection)
