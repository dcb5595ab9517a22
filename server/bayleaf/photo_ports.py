"""What the use cases need of the outside for photos: their bytes, and uploads on their way."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import AbstractContextManager
from dataclasses import dataclass
from typing import Protocol


@dataclass(frozen=True)
class StoredPhoto:
    """A photo whose bytes are here whole."""

    sha256: str
    bytes: int
    type: str
    width: int
    height: int
    stored_ms: int
    covered_ms: int | None = None


@dataclass(frozen=True)
class Upload:
    """A photo on its way. How much of it is here, the file says."""

    id: str
    sha256: str
    bytes: int
    type: str
    job: str
    device: str
    made_ms: int
    whole: bool = False


class PhotoStore(Protocol):
    """Photo bytes by SHA-256. What it says it has is whole, checked and on disk."""

    def held(self, hashes: Iterable[str]) -> set[str]: ...
    def find(self, sha256: str) -> StoredPhoto | None: ...
    def photo_bytes(self, sha256: str) -> bytes: ...
    def photo_path(self, sha256: str) -> str:
        """Where the file lies, for serving it without reading it here; empty if it lies nowhere."""

    def begin(self, upload: Upload) -> None: ...
    def upload(self, upload: str) -> Upload | None: ...
    def alone(self, upload: str) -> AbstractContextManager[None]:
        """Nobody else is within for this upload, in any process; `Busy` at once if somebody is."""

    def size(self, upload: str) -> int:
        """How many bytes of the upload are on disk."""

    def add(self, upload: str, offset: int, chunks: Iterable[bytes]) -> int:
        """Write at `offset`, sync, and say how many bytes are there. For whoever is `alone` with it;
        `NotThere` if the offset is not the size."""

    def read(self, upload: str) -> Iterable[bytes]: ...
    def finish(self, upload: Upload, photo: StoredPhoto) -> None:
        """Move the bytes to their name, durable in every step, and know the photo. Twice is once."""

    def drop(self, upload: str) -> None: ...
    def sweep(self, before_ms: int) -> None:
        """Drop every upload that was begun before then, whole or not; photos stay."""

    def put_thumb(self, sha256: str, thumb: bytes) -> None: ...
    def thumb(self, sha256: str) -> bytes | None: ...
    def thumbs_held(self, hashes: Iterable[str]) -> set[str]: ...
    def cover(self, hashes: Iterable[str], now_ms: int) -> None:
        """A finished backup or a dossier holds these."""

    def covered(self, hashes: Iterable[str]) -> set[str]: ...


class Busy(Exception):
    """Somebody else is writing this upload."""


class NotThere(Exception):
    """The offset is not where the bytes end."""

    def __init__(self, size: int) -> None:
        super().__init__(f"the bytes end at {size}")
        self.size = size
