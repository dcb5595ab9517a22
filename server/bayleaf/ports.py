"""What the use cases need of the outside for the record: the entry log, methods, keys, clock, ids."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from typing import NamedTuple, Protocol

NIL = "00000000-0000-0000-0000-000000000000"


@dataclass(frozen=True)
class Caller:
    """Who brings a request, once the door has let them in. `device` is empty for the office's browser."""

    kind: str
    device: str
    person: str
    roles: tuple[str, ...] = ()
    qualifications: tuple[str, ...] = ()


class LoggedEntry(NamedTuple):
    """An entry as it stands in the log, its text as it came."""

    hash: str
    job: str
    number: int
    device: str
    seq: int
    prev: str
    kind: str
    text: str
    received_ms: int
    offset_ms: int | None
    via_device: str
    signed: bool


@dataclass(frozen=True)
class SignedHead:
    """A device's signature of its newest entry in a job; through `prev` it covers all before it."""

    job: str
    device: str
    seq: int
    hash: str
    signature: str

    @property
    def text(self) -> str:
        """What is signed."""
        return f"bayleaf-head-1\n{self.job}\n{self.device}\n{self.seq}\n{self.hash}"


@dataclass(frozen=True)
class Chain:
    """How far the log holds one device's entries of a job."""

    device: str
    seq: int
    hash: str
    count: int


@dataclass(frozen=True)
class RefusedText:
    """The raw text of an entry that was none, kept."""

    hash_of_text: str
    job: str
    text: str
    code: str
    message: str
    field: str
    device: str
    received_ms: int


@dataclass(frozen=True)
class AsideMark:
    """What the `aside` and `admit` entries of the log say of one entry."""

    hash: str
    code: str
    admitted: bool


@dataclass(frozen=True)
class JobRow:
    """A job of the log; `shell`: entries came for it, but nobody opened it here."""

    id: str
    count: int
    shell: bool
    order: str = ""
    vin: str = ""
    vehicle: str = ""
    part: str = ""
    made_ms: int = 0
    filed_ms: int | None = None


@dataclass(frozen=True)
class Span:
    """From when until when, by the server's clock, a person was assigned to a job."""

    person: str
    from_ms: int
    until_ms: int | None


@dataclass(frozen=True)
class ServerDevice:
    """The server as a device, with a key of its own."""

    id: str
    public_key: str
    private_pem: str
    card: str
    card_signature: str


class ReadsLog(Protocol):
    """One consistent look at the log."""

    def log(self) -> str:
        """The name of this store; new when it is made or was put back."""

    def job(self, job: str) -> JobRow | None: ...
    def jobs(self) -> Sequence[JobRow]: ...
    def open_jobs(self) -> Sequence[JobRow]:
        """Those that are not filed, the oldest first; takes no longer for the filed ones beside them."""

    def of_order(self, order: str) -> Sequence[JobRow]:
        """Jobs of this order number, the oldest first."""

    def held(self, hashes: Iterable[str]) -> set[str]:
        """Those of the hashes that the log holds, in whatever job."""

    def after(self, job: str, number: int, limit: int) -> Sequence[LoggedEntry]:
        """By number."""

    def by_hashes(self, job: str, hashes: Iterable[str]) -> Sequence[LoggedEntry]:
        """By number; those of them that this job holds."""

    def of_kinds(self, job: str, kinds: Iterable[str]) -> Sequence[LoggedEntry]: ...
    def of_lots(self, words: str, limit: int) -> Sequence[LoggedEntry]:
        """`lot` entries of all jobs, the newest first; with `words` only those whose text holds them."""

    def pinning(self, digest: str, limit: int) -> Sequence[LoggedEntry]:
        """`pin` entries of all jobs that name this method, the newest first."""

    def hashes(self, job: str) -> Sequence[str]:
        """By number, so that the place in the list, from 1, is the number."""

    def heads(self, job: str) -> Sequence[SignedHead]: ...
    def chains(self, job: str) -> Sequence[Chain]:
        """By device; of a fork, the entry with the greatest number."""

    def tip(self, job: str, device: str) -> tuple[int, str] | None:
        """Seq and hash of the device's newest entry in the job."""

    def unsigned(self, job: str, device: str) -> Sequence[LoggedEntry]: ...
    def signed_after(self, job: str, device: str, hashes: Iterable[str]) -> set[str]:
        """Those of the hashes that a signed entry of this chain names as its `prev`."""

    def asides(self, job: str) -> Sequence[AsideMark]: ...
    def jobs_to_mend(self, codes: Iterable[str]) -> Sequence[str]:
        """Jobs with entries that were set aside under these codes and never admitted."""

    def spans(self, job: str) -> Sequence[Span]: ...
    def jobs_of(self, person: str, since_ms: int) -> Sequence[str]:
        """Jobs that the person was assigned to at any time from `since_ms` on, sorted."""

    def photos_named(self, job: str) -> set[tuple[str, str]]:
        """(photo, thumbnail) of every photo entry, as SHA-256."""

    def naming(self, sha256: str) -> set[str]:
        """Jobs with a photo entry that names these bytes, as photo or as thumbnail."""

    def own_device(self) -> ServerDevice:
        """The server's present device."""

    def own_devices(self) -> Mapping[str, ServerDevice]:
        """All devices that this server ever was, by id."""

    def refused_of(self, job: str) -> Sequence[RefusedText]: ...
    def settled_ms(self, device: str) -> int:
        """When the device was last heard with nothing left unsent; 0 for never."""


