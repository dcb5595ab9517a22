"""Files and keys of loggers in memory, for tests."""

from __future__ import annotations

from collections.abc import Sequence

from bayleaf.readings_ports import LoggerKey, ReadingFile


class MemoryReadings:
    """The port ReadingStore."""

    def __init__(self) -> None:
        self._files: dict[str, ReadingFile] = {}
        self._bytes: dict[str, bytes] = {}
        self._keys: dict[str, LoggerKey] = {}

    def files_of(self, job: str) -> Sequence[ReadingFile]:
        """The oldest first."""
        return sorted(
            (one for one in self._files.values() if one.job == job), key=lambda one: (one.added_ms, one.id)
        )

    def file(self, file: str) -> ReadingFile | None:
        """By id."""
        return self._files.get(file)

    def add_file(self, added: ReadingFile, content: bytes) -> None:
        """Bytes and row."""
        self._bytes[added.sha256] = content
        self._files[added.id] = added

    def put_file(self, put: ReadingFile) -> None:
        """Replace it."""
        self._files[put.id] = put

    def content(self, sha256: str) -> bytes:
        """As it came."""
        return self._bytes.get(sha256, b"")

    def newest_of(self, logger: str) -> ReadingFile | None:
        """The one that was read in last."""
        found = (one for one in self._files.values() if one.logger == logger and one.read_ms > 0)
        return max(found, key=lambda one: (one.read_ms, one.id), default=None)

    def loggers(self) -> Sequence[str]:
        """Sorted."""
        return sorted({one.logger for one in self._files.values() if one.logger})

    def keys_of(self, job: str) -> Sequence[LoggerKey]:
        """The oldest first."""
        return sorted(
            (one for one in self._keys.values() if one.job == job), key=lambda one: (one.made_ms, one.id)
        )

    def key(self, key: str) -> LoggerKey | None:
        """By id."""
        return self._keys.get(key)

    def key_of_hash(self, key_hash: str) -> LoggerKey | None:
        """By what the store knows of the key."""
        return next((one for one in self._keys.values() if one.key_hash == key_hash), None)

    def put_key(self, put: LoggerKey) -> None:
        """Add or replace."""
        self._keys[put.id] = put
