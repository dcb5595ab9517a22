"""Files and keys of loggers in SQL; the bytes of files gzipped beside them, so that a backup has them."""

from __future__ import annotations

import gzip
from collections.abc import Sequence
from dataclasses import asdict

from sqlalchemy import ColumnElement, Engine, Table, delete, insert, select

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.readings_tables import logger_key, reading_bytes, reading_file
from bayleaf.readings_ports import LoggerKey, ReadingFile


class SqlReadings:
    """The port ReadingStore."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def files_of(self, job: str) -> Sequence[ReadingFile]:
        """The oldest first."""
        return self._files(reading_file.c.job == job)

    def file(self, file: str) -> ReadingFile | None:
        """By id."""
        return next(iter(self._files(reading_file.c.id == file)), None)

    def add_file(self, added: ReadingFile, content: bytes) -> None:
        """Bytes that are here already are not written again."""
        with writing(self._engine) as connection:
            same = reading_bytes.c.sha256 == added.sha256
            if connection.scalar(select(reading_bytes.c.sha256).where(same)) is None:
                row = {"sha256": added.sha256, "gz": gzip.compress(content, mtime=0)}
                connection.execute(insert(reading_bytes).values(row))
            connection.execute(insert(reading_file).values(asdict(added)))

    def put_file(self, put: ReadingFile) -> None:
        """Replace it."""
        self._put(reading_file, asdict(put))

    def content(self, sha256: str) -> bytes:
        """As it came."""
        query = select(reading_bytes.c.gz).where(reading_bytes.c.sha256 == sha256)
        with reading(self._engine) as connection:
            found = connection.scalar(query)
        return gzip.decompress(found) if found is not None else b""

    def newest_of(self, logger: str) -> ReadingFile | None:
        """The one that was read in last."""
        found = self._files((reading_file.c.logger == logger) & (reading_file.c.read_ms > 0))
        return max(found, key=lambda one: (one.read_ms, one.id), default=None)

    def loggers(self) -> Sequence[str]:
        """Sorted."""
        query = select(reading_file.c.logger).where(reading_file.c.logger != "").distinct()
        with reading(self._engine) as connection:
            return sorted(connection.execute(query).scalars())

    def keys_of(self, job: str) -> Sequence[LoggerKey]:
        """The oldest first."""
        return self._keys(logger_key.c.job == job)

    def key(self, key: str) -> LoggerKey | None:
        """By id."""
        return next(iter(self._keys(logger_key.c.id == key)), None)

    def key_of_hash(self, key_hash: str) -> LoggerKey | None:
        """By what the store knows of the key."""
        return next(iter(self._keys(logger_key.c.key_hash == key_hash)), None)

    def put_key(self, put: LoggerKey) -> None:
        """Add or replace."""
        self._put(logger_key, asdict(put))

    def _files(self, which: ColumnElement[bool]) -> list[ReadingFile]:
        query = select(reading_file).where(which).order_by(reading_file.c.added_ms, reading_file.c.id)
        with reading(self._engine) as connection:
            return [ReadingFile(**row) for row in connection.execute(query).mappings()]

    def _keys(self, which: ColumnElement[bool]) -> list[LoggerKey]:
        query = select(logger_key).where(which).order_by(logger_key.c.made_ms, logger_key.c.id)
        with reading(self._engine) as connection:
            return [LoggerKey(**row) for row in connection.execute(query).mappings()]

    def _put(self, table: Table, row: dict[str, object]) -> None:
        with writing(self._engine) as connection:
            connection.execute(delete(table).where(table.c.id == row["id"]))
            connection.execute(insert(table).values(row))
