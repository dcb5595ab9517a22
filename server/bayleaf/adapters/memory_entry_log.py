"""The entry log in memory, for tests and simulations: the same promises, but nothing is on disk."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from threading import RLock

from bayleaf.adapters.memory_log_state import LogState
from bayleaf.ports import AsideMark, JobRow, LoggedEntry, RefusedText, ServerDevice, SignedHead, Span


class MemoryLogWriting(LogState):
    """The port WritesLog, on a state that nobody else sees yet."""

    def lock(self, jobs: Iterable[str]) -> None:
        """The whole log is locked already."""

    def put_job(self, job: JobRow) -> None:
        """Its count stays the log's own."""
        self.rows[job.id] = replace(job, count=len(self.entries.get(job.id, [])))

    def append(self, job: str, entries: Sequence[LoggedEntry]) -> int:
        """From the job's counter."""
        log = self.entries.setdefault(job, [])
        first = len(log) + 1
        for number, entry in enumerate(entries, first):
            if entry.hash in self.places:
                raise ValueError(f"the log holds the entry {entry.hash} already")
            log.append(entry._replace(number=number))
            self.places[entry.hash] = job
        self.rows[job] = replace(self.rows[job], count=len(log))
        return first

    def sign(self, job: str, hashes: Iterable[str]) -> None:
        """By replacing the rows."""
        covered = set(hashes)
        self.entries[job] = [
            entry._replace(signed=True) if entry.hash in covered else entry
            for entry in self.entries.get(job, [])
        ]

    def put_heads(self, heads: Sequence[SignedHead], now_ms: int) -> None:
        """Each once."""
        del now_ms
        self.signed_heads |= {(head.job, head.device, head.hash): head for head in heads}

    def drop_heads(self, job: str, device: str, hashes: Iterable[str]) -> None:
        """If they are there."""
        for one in hashes:
            self.signed_heads.pop((job, device, one), None)

    def refuse(self, texts: Sequence[RefusedText]) -> None:
        """Each once."""
        self.refused_texts = {text.hash_of_text: text for text in texts} | self.refused_texts

    def mark_aside(self, job: str, hashes: Iterable[str], code: str) -> None:
        """An admission stays."""
        for one in hashes:
            before = self.marks.get((job, one))
            self.marks[(job, one)] = AsideMark(one, code, admitted=before is not None and before.admitted)

    def mark_admitted(self, job: str, hashes: Iterable[str], *, admitted: bool = True) -> None:
        """In any order."""
        for one in hashes:
            before = self.marks.get((job, one))
            code = before.code if before is not None else ""
            self.marks[(job, one)] = AsideMark(one, code, admitted=admitted)

    def put_spans(self, job: str, spans: Sequence[Span]) -> None:
        """Instead of those that were."""
        self.job_spans[job] = tuple(spans)

    def name_photos(self, job: str, photos: Iterable[tuple[str, str]]) -> None:
        """Each pair once."""
        self.photos[job] = self.photos.get(job, frozenset()) | frozenset(photos)

    def mark_late(self, job: str, now_ms: int) -> None:
        """The register is kept elsewhere here."""

    def begin_log(self, log: str, device: ServerDevice, now_ms: int) -> None:
        """A new name and a new device."""
        del now_ms
        self.name, self.current = log, device.id
        self.servers[device.id] = device

    def note_clock(self, device: str, load: str, at_ms: int, mono_ms: int, server_ms: int) -> None:
        """Nobody asks for it here."""

    def settle(self, device: str, now_ms: int) -> None:
        """Nothing is unsent."""
        self.settled[device] = now_ms


class MemoryEntryLog:
    """The port EntryLog. `state` may be kept and put back, as an older copy of a store would be."""

    def __init__(self) -> None:
        self.state = MemoryLogWriting()
        self._lock = RLock()

    @contextmanager
    def reading(self) -> Iterator[LogState]:
        """One consistent look."""
        yield self.state

    @contextmanager
    def writing(self) -> Iterator[MemoryLogWriting]:
        """All of the block or nothing."""
        with self._lock:
            fresh = self.state.copy()
            yield fresh
            self.state = fresh
