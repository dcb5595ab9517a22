"""Stores that record what they did and when it was on disk, to prove what an answer waited for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from bayleaf.adapters.disk import Disk
from bayleaf.ports import EntryLog, ReadsLog, WritesLog


@dataclass
class RecordingDisk(Disk):
    """Notes every act that changes or syncs something, by the file's or folder's role."""

    acts: list[str] = field(default_factory=list)

    def append(self, path: Path, offset: int, chunks: Iterable[bytes]) -> int:
        size = super().append(path, offset, chunks)
        self.acts.append(f"write {self._role(path)}")
        return size

    def sync(self, path: Path) -> None:
        super().sync(path)
        self.acts.append(f"sync {self._role(path)}")

    def rename(self, old: Path, new: Path) -> None:
        super().rename(old, new)
        self.acts.append(f"rename {self._role(old)} to {self._role(new)}")

    @staticmethod
    def _role(path: Path) -> str:
        if path.is_dir():
            return f"folder {path.parent.name}" if len(path.name) == 2 else f"folder {path.name}"
        return {"uploads": "upload"}.get(path.parent.name, path.parent.parent.name.removesuffix("s"))


@dataclass
class RecordingLog:
    """The port EntryLog around another: notes when a transaction was on disk."""

    inner: EntryLog
    acts: list[str]

    @contextmanager
    def reading(self) -> Iterator[ReadsLog]:
        with self.inner.reading() as log:
            yield log

    @contextmanager
    def writing(self) -> Iterator[WritesLog]:
        with self.inner.writing() as log:
            yield log
            self.acts.append("write entries")
        self.acts.append("sync entries")


@dataclass
class FullDiskLog(RecordingLog):
    """The disk has no space left when the transaction is to be committed."""

    @contextmanager
    def writing(self) -> Iterator[WritesLog]:
        with self.inner.writing() as log:
            yield log
            raise OSError("no space left on the disk")
