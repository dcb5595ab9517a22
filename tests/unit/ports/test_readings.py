"""The promise of the store of loggers' files and keys, written once and asked of every adapter of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from bayleaf.adapters.database import open_engine
from bayleaf.adapters.memory_readings import MemoryReadings
from bayleaf.adapters.sql_readings import SqlReadings
from bayleaf.adapters.tables import metadata
from bayleaf.readings_ports import LoggerKey, ReadingFile, ReadingStore

FILE = ReadingFile("f-1", "ab" * 32, "job-1", "cd" * 32, "run.csv", 5, "person-1", 7)
KEY = LoggerKey("k-1", "ef" * 32, "job-1", "cd" * 32, "Logger 7", "person-1", 8)


def check_readings(store: ReadingStore) -> None:
    """Bytes as they came, rows replaced whole, the newest that was read in by its logger's name."""
    assert (store.file("f-1"), store.content(FILE.sha256), store.loggers()) == (None, b"", [])
    store.add_file(FILE, b"bytes")
    store.add_file(replace(FILE, id="f-2", run="12" * 32, added_ms=9), b"bytes")
    assert [one.id for one in store.files_of("job-1")] == ["f-1", "f-2"]
    assert store.files_of("job-2") == []
    assert store.content(FILE.sha256) == b"bytes"
    assert store.newest_of("Logger 7") is None
    read = replace(FILE, logger="Logger 7", mapping="{}", outcome="{}", read_ms=20)
    store.put_file(read)
    store.put_file(replace(read, id="f-2", run="12" * 32, added_ms=9, read_ms=30))
    newest = store.newest_of("Logger 7")
    assert newest is not None
    assert newest.id == "f-2"
    assert store.file("f-1") == read
    assert store.loggers() == ["Logger 7"]
    store.put_key(KEY)
    store.put_key(replace(KEY, ended_ms=40))
    assert (store.keys_of("job-1"), store.keys_of("job-2")) == ([replace(KEY, ended_ms=40)], [])
    assert store.key("k-1") == store.key_of_hash(KEY.key_hash) == replace(KEY, ended_ms=40)
    assert store.key("k-2") is store.key_of_hash("00" * 32) is None


def in_sql(folder: Path) -> ReadingStore:
    engine = open_engine(f"sqlite:///{folder / 'readings.sqlite3'}")
    metadata.create_all(engine)
    return SqlReadings(engine)


@pytest.mark.parametrize("make", [in_sql, lambda _folder: MemoryReadings()], ids=["sql", "memory"])
def test_every_store_of_readings_keeps_its_promise(
    make: Callable[[Path], ReadingStore], tmp_path: Path
) -> None:
    check_readings(make(tmp_path))
