"""Makers' instructions: `papers/<sha256>.pdf` in the data folder, and a table of what each belongs to."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from dataclasses import asdict
from pathlib import Path
from threading import get_ident

from sqlalchemy import Engine, delete, insert, select

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.disk import Disk
from bayleaf.adapters.paper_tables import paper
from bayleaf.paper_ports import Paper


class DiskPapers:
    """The port PaperStore."""

    def __init__(self, engine: Engine, folder: Path, disk: Disk | None = None) -> None:
        self._engine = engine
        self._disk = disk or Disk()
        self._folder = folder / "papers"

    def all(self) -> Sequence[Paper]:
        """The oldest first."""
        with reading(self._engine) as connection:
            rows = connection.execute(select(paper).order_by(paper.c.added_ms, paper.c.id)).mappings()
            return [Paper(**row) for row in rows]

    def add(self, added: Paper, chunks: Iterable[bytes]) -> None:
        """Bytes, name, row, each on disk before the next."""
        self._disk.make_folder(self._folder)
        part = self._folder / f"{added.sha256}.{os.getpid()}.{get_ident()}.part"
        self._disk.append(part, 0, chunks)
        self._disk.sync(part)
        self._disk.rename(part, self._place(added.sha256))
        self._disk.sync_folder(self._folder)
        with writing(self._engine) as connection:
            connection.execute(insert(paper).values(**asdict(added)))

    def remove(self, paper_id: str) -> None:
        """Row first: a file that nobody names harms nobody."""
        with writing(self._engine) as connection:
            sha256 = connection.scalar(select(paper.c.sha256).where(paper.c.id == paper_id))
            connection.execute(delete(paper).where(paper.c.id == paper_id))
            left = connection.scalar(select(paper.c.id).where(paper.c.sha256 == sha256).limit(1))
        if sha256 is not None and left is None:
            self._disk.remove(self._place(sha256))

    def read(self, sha256: str) -> Iterable[bytes]:
        """In chunks."""
        return self._disk.read(self._place(sha256))

    def path(self, sha256: str) -> str:
        """The file; empty where there is none."""
        place = self._place(sha256)
        return str(place) if place.is_file() else ""

    def _place(self, sha256: str) -> Path:
        return self._folder / f"{sha256}.pdf"
