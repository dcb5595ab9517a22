"""What filing needs of the outside: where dossiers are written, and the register of what was filed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from bayleaf.domain.dossier import Member


@dataclass(frozen=True)
class FiledDossier:
    """A line of the register: which dossier, of which `file` entry, and by what it is known again."""

    id: str
    job: str
    file_hash: str
    sha256: str
    seal_fingerprint: str
    filed_ms: int
    reason: str


@dataclass(frozen=True)
class Written:
    """A dossier that is on disk, whole."""

    sha256: str
    bytes: int


class DossierStore(Protocol):
    """Dossiers as files, each written once."""

    def alone(self, job: str) -> AbstractContextManager[None]:
        """Within it nobody else files this job, in any process; `BeingFiled` while somebody does."""

    def write(self, dossier: str, folder: str, members: Iterable[Member]) -> Written:
        """Write the container and sync it; DossierFault, and no file, where a member is not what it was."""

    def path(self, dossier: str) -> Path:
        """Where the file lies, for serving it."""

    def size(self, dossier: str) -> int:
        """Bytes of the file; 0 where it is not here."""


class BeingFiled(Exception):
    """Somebody else is filing this job."""


class FiledRegister(Protocol):
    """The register of the filed: it alone says that a job is filed."""

    def add(self, filed: FiledDossier) -> None:
        """The line, and the day on the job's row; durable before it returns."""

    def all(self) -> Sequence[FiledDossier]:
        """The newest first."""

    def find(self, dossier: str) -> FiledDossier | None: ...
    def of_job(self, job: str) -> Sequence[FiledDossier]:
        """The newest first."""
