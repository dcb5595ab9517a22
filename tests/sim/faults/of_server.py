"""Faults of the server: its log, its counting, its receiving, and what it does when it was put back."""

from __future__ import annotations

import weakref
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from typing import Any

from bayleaf.adapters.memory_entry_log import MemoryLogWriting
from bayleaf.adapters.memory_log_state import LogState
from bayleaf.photo_ports import StoredPhoto, Upload
from bayleaf.ports import Caller, LoggedEntry, ReadsLog, WritesLog
from bayleaf.usecases import receive_entries, receive_photo, server_pen, store_name
from bayleaf.usecases import sync as syncing
from bayleaf.usecases.fates import Fate
from bayleaf.usecases.office import Office
from bayleaf.usecases.sync import SyncRequest
from sim import world
from sim.faults.planting import Fault
from sim.stores import Disk, ServerDied, SimEntryLog

_take_in = receive_entries._take_in
_jobs = syncing._jobs
_sync = syncing.sync


class _LazyLog(SimEntryLog):
    """Answers as soon as it has written; what it wrote is on disk only when it writes again."""

    def __init__(self) -> None:
        super().__init__()
        self._synced = self.state

    @property
    def on_disk(self) -> MemoryLogWriting:
        return self._synced

    @contextmanager
    def writing(self) -> Iterator[MemoryLogWriting]:
        self._synced = self.state
        with super().writing() as fresh:
            yield fresh

    def start(self) -> None:
        self.state = self._synced

    def read_back(self, disk: MemoryLogWriting) -> None:
        super().read_back(disk)
        self._synced = self.state


class _HalfLog(SimEntryLog):
    """Where the server dies, the entries of its transaction stay, without the heads and marks beside them."""

    @contextmanager
    def writing(self) -> Iterator[MemoryLogWriting]:
        before, fresh = self.state.copy(), self.state.copy()
        yield fresh
        self.state = fresh
        if self.dies:
            self.dies = False
            before.entries, before.places, before.rows = fresh.entries, fresh.places, fresh.rows
            self.state = before
            raise ServerDied


def _append_twice(self: MemoryLogWriting, job: str, entries: Sequence[LoggedEntry]) -> int:
    first = len(self.entries.get(job, [])) + 1
    log = self.entries.setdefault(job, [])
    log += [entry._replace(number=number) for number, entry in enumerate(entries, first)]
    self.places |= {entry.hash: job for entry in entries}
    self.rows[job] = replace(self.rows[job], count=len(log))
    return first


_append = MemoryLogWriting.append


def _append_with_a_gap(self: MemoryLogWriting, job: str, entries: Sequence[LoggedEntry]) -> int:
    first = _append(self, job, entries)
    log = self.entries[job]
    if len(entries) > 1:
        log[-1] = log[-1]._replace(number=log[-1].number + 1)
    return first


def _no_forks(office: Office, log: WritesLog, arrival: Any, fresh: Any, shown: Any) -> Any:
    def is_fork(parsed: Mapping[str, Any]) -> bool:
        rows = log.after(parsed["job"], 0, 10**9)
        return any((row.device, row.seq) == (parsed["device"], parsed["seq"]) for row in rows)

    return _take_in(office, log, arrival, [one for one in fresh if not is_fork(one.parsed)], shown)


def _one_cursor(office: Office, log: ReadsLog, request: SyncRequest, brought: Any, jobs: Any) -> Any:
    most = max(request.cursors.values(), default=0)
    counted = dict.fromkeys(request.cursors, most)
    return _jobs(office, log, replace(request, cursors=counted), brought, jobs)


def _from_now_on(office: Office, log: ReadsLog, request: SyncRequest, brought: Any, jobs: Any) -> Any:
    """Whoever is assigned late hears only what comes from now on."""
    rows = {job: log.job(job) for job in jobs if job not in request.cursors}
    late = {job: row.count for job, row in rows.items() if row is not None}
    return _jobs(office, log, replace(request, cursors={**request.cursors, **late}), brought, jobs)


