"""A backup as a folder laid out like the data folder, so that putting it back is a plain copy."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import asdict
from pathlib import Path
from typing import Any, Final

from bayleaf.adapters.disk import Disk
from bayleaf.usecases.backup import BackupFault, Contents, Report

MANIFEST: Final = "bayleaf-backup.json"
DATABASE: Final = "bayleaf.sqlite3"
KEYS: Final = ("seal.pem", "secret", "push.pem")
FORM: Final = 1
OWNER_ONLY: Final = 0o700


class BackupFolder:
    """The port Copying for the embedded store: SQLite and files by hash."""

    def __init__(self, data: Path, folder: Path, disk: Disk | None = None) -> None:
        self._data = data
        self._folder = folder
        self._disk = disk or Disk()
        self._seal = hashlib.sha256((data / "seal.pem").read_bytes()).hexdigest()
        self._part = folder / f"{DATABASE}.part"

    def begin(self) -> None:
        """Claims the folder with a manifest that says 'begun'."""
        data, folder = self._data.resolve(), self._folder.resolve()
        if folder == data or data in folder.parents or folder in data.parents:
            raise BackupFault(f"{self._folder}: lies with the data folder itself; name a folder elsewhere.")
        self._folder.mkdir(mode=OWNER_ONLY, parents=True, exist_ok=True)
        if not any(self._folder.iterdir()):
            self._write_manifest({"form": FORM, "seal_file": self._seal, "state": "begun"})
        self._require_own()

    def _require_own(self) -> None:
        try:
            found = json.loads((self._folder / MANIFEST).read_text("utf-8"))
            same = found["form"] == FORM and found["seal_file"] == self._seal
        except (OSError, ValueError, KeyError, TypeError) as error:
            raise BackupFault(
                f"{self._folder}: not empty, and no backup of Bayleaf; name an empty folder."
            ) from error
        if not same:
            raise BackupFault(f"{self._folder}: holds the backup of another shop; name another folder.")

    def snapshot(self) -> Contents:
        """By SQLite's online backup in one step: one read transaction, which stops no writer."""
        self._part.unlink(missing_ok=True)
        uri = f"{(self._data / DATABASE).resolve().as_uri()}?mode=ro"
        with (
            closing(sqlite3.connect(uri, uri=True, timeout=30)) as source,
            closing(sqlite3.connect(self._part)) as copy,
        ):
            source.backup(copy)
            copy.execute("PRAGMA journal_mode=DELETE").fetchone()
            verdict = copy.execute("PRAGMA integrity_check").fetchone()[0]
            if verdict != "ok":
                raise BackupFault(f"the database: {verdict}. Keep the last good backup and look at the disk.")
            found = _contents(copy)
        self._part.chmod(0o600)
        self._disk.sync(self._part)
        return found

    def copy_photo(self, sha256: str, size: int) -> bool:
        """By hash, so what an earlier backup holds is not copied again."""
        place = Path("photos") / sha256[:2] / sha256
        if self._disk.size(self._folder / place) == size:
            return False
        return self._copy(place, sha256)

    def copy_dossier(self, dossier: str, sha256: str) -> bool:
        """A dossier never changes."""
        place = Path("dossiers") / f"{dossier}.zip"
        return False if (self._folder / place).exists() else self._copy(place, sha256)

    def copy_rest(self) -> None:
        """Thumbnails and papers are named by their hash; the keys make the copy as secret as the store."""
        for path in sorted((self._data / "thumbs").glob("*/*")):
            place = path.relative_to(self._data)
            if not (self._folder / place).exists():
                self._copy(place, path.name)
        for path in sorted((self._data / "papers").glob("*.pdf")):
            place = path.relative_to(self._data)
            if not (self._folder / place).exists():
                self._copy(place, path.stem)
        for name in KEYS:
            if (self._data / name).exists():  # the key of calls is younger than the first stores
                self._copy(Path(name), "")

    def finish(self, report: Report, now_ms: int) -> None:
        """Files first, then the database that names them, then the word that it is finished."""
        for folder in (*self._folder.glob("*/*/"), *self._folder.glob("*/"), self._folder):
            if folder.is_dir():
                self._disk.sync_folder(folder)
        self._disk.rename(self._part, self._folder / DATABASE)
        self._disk.sync_folder(self._folder)
        finished = {"state": "finished", "finished_ms": now_ms, **asdict(report)}
        self._write_manifest({"form": FORM, "seal_file": self._seal, **finished})

    def _copy(self, place: Path, sha256: str) -> bool:
        """Whole under its name or not there; `sha256` may be empty for what has no name by hash."""
        source, target = self._data / place, self._folder / place
        part = target.with_name(f"{target.name}.part")
        target.parent.mkdir(parents=True, exist_ok=True, mode=OWNER_ONLY)
        part.unlink(missing_ok=True)
        digest = hashlib.sha256()
        try:
            self._disk.append(part, 0, self._hashed(source, digest))
        except FileNotFoundError as error:
            raise BackupFault(f"{place}: named by the database and not in the data folder.") from error
        if sha256 and digest.hexdigest() != sha256:
            part.unlink()
            raise BackupFault(f"{place}: its bytes are not those of its name; the disk may be failing.")
        self._disk.sync(part)
        self._disk.rename(part, target)
        return True

    def _hashed(self, source: Path, digest: Any) -> Iterator[bytes]:
        for chunk in self._disk.read(source):
            digest.update(chunk)
            yield chunk

    def _write_manifest(self, manifest: dict[str, Any]) -> None:
        part = self._folder / f"{MANIFEST}.part"
        part.unlink(missing_ok=True)
        self._disk.append(part, 0, [json.dumps(manifest, indent=1).encode()])
        self._disk.sync(part)
        self._disk.rename(part, self._folder / MANIFEST)
        self._disk.sync_folder(self._folder)


def _contents(copy: sqlite3.Connection) -> Contents:
    photos = copy.execute("SELECT sha256, bytes FROM photo ORDER BY sha256").fetchall()
    dossiers = copy.execute("SELECT id, sha256 FROM filed ORDER BY id").fetchall()
    entries = copy.execute("SELECT count(*) FROM entry").fetchone()[0]
    jobs = copy.execute("SELECT count(*) FROM job").fetchone()[0]
    return Contents(photos, dossiers, entries, jobs)
