"""The disk as it ships: SQLite and files, copied and put back as plain files while the server stands."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from bayleaf.adapters.database import open_engine
from bayleaf.adapters.disk_photos import DiskPhotos
from bayleaf.adapters.memory_entry_log import MemoryLogWriting
from bayleaf.adapters.sql_entry_log import SqlEntryLog
from bayleaf.adapters.sql_log_reading import SqlLogReading
from bayleaf.adapters.tables import metadata
from sim.stores import KEPT, Disk, DiskCopy, ServerDied


class SqliteLog(SqlEntryLog):
    """The entry log in SQLite; `on_disk` is all of it, read anew after each transaction."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.dies = False
        self._seen: MemoryLogWriting | None = None
        super().__init__(self._opened())

    def _opened(self) -> Any:
        engine = open_engine(f"sqlite:///{self.folder / 'bayleaf.sqlite3'}")
        metadata.create_all(engine)
        return engine

    @property
    def engine(self) -> Any:
        return self._engine

    @property
    def on_disk(self) -> MemoryLogWriting:
        if self._seen is None:
            with self.reading() as log:
                self._seen = _all_of(log)
        return self._seen

    @contextmanager
    def writing(self) -> Iterator[Any]:
        self._seen = None
        with super().writing() as log:
            yield log
            if self.dies:
                self.dies = False
                raise ServerDied
        self._seen = None

    def start(self) -> None:
        """Another process opens the file."""
        self._engine.dispose()
        self._seen = None

    def copied(self, to: Path) -> None:
        self._engine.dispose()
        shutil.copytree(self.folder, to)

    def put_back(self, older: Path) -> None:
        self._engine.dispose()
        shutil.rmtree(self.folder)
        shutil.copytree(older, self.folder)
        self._seen = None


def _all_of(log: SqlLogReading) -> MemoryLogWriting:
    found = MemoryLogWriting(name=log.log())
    if not found.name:
        return found
    found.current, found.servers = log.own_device().id, dict(log.own_devices())
    for row in log.jobs():
        found.rows[row.id] = row
        found.entries[row.id] = list(log.after(row.id, 0, 1_000_000))
        found.places |= {entry.hash: row.id for entry in found.entries[row.id]}
        found.signed_heads |= {(row.id, head.device, head.hash): head for head in log.heads(row.id)}
        found.marks |= {(row.id, mark.hash): mark for mark in log.asides(row.id)}
        found.job_spans[row.id] = tuple(log.spans(row.id))
        found.photos[row.id] = frozenset(log.photos_named(row.id))
        found.refused_texts |= {text.hash_of_text: text for text in log.refused_of(row.id)}
    return found


class SqliteDisk(Disk):
    """Log and photos on disk in a folder of their own; the rest as ever."""

    def __init__(self, folder: Path) -> None:
        (folder / "data").mkdir(parents=True)
        log: Any = SqliteLog(folder / "data")
        photos: Any = FoundPhotos(log.engine, folder / "data")
        super().__init__(log=log, photos=photos)
        self.folder, self.copies = folder, 0

    def copy(self) -> DiskCopy:
        self.copies += 1
        place: Any = self.folder / f"copy-{self.copies}"
        self._log().copied(place)
        return DiskCopy(place, self.kept([name for name in KEPT if name != "photos"]))

    def put_back(self, older: DiskCopy) -> None:
        place: Any = older.log
        self._log().put_back(place)
        self.take_back(older.kept)

    def _log(self) -> SqliteLog:
        log: Any = self.log
        assert isinstance(log, SqliteLog)
        return log


class FoundPhotos(DiskPhotos):
    """As the promises look at them: what lies there, by its name."""

    @property
    def contents(self) -> dict[str, bytes]:
        return {path.name: path.read_bytes() for path in self._photos.rglob("*") if path.is_file()}

    @property
    def stored(self) -> set[str]:
        return self.held(self.contents)
