"""What the use cases need of the outside for makers' instructions: PDF files, and what each belongs to."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol


@dataclass(frozen=True)
class Paper:
    """A PDF that belongs to a job, to a method, or to that method in that job; the other is empty."""

    id: str
    sha256: str
    job: str
    method: str
    name: str
    bytes: int
    added_ms: int


class PaperStore(Protocol):
    """PDFs by SHA-256. What it says it has is whole and on disk."""

    def all(self) -> Sequence[Paper]:
        """The oldest first."""

    def add(self, paper: Paper, chunks: Iterable[bytes]) -> None:
        """Bytes first, then the row: whatever is known is on disk."""

    def remove(self, paper: str) -> None:
        """The row; the file too once no other row needs it. Dossiers keep their own copy."""

    def read(self, sha256: str) -> Iterable[bytes]: ...
    def path(self, sha256: str) -> str:
        """Where the file lies, for serving it; empty where there is none."""


class NoPapers:
    """A store without any, for whoever needs none."""

    def all(self) -> Sequence[Paper]:
        """None."""
        return ()

    def add(self, paper: Paper, chunks: Iterable[bytes]) -> None:
        """There is no place for it."""
        raise NotImplementedError(paper.name)

    def remove(self, paper: str) -> None:
        """Nothing to remove."""

    def read(self, sha256: str) -> Iterable[bytes]:
        """There is none."""
        raise FileNotFoundError(sha256)

    def path(self, sha256: str) -> str:  # noqa: ARG002  (the port has it)
        """Nowhere."""
        return ""
