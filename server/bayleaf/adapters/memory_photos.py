"""Photos, methods and the office's log in memory, for tests and simulations."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, field, replace

from bayleaf.photo_ports import Busy, NotThere, StoredPhoto, Upload
from bayleaf.ports import OfficeLine


@dataclass
class MemoryPhotos:
    """The port PhotoStore."""

    stored: dict[str, StoredPhoto] = field(default_factory=dict)
    contents: dict[str, bytes] = field(default_factory=dict)
    uploads: dict[str, Upload] = field(default_factory=dict)
    parts: dict[str, bytes] = field(default_factory=dict)
    thumbs: dict[str, bytes] = field(default_factory=dict)
    taken: set[str] = field(default_factory=set)

    def held(self, hashes: Iterable[str]) -> set[str]:
        """Whole ones."""
        return set(hashes) & self.stored.keys()

    def find(self, sha256: str) -> StoredPhoto | None:
        """One photo."""
        return self.stored.get(sha256)

    def photo_bytes(self, sha256: str) -> bytes:
        """All of it."""
        return self.contents[sha256]

    def photo_path(self, sha256: str) -> str:
        """It lies nowhere."""
        del sha256
        return ""

    def begin(self, upload: Upload) -> None:
        """A place for it."""
        self.uploads[upload.id] = upload

    def upload(self, upload: str) -> Upload | None:
        """One upload."""
        return self.uploads.get(upload)

    @contextmanager
    def _within(self, upload: str) -> Iterator[None]:
        if upload in self.taken:
            raise Busy
        self.taken.add(upload)
        try:
            yield
        finally:
            self.taken.remove(upload)

    def alone(self, upload: str) -> AbstractContextManager[None]:
        """By a mark."""
        return self._within(upload)

    def size(self, upload: str) -> int:
        """How much is here."""
        return len(self.parts.get(upload, b""))

    def add(self, upload: str, offset: int, chunks: Iterable[bytes]) -> int:
        """At the end only; what came before a break is kept."""
        if offset != self.size(upload):
            raise NotThere(self.size(upload))
        for chunk in chunks:
            self.parts[upload] = self.parts.get(upload, b"") + chunk
        return self.size(upload)

    def read(self, upload: str) -> Iterable[bytes]:
        """What is here."""
        return [self.parts.get(upload, b"")]

    def finish(self, upload: Upload, photo: StoredPhoto) -> None:
        """Twice is once."""
        self.contents[photo.sha256] = self.parts.pop(upload.id, self.contents.get(photo.sha256, b""))
        self.stored.setdefault(photo.sha256, photo)
        self.uploads[upload.id] = replace(upload, whole=True)

    def drop(self, upload: str) -> None:
        """As if it had never begun."""
        self.uploads.pop(upload, None)
        self.parts.pop(upload, None)

    def sweep(self, before_ms: int) -> None:
        """As if they had never begun."""
        for upload in [one.id for one in self.uploads.values() if one.made_ms < before_ms]:
            self.drop(upload)

    def put_thumb(self, sha256: str, thumb: bytes) -> None:
        """By the hash of its bytes."""
        self.thumbs[sha256] = thumb

    def thumb(self, sha256: str) -> bytes | None:
        """Its bytes."""
        return self.thumbs.get(sha256)

    def thumbs_held(self, hashes: Iterable[str]) -> set[str]:
        """Those that are here."""
        return set(hashes) & self.thumbs.keys()

    def cover(self, hashes: Iterable[str], now_ms: int) -> None:
        """The first covering counts."""
        for sha256 in self.held(hashes) - self.covered(hashes):
            self.stored[sha256] = replace(self.stored[sha256], covered_ms=now_ms)

    def covered(self, hashes: Iterable[str]) -> set[str]:
        """Those that a backup or dossier holds."""
        return {sha256 for sha256 in self.held(hashes) if self.stored[sha256].covered_ms is not None}


@dataclass
class MemoryMethods:
    """The port MethodStore."""

    held: dict[str, tuple[str, str, int]] = field(default_factory=dict)
    drawings: dict[str, bytes] = field(default_factory=dict)

    def texts(self, digests: Iterable[str]) -> Mapping[str, str]:
        """Those that are here."""
        return {digest: self.held[digest][0] for digest in digests if digest in self.held}

    def digests(self) -> Sequence[str]:
        """The newest import first."""
        return sorted(self.held, key=lambda digest: (-self.held[digest][2], digest))

    def put(self, digest: str, text: str, yaml: str, now_ms: int) -> bool:
        """Once."""
        fresh = digest not in self.held
        self.held.setdefault(digest, (text, yaml, now_ms))
        return fresh

    def yaml(self, digest: str) -> str:
        """As it was imported."""
        return self.held[digest][1] if digest in self.held else ""

    def imported_ms(self, digest: str) -> int:
        """0 where it is not here."""
        return self.held[digest][2] if digest in self.held else 0

    def drawings_held(self, hashes: Iterable[str]) -> set[str]:
        """Those that are here."""
        return set(hashes) & self.drawings.keys()

    def drawing(self, sha256: str) -> bytes | None:
        """Its bytes."""
        return self.drawings.get(sha256)

    def put_drawing(self, sha256: str, drawing: bytes) -> None:
        """Once."""
        self.drawings.setdefault(sha256, drawing)


@dataclass
class MemoryOfficeLog:
    """The port OfficeLog."""

    held: list[OfficeLine] = field(default_factory=list)

    def add(self, line: OfficeLine) -> None:
        """At the end."""
        self.held.append(line)

    def lines(self, limit: int) -> Sequence[OfficeLine]:
        """The newest first."""
        return self.held[::-1][:limit]
