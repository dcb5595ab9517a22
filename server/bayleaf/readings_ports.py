"""What the use cases need of the outside for loggers: files as they came, and keys."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol


@dataclass(frozen=True)
class ReadingFile:
    """A logger's file for one heat run. `mapping` and `outcome` are JSON, empty until it was read in."""

    id: str
    sha256: str
    job: str
    run: str
    name: str
    bytes: int
    by: str
    added_ms: int
    logger: str = ""
    mapping: str = ""
    outcome: str = ""
    read_ms: int = 0


@dataclass(frozen=True)
class LoggerKey:
    """What a logger may write readings of one run with; the store knows the key by a keyed hash only."""

    id: str
    key_hash: str
    job: str
    run: str
    logger: str
    by: str
    made_ms: int
    ended_ms: int = 0
    heard_ms: int = 0
    readings: int = 0


class ReadingStore(Protocol):
    """Files by SHA-256, whole and on disk, and keys."""

    def files_of(self, job: str) -> Sequence[ReadingFile]:
        """The oldest first."""

    def file(self, file: str) -> ReadingFile | None: ...
    def add_file(self, added: ReadingFile, content: bytes) -> None:
        """The row and its bytes in one transaction."""

    def put_file(self, put: ReadingFile) -> None:
        """Replace the row of its id."""

    def content(self, sha256: str) -> bytes:
        """Empty where there is none."""

    def newest_of(self, logger: str) -> ReadingFile | None:
        """The file that was read in last under this name."""

    def loggers(self) -> Sequence[str]:
        """Names under which files were read in, sorted."""

    def keys_of(self, job: str) -> Sequence[LoggerKey]:
        """The oldest first, ended ones too."""

    def key(self, key: str) -> LoggerKey | None: ...
    def key_of_hash(self, key_hash: str) -> LoggerKey | None: ...
    def put_key(self, put: LoggerKey) -> None:
        """Add it, or replace the one of its id."""


class NoReadings:
    """A store without any, for whoever needs none."""

    def files_of(self, job: str) -> Sequence[ReadingFile]:  # noqa: ARG002  (the port has it)
        """None."""
        return ()

    def file(self, file: str) -> ReadingFile | None:  # noqa: ARG002
        """None."""
        return None

    def add_file(self, added: ReadingFile, content: bytes) -> None:
        """There is no place for it."""
        raise NotImplementedError(added.name)

    def put_file(self, put: ReadingFile) -> None:
        """There is no place for it."""
        raise NotImplementedError(put.name)

    def content(self, sha256: str) -> bytes:  # noqa: ARG002
        """None."""
        return b""

    def newest_of(self, logger: str) -> ReadingFile | None:  # noqa: ARG002
        """None."""
        return None

    def loggers(self) -> Sequence[str]:
        """None."""
        return ()

    def keys_of(self, job: str) -> Sequence[LoggerKey]:  # noqa: ARG002
        """None."""
        return ()

    def key(self, key: str) -> LoggerKey | None:  # noqa: ARG002
        """None."""
        return None

    def key_of_hash(self, key_hash: str) -> LoggerKey | None:  # noqa: ARG002
        """None."""
        return None

    def put_key(self, put: LoggerKey) -> None:
        """There is no place for it."""
        raise NotImplementedError(put.logger)
