"""What filing needs of the outside: where dossiers are written, and the register of what was filed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple, Protocol

from bayleaf.domain.dossier import Member


@dataclass(frozen=True)
class FiledDossier:
    """A line of the register: which dossier, of which `file` entry, and by what it is known again.

    `file_number` is the number of that entry in the log: what has a greater one is not in the dossier, and
    `late_ms` says since when there is such. An addendum names the dossier that it `supersedes`.
    """

    id: str
    job: str
    file_hash: str
    sha256: str
    seal_fingerprint: str
    filed_ms: int
    reason: str
    file_number: int = 0
    supersedes: str = ""
    superseded_by: str = ""
    late_ms: int | None = None


class SearchWord(NamedTuple):
    """What a dossier is found by: letters and digits in lower case, and how it was written."""

    field: str
    word: str
    said: str


@dataclass(frozen=True)
class Sought:
    """A word of a search: a word of the dossier begins with it, or one of these people is on it."""

    begins: str
    people: Sequence[str] = ()


@dataclass(frozen=True)
class Search:
    """What the register is asked: every word, filed within these times, after a dossier of the list."""

    words: Sequence[Sought] = ()
    from_ms: int = 0
    until_ms: int = 2**53 - 1
    after: str = ""
    most: int = 50


@dataclass(frozen=True)
class Found:
    """A line of the register with the words that it was found by."""

    filed: FiledDossier
    by: tuple[SearchWord, ...] = ()


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

    def read(self, dossier: str, member: str) -> bytes | None:
        """One member of it; None where the file or the member is not here."""


class BeingFiled(Exception):
    """Somebody else is filing this job."""


class FiledRegister(Protocol):
    """The register of the filed: it alone says that a job is filed."""

    def add(self, filed: FiledDossier, words: Iterable[SearchWord]) -> None:
        """The line, what it is found by, and the day on the job's row; durable before it returns.

        What came between its `file` entry and now makes it late at once. The dossier that it supersedes is
        marked, and is not searched any more: this one contains it.
        """

    def all(self) -> Sequence[FiledDossier]:
        """The newest first."""

    def find(self, dossier: str) -> FiledDossier | None: ...
    def of_job(self, job: str) -> Sequence[FiledDossier]:
        """The newest first."""

    def late(self) -> Sequence[FiledDossier]:
        """Those of whose jobs entries came after filing, and no addendum holds them yet; the newest first."""

    def search(self, search: Search) -> Sequence[Found]:
        """The newest dossier of each job, the newest first."""
