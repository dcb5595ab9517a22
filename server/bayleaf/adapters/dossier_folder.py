"""Dossiers as files of the data folder: written beside, synced, then named; never changed after."""

from __future__ import annotations

import fcntl
import hashlib
import os
import zipfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from bayleaf.adapters.dossier_zip import write_container
from bayleaf.domain.dossier import Member
from bayleaf.dossier_ports import BeingFiled, Written

OWNER_ONLY = 0o600


class DossierFolder:
    """The port DossierStore on a folder."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def path(self, dossier: str) -> Path:
        """Where the dossier lies, or will."""
        return self._folder / f"{dossier}.zip"

    def size(self, dossier: str) -> int:
        """Bytes of the file; 0 where it is not here."""
        path = self.path(dossier)
        return path.stat().st_size if path.exists() else 0

    def read(self, dossier: str, member: str) -> bytes | None:
        """By the container's own directory; our own file, written whole and never changed."""
        path = self.path(dossier)
        if not path.exists():
            return None
        with zipfile.ZipFile(path) as opened:
            name = next((one for one in opened.namelist() if one.partition("/")[2] == member), None)
            return opened.read(name) if name is not None else None

    @contextmanager
    def alone(self, job: str) -> Iterator[None]:
        """A lock between processes that ends with its holder."""
        self._folder.mkdir(parents=True, exist_ok=True)
        path = self._folder / f"{job}.lock"
        descriptor = os.open(path, os.O_WRONLY | os.O_CREAT, OWNER_ONLY)
        try:
            try:
                fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except BlockingIOError as error:
                raise BeingFiled from error
            yield
        finally:
            os.close(descriptor)

    def write(self, dossier: str, folder: str, members: Iterable[Member]) -> Written:
        """Whole and on disk under its name, or not there at all."""
        self._folder.mkdir(parents=True, exist_ok=True)
        part = self.path(dossier).with_suffix(".part")
        try:
            written = _write(part, folder, members)
            part.rename(self.path(dossier))
        finally:
            part.unlink(missing_ok=True)
        sync_folder(self._folder)
        return written


def _write(part: Path, folder: str, members: Iterable[Member]) -> Written:
    descriptor = os.open(part, os.O_RDWR | os.O_CREAT | os.O_TRUNC, OWNER_ONLY)
    with os.fdopen(descriptor, "w+b") as file:
        write_container(file, folder, members)
        file.flush()
        os.fsync(file.fileno())
        file.seek(0)
        digest = hashlib.file_digest(file, "sha256")
        return Written(digest.hexdigest(), file.tell())


def sync_folder(folder: Path) -> None:
    """Make the names in a folder durable."""
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