def _remembering() -> Callable[[Office, Caller, SyncRequest], dict[str, Any]]:
    """The server believes that what it once answered was heard."""
    told: weakref.WeakKeyDictionary[Any, dict[tuple[str, str], int]] = weakref.WeakKeyDictionary()

    def sync(office: Office, caller: Caller, request: SyncRequest) -> dict[str, Any]:
        mine = told.setdefault(office.log, {})
        known = {job: max(at, mine.get((caller.device, job), 0)) for job, at in request.cursors.items()}
        answer = _sync(office, caller, replace(request, cursors=known))
        mine |= {(caller.device, job["job"]): job["cursor"] for job in answer["jobs"]}
        return answer

    return sync


def _believe(office: Office, upload: Upload, _seen: object) -> None:
    now_ms = office.clock.now_ms()
    office.photos.finish(upload, StoredPhoto(upload.sha256, upload.bytes, upload.type, 4, 3, now_ms))


_receive = receive_entries._fates


def _fates_but_refused_taken(*said: Any) -> Any:
    """A refused entry is answered as taken, and kept nowhere."""
    return [replace(fate, fate=Fate.TAKEN) for fate in _receive(*said)]


def _nothing_kept(self: LogState, hashes: Iterable[str]) -> set[str]:
    return set()


def _own(office: Office) -> Any:
    with office.log.reading() as log:
        return log.own_device()


OF_SERVER = (
    Fault(
        "acknowledged before commit",
        "the answer goes out before the log is on disk",
        ((world, "Disk", lambda: Disk(log=_LazyLog())),),
    ),
    Fault(
        "half a transaction stays",
        "a server that dies leaves what it had written so far",
        ((world, "Disk", lambda: Disk(log=_HalfLog())),),
    ),
    Fault(
        "duplicates are counted",
        "an entry that comes twice gets two numbers",
        ((LogState, "held", _nothing_kept), (MemoryLogWriting, "append", _append_twice)),
    ),
    Fault(
        "numbers have a gap",
        "the counter jumps where several are numbered at once",
        ((MemoryLogWriting, "append", _append_with_a_gap),),
    ),
    Fault(
        "fork dropped",
        "a second entry of one number is answered as taken and thrown away",
        ((receive_entries, "_take_in", _no_forks),),
    ),
    Fault(
        "one cursor for all jobs",
        "the greatest cursor counts for every job",
        ((syncing, "_jobs", _one_cursor),),
    ),
    Fault(
        "late assignment hears half",
        "a job that is new to a phone comes without what was before",
        ((syncing, "_jobs", _from_now_on),),
    ),
    Fault(
        "lost answers count as heard",
        "the server goes on from its own last answer, not from the phone's cursor",
        ((syncing, "sync", _remembering()),),
    ),
    Fault(
        "photo believed without its hash",
        "bytes of full length are stored under the hash that was announced",
        ((receive_photo, "_finish", _believe),),
    ),
    Fault(
        "put back, and keeps its log",
        "a server that is shown what it lost goes on under its old name",
        ((receive_entries, "renew_log_if_put_back", lambda *_: None),),
    ),
    Fault(
        "put back, and keeps its device",
        "it takes a new name and writes on as the device that it was",
        ((store_name, "new_device", _own),),
    ),
    Fault(
        "refused, and not kept",
        "a refused entry is answered as taken",
        ((receive_entries, "_fates", _fates_but_refused_taken),),
    ),
    Fault(
        "not folded, and unmarked",
        "what is set aside gets no aside entry",
        ((receive_entries, "set_aside", lambda *_: None),),
    ),
    Fault(
        "own entries unsigned",
        "the server signs nothing of its own",
        ((server_pen, "_sign", lambda *_: None),),
    ),
)
