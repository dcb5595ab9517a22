"""Photos as files by hash, uploads as files by id, and a table of each."""

from __future__ import annotations

import fcntl
import os
from collections.abc import Iterable, Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import asdict
from pathlib import Path
from threading import get_ident

from sqlalchemy import Engine, delete, insert, select, update

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.disk import Disk
from bayleaf.adapters.tables import photo, upload
from bayleaf.photo_ports import Busy, NotThere, StoredPhoto, Upload

AT_ONCE = 500


class DiskPhotos:
    """The port PhotoStore: `photos/ab/<sha256>`, `thumbs/ab/<sha256>`, `uploads/<id>` in the data folder."""

    def __init__(self, engine: Engine, folder: Path, disk: Disk | None = None) -> None:
        self._engine = engine
        self._disk = disk or Disk()
        self._photos, self._thumbs, self._uploads = (
            folder / name for name in ("photos", "thumbs", "uploads")
        )
        for needed in (self._photos, self._thumbs, self._uploads):
            self._disk.make_folder(needed)

    def held(self, hashes: Iterable[str]) -> set[str]:
        """Whole, by the table: a row is written after the bytes are on disk."""
        return self._rows_of(hashes, covered=False)

    def covered(self, hashes: Iterable[str]) -> set[str]:
        """Those that a backup or dossier holds."""
        return self._rows_of(hashes, covered=True)

    def find(self, sha256: str) -> StoredPhoto | None:
        """One photo."""
        with reading(self._engine) as connection:
            query = select(photo).where(photo.c.sha256 == sha256)
            row = connection.execute(query).mappings().one_or_none()
        return StoredPhoto(**row) if row is not None else None

    def photo_bytes(self, sha256: str) -> bytes:
        """All of it."""
        return self._place(self._photos, sha256).read_bytes()

    def photo_path(self, sha256: str) -> str:
        """The file."""
        return str(self._place(self._photos, sha256))

    def begin(self, begun: Upload) -> None:
        """Its row; its file comes with its first bytes."""
        with writing(self._engine) as connection:
            connection.execute(insert(upload).values(**asdict(begun)))

    def upload(self, upload_id: str) -> Upload | None:
        """One upload."""
        with reading(self._engine) as connection:
            query = select(upload).where(upload.c.id == upload_id)
            row = connection.execute(query).mappings().one_or_none()
        return Upload(**row) if row is not None else None

    def size(self, upload_id: str) -> int:
        """What the file holds; what was written and not synced before a power cut may be gone from it."""
        return self._disk.size(self._uploads / upload_id)

    def alone(self, upload_id: str) -> AbstractContextManager[None]:
        """By a lock file, which goes with the upload."""
        return _alone_with(self._uploads / f"{upload_id}.lock")

    def add(self, upload_id: str, offset: int, chunks: Iterable[bytes]) -> int:
        """What came before a line broke is kept."""
        path = self._uploads / upload_id
        size = self._disk.size(path)
        if size != offset:
            raise NotThere(size)
        try:
            self._disk.append(path, offset, chunks)
        finally:
            if path.exists():
                self._disk.sync(path)
        return self._disk.size(path)

    def read(self, upload_id: str) -> Iterable[bytes]:
        """What is there."""
        return self._disk.read(self._uploads / upload_id)

    def finish(self, done: Upload, stored: StoredPhoto) -> None:
        """Bytes first, then the name, then the row: whatever is known is on disk."""
        source, target = self._uploads / done.id, self._place(self._photos, stored.sha256)
        if self._disk.size(source):
            self._put_under(source, target)
        with writing(self._engine) as connection:
            known = select(photo.c.sha256).where(photo.c.sha256 == stored.sha256)
            if connection.scalar(known) is None:
                connection.execute(insert(photo).values(**asdict(stored)))
            connection.execute(update(upload).where(upload.c.id == done.id).values(whole=True))
        self._disk.remove(self._uploads / f"{done.id}.lock")

    def drop(self, upload_id: str) -> None:
        """Row and file."""
        with writing(self._engine) as connection:
            connection.execute(delete(upload).where(upload.c.id == upload_id))
        self._disk.remove(self._uploads / upload_id)
        self._disk.remove(self._uploads / f"{upload_id}.lock")

    def sweep(self, before_ms: int) -> None:
        """Looked for first, so that a store without old ones is not written to."""
        with reading(self._engine) as connection:
            old = connection.scalars(select(upload.c.id).where(upload.c.made_ms < before_ms)).all()
        for upload_id in old:
            self.drop(upload_id)

    def put_thumb(self, sha256: str, thumb: bytes) -> None:
        """Whole or not at all."""
        target = self._place(self._thumbs, sha256)
        part = self._uploads / f"{sha256}.{os.getpid()}.{get_ident()}.thumb"
        self._disk.append(part, 0, [thumb])
        self._put_under(part, target)

    def thumb(self, sha256: str) -> bytes | None:
        """Its bytes."""
        path = self._place(self._thumbs, sha256)
        return path.read_bytes() if path.is_file() else None

    def thumbs_held(self, hashes: Iterable[str]) -> set[str]:
        """Those whose file is there."""
        return {sha256 for sha256 in hashes if self._place(self._thumbs, sha256).is_file()}

    def cover(self, hashes: Iterable[str], now_ms: int) -> None:
        """The first covering counts."""
        with writing(self._engine) as connection:
            for sha256 in hashes:
                mine = (photo.c.sha256 == sha256, photo.c.covered_ms.is_(None))
                connection.execute(update(photo).where(*mine).values(covered_ms=now_ms))

    def _put_under(self, source: Path, target: Path) -> None:
        self._disk.make_folder(target.parent)
        self._disk.sync(source)
        self._disk.rename(source, target)
        self._disk.sync_folder(target.parent)

    def _rows_of(self, hashes: Iterable[str], *, covered: bool) -> set[str]:
        every = list(hashes)
        found: set[str] = set()
        with reading(self._engine) as connection:
            for start in range(0, len(every), AT_ONCE):
                query = select(photo.c.sha256).where(photo.c.sha256.in_(every[start : start + AT_ONCE]))
                if covered:
                    query = query.where(photo.c.covered_ms.is_not(None))
                found.update(connection.scalars(query))
        return found

    @staticmethod
    def _place(folder: Path, sha256: str) -> Path:
        return folder / sha256[:2] / sha256


@contextmanager
def _alone_with(path: Path) -> Iterator[None]:
    """A lock between processes that ends with its holder."""
    descriptor = os.open(path, os.O_WRONLY | os.O_CREAT, 0o600)
    try:
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as error:
            raise Busy from error
        yield
    finally:
        os.close(descriptor)
