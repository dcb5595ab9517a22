"""A shop's data folder with its real adapters, opened as the commands open it."""

from __future__ import annotations

import hashlib
import itertools
from pathlib import Path

from bayleaf.app import open_parts
from bayleaf.config import Config
from bayleaf.photo_ports import StoredPhoto, Upload


class ShopFolder:
    """An embedded store; photos are put in as finished uploads."""

    def __init__(self, data: Path) -> None:
        self.data = data
        self._parts = open_parts(Config(data=data))
        self.photos = self._parts.office.photos
        self.clock = self._parts.office.clock
        self.seal_public_key = self._parts.office.seal.public_key
        self._numbers = itertools.count()

    def close(self) -> None:
        self._parts.close()

    @staticmethod
    def sha256(content: bytes) -> str:
        return hashlib.sha256(content).hexdigest()

    def log_name(self) -> str:
        with self._parts.office.log.reading() as log:
            return log.log()

    def add_photo(self, content: bytes) -> str:
        """The SHA-256 of a photo that is here whole."""
        sha256, size = self.sha256(content), len(content)
        upload = Upload(self._parts.office.ids.uuid(), sha256, size, "image/jpeg", "job", "device", 0)
        self.photos.begin(upload)
        self.photos.add(upload.id, 0, [content])
        self.photos.finish(upload, StoredPhoto(sha256, size, "image/jpeg", 1, 1, next(self._numbers)))
        return sha256
