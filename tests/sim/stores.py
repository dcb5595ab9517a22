"""What the simulated server keeps on its disk: in-memory adapters that can die, be copied and be put back."""

from __future__ import annotations

import copy
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from pathlib import Path

from bayleaf.adapters.memory_doors import MemoryDevices, MemoryPeople
from bayleaf.adapters.memory_entry_log import MemoryEntryLog, MemoryLogWriting
from bayleaf.adapters.memory_photos import MemoryMethods, MemoryOfficeLog, MemoryPhotos
from bayleaf.domain.dossier import Member
from bayleaf.door_ports import Session
from bayleaf.dossier_ports import FiledDossier, Found, Search, SearchWord, Written


class ServerDied(Exception):
    """The server's process ended in the midst of a request."""


class SimEntryLog(MemoryEntryLog):
    """The entry log; `dies` makes the next transaction end with the process, before its commit."""

    def __init__(self) -> None:
        super().__init__()
        self.dies = False

    @property
    def on_disk(self) -> MemoryLogWriting:
        """What a start after a power cut would find."""
        return self.state

    @contextmanager
    def writing(self) -> Iterator[MemoryLogWriting]:
        with super().writing() as fresh:
            yield fresh
            if self.dies:
                self.dies = False
                raise ServerDied

    def start(self) -> None:
        """After the process ended, however it did."""

    def read_back(self, disk: MemoryLogWriting) -> None:
        """The files were replaced by these."""
        self.state = disk.copy()


@dataclass
class MemorySessions:
    """The port Sessions."""

    sessions: dict[str, Session] = field(default_factory=dict)
    nonces: dict[str, tuple[str, int]] = field(default_factory=dict)

    def add(self, opened: Session) -> None:
        self.sessions[opened.token_hash] = opened

    def find(self, token_hash: str) -> Session | None:
        return self.sessions.get(token_hash)

    def extend(self, token_hash: str, expires_ms: int) -> None:
        self.sessions[token_hash] = replace(self.sessions[token_hash], expires_ms=expires_ms)

    def end(self, token_hash: str) -> None:
        self.sessions.pop(token_hash, None)

    def end_of_person(self, person: str) -> None:
        self.sessions = {key: one for key, one in self.sessions.items() if one.person != person}

    def sweep(self, now_ms: int) -> None:
        self.sessions = {key: one for key, one in self.sessions.items() if one.expires_ms > now_ms}

    def add_nonce(self, nonce_hash: str, device: str, expires_ms: int) -> None:
        self.nonces[nonce_hash] = (device, expires_ms)

    def take_nonce(self, nonce_hash: str, device: str, now_ms: int) -> bool:
        known, expires_ms = self.nonces.pop(nonce_hash, ("", 0))
        return known == device and now_ms < expires_ms


@dataclass
class MemoryFiled:
    """The ports DossierStore and FiledRegister: each dossier read once, its size kept."""

    register: list[FiledDossier] = field(default_factory=list)
    sizes: dict[str, int] = field(default_factory=dict)

    @contextmanager
    def alone(self, job: str) -> Iterator[None]:
        del job
        yield

    def write(self, dossier: str, folder: str, members: Iterable[Member]) -> Written:
        del folder
        self.sizes[dossier] = sum(1 for _ in members)
        return Written("0" * 64, self.sizes[dossier])

    def path(self, dossier: str) -> Path:
        return Path(dossier)

    def size(self, dossier: str) -> int:
        return self.sizes.get(dossier, 0)

    def read(self, dossier: str, member: str) -> bytes | None:
        del dossier, member
        return None

    def add(self, filed: FiledDossier, words: Iterable[SearchWord]) -> None:
        del words
        self.register.append(filed)

    def all(self) -> Sequence[FiledDossier]:
        return self.register[::-1]

    def find(self, dossier: str) -> FiledDossier | None:
        return next((one for one in self.register if one.id == dossier), None)

    def of_job(self, job: str) -> Sequence[FiledDossier]:
        return [one for one in self.all() if one.job == job]

    def late(self) -> Sequence[FiledDossier]:
        return []

    def search(self, search: Search) -> Sequence[Found]:
        return [Found(one) for one in self.all()[: search.most]]


KEPT = ("photos", "methods", "office_log", "people", "devices", "sessions", "filed")


@dataclass
class Disk:
    """The data folder: all adapters that keep something."""

    log: SimEntryLog = field(default_factory=SimEntryLog)
    photos: MemoryPhotos = field(default_factory=MemoryPhotos)
    methods: MemoryMethods = field(default_factory=MemoryMethods)
    office_log: MemoryOfficeLog = field(default_factory=MemoryOfficeLog)
    people: MemoryPeople = field(default_factory=MemoryPeople)
    devices: MemoryDevices = field(default_factory=MemoryDevices)
    sessions: MemorySessions = field(default_factory=MemorySessions)
    filed: MemoryFiled = field(default_factory=MemoryFiled)

    def copy(self) -> DiskCopy:
        return DiskCopy(self.log.on_disk.copy(), self.kept())

    def kept(self, names: Sequence[str] = KEPT) -> dict[str, dict[str, object]]:
        return {name: copy.deepcopy(vars(getattr(self, name))) for name in names}

    def put_back(self, older: DiskCopy) -> None:
        """The folder is replaced by a copy of it, as files would be."""
        self.log.read_back(older.log)
        self.take_back(older.kept)

    def take_back(self, older: dict[str, dict[str, object]]) -> None:
        for name, kept in older.items():
            vars(getattr(self, name)).update(copy.deepcopy(kept))


@dataclass(frozen=True)
class SimRegister:
    """The port FiledRegister: the line, and the day on the job's row."""

    disk: Disk

    def add(self, filed: FiledDossier, words: Iterable[SearchWord]) -> None:
        self.disk.filed.add(filed, words)
        with self.disk.log.writing() as log:
            row = log.job(filed.job)
            assert row is not None
            log.put_job(replace(row, filed_ms=filed.filed_ms))

    def all(self) -> Sequence[FiledDossier]:
        return self.disk.filed.all()

    def find(self, dossier: str) -> FiledDossier | None:
        return self.disk.filed.find(dossier)

    def of_job(self, job: str) -> Sequence[FiledDossier]:
        return self.disk.filed.of_job(job)

    def late(self) -> Sequence[FiledDossier]:
        return self.disk.filed.late()

    def search(self, search: Search) -> Sequence[Found]:
        return self.disk.filed.search(search)


@dataclass(frozen=True)
class DiskCopy:
    """A copy of the data folder."""

    log: MemoryLogWriting
    kept: dict[str, dict[str, object]]