class WritesLog(ReadsLog, Protocol):
    """One transaction, alone with the jobs that it locked. All of it happens, or nothing."""

    def lock(self, jobs: Iterable[str]) -> None:
        """Keep other writers out of these jobs until the end."""

    def put_job(self, job: JobRow) -> None:
        """Add the job, or replace all but its `count`."""

    def append(self, job: str, entries: Sequence[LoggedEntry]) -> int:
        """Number them from the job's counter, in this order; the first number. Theirs is ignored."""

    def sign(self, job: str, hashes: Iterable[str]) -> None:
        """A valid head covers these."""

    def put_heads(self, heads: Sequence[SignedHead], now_ms: int) -> None: ...
    def drop_heads(self, job: str, device: str, hashes: Iterable[str]) -> None: ...
    def refuse(self, texts: Sequence[RefusedText]) -> None:
        """Keep them, each once."""

    def mark_aside(self, job: str, hashes: Iterable[str], code: str) -> None: ...
    def mark_admitted(self, job: str, hashes: Iterable[str], *, admitted: bool = True) -> None:
        """Also of entries that no `aside` names yet: the admission wins in any order, until it is struck."""

    def put_spans(self, job: str, spans: Sequence[Span]) -> None:
        """Replace those of the job."""

    def name_photos(self, job: str, photos: Iterable[tuple[str, str]]) -> None: ...
    def mark_late(self, job: str, now_ms: int) -> None:
        """Entries came that the newest dossier of this job does not hold; the first time stays."""

    def begin_log(self, log: str, device: ServerDevice, now_ms: int) -> None:
        """Take a new name for the store, and be this device from now on."""

    def note_clock(self, device: str, load: str, at_ms: int, mono_ms: int, server_ms: int) -> None: ...
    def settle(self, device: str, now_ms: int) -> None: ...


class EntryLog(Protocol):
    """The record. A transaction is on disk (committed and synced) when its block has ended."""

    def reading(self) -> AbstractContextManager[ReadsLog]: ...
    def writing(self) -> AbstractContextManager[WritesLog]: ...


class MethodStore(Protocol):
    """Compiled methods by digest, and their drawings."""

    def texts(self, digests: Iterable[str]) -> Mapping[str, str]:
        """Canonical texts of those that are here."""

    def digests(self) -> Sequence[str]:
        """All, the newest import first."""

    def put(self, digest: str, text: str, yaml: str, now_ms: int) -> bool:
        """False if it was here."""

    def yaml(self, digest: str) -> str: ...
    def imported_ms(self, digest: str) -> int: ...
    def drawings_held(self, hashes: Iterable[str]) -> set[str]: ...
    def drawing(self, sha256: str) -> bytes | None: ...
    def put_drawing(self, sha256: str, drawing: bytes) -> None: ...


@dataclass(frozen=True)
class OfficeLine:
    """A line of the office's log, such as a mismatch report."""

    at_ms: int
    device: str
    job: str
    text: str


class OfficeLog(Protocol):
    """What the office should look into, newest first."""

    def add(self, line: OfficeLine) -> None: ...
    def lines(self, limit: int) -> Sequence[OfficeLine]: ...


class Pens(Protocol):
    """Makes and uses the keys of the server's own devices."""

    def make(self) -> tuple[str, str]:
        """Public key (SEC1 hex) and private key (PEM)."""

    def sign(self, private_pem: str, text: str) -> str:
        """Raw r||s in hex."""


class Clock(Protocol):
    """Time. `load` is the page load of the server: what its monotonic clock counts from."""

    load: str

    def now_ms(self) -> int: ...
    def mono_ms(self) -> int: ...


class Ids(Protocol):
    """New UUIDs."""

    def uuid(self) -> str: ...
