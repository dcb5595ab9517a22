"""Files that survive a power cut: written, synced, named, and the folder synced, each in that order."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

CHUNK = 1 << 16


class Disk:
    """The few acts of a disk that the photo store needs; a test may record them."""

    def append(self, path: Path, offset: int, chunks: Iterable[bytes]) -> int:
        """Write at `offset` of a file that may not be there yet; how long it is then. Not synced."""
        descriptor = os.open(path, os.O_WRONLY | os.O_CREAT, 0o600)
        with os.fdopen(descriptor, "wb") as file:
            file.seek(offset)
            for chunk in chunks:
                file.write(chunk)
            file.flush()
            return file.tell()

    def sync(self, path: Path) -> None:
        """Return when the file's bytes are on disk."""
        descriptor = os.open(path, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)

    def sync_folder(self, folder: Path) -> None:
        """Return when the names in the folder are on disk."""
        self.sync(folder)

    def rename(self, old: Path, new: Path) -> None:
        """Under its new name at once, or still under the old."""
        old.replace(new)

    def make_folder(self, folder: Path) -> None:
        """With its name on disk."""
        if not folder.is_dir():
            folder.mkdir(parents=True, exist_ok=True)
            self.sync_folder(folder.parent)

    def size(self, path: Path) -> int:
        """0 where there is no file."""
        return path.stat().st_size if path.exists() else 0

    def read(self, path: Path) -> Iterator[bytes]:
        """In chunks."""
        with path.open("rb") as file:
            while chunk := file.read(CHUNK):
                yield chunk

    def remove(self, path: Path) -> None:
        """If it is there."""
        path.unlink(missing_ok=True)
