"""What the in-memory entry log holds, and how it is read: one consistent look at a time."""

from __future__ import annotations

import copy
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Self

from bayleaf.ports import AsideMark, Chain, JobRow, LoggedEntry, RefusedText, ServerDevice, SignedHead, Span


@dataclass
class LogState:
    """The port ReadsLog. A transaction works on a copy, so that a reader's look never changes."""

    name: str = ""
    current: str = ""
    servers: dict[str, ServerDevice] = field(default_factory=dict)
    rows: dict[str, JobRow] = field(default_factory=dict)
    entries: dict[str, list[LoggedEntry]] = field(default_factory=dict)
    places: dict[str, str] = field(default_factory=dict)
    signed_heads: dict[tuple[str, str, str], SignedHead] = field(default_factory=dict)
    refused_texts: dict[str, RefusedText] = field(default_factory=dict)
    marks: dict[tuple[str, str], AsideMark] = field(default_factory=dict)
    job_spans: dict[str, tuple[Span, ...]] = field(default_factory=dict)
    photos: dict[str, frozenset[tuple[str, str]]] = field(default_factory=dict)
    settled: dict[str, int] = field(default_factory=dict)

    def copy(self) -> Self:
        """A state that can be changed without changing this one."""
        fresh = copy.copy(self)
        for name, held in vars(self).items():
            if isinstance(held, dict):
                setattr(fresh, name, held.copy())
        fresh.entries = {job: entries.copy() for job, entries in self.entries.items()}
        return fresh

    def log(self) -> str:
        """The name of the store."""
        return self.name

    def job(self, job: str) -> JobRow | None:
        """One job."""
        return self.rows.get(job)

    def jobs(self) -> Sequence[JobRow]:
        """The oldest first."""
        return sorted(self.rows.values(), key=lambda row: (row.made_ms, row.id))

    def open_jobs(self) -> Sequence[JobRow]:
        """Not filed, the oldest first."""
        return [row for row in self.jobs() if row.filed_ms is None]

    def of_order(self, order: str) -> Sequence[JobRow]:
        """The oldest first."""
        return [row for row in self.jobs() if row.order == order]

    def held(self, hashes: Iterable[str]) -> set[str]:
        """Those that are here."""
        return {one for one in hashes if one in self.places}

    def after(self, job: str, number: int, limit: int) -> Sequence[LoggedEntry]:
        """By number, which is the place in the list."""
        return self.entries.get(job, [])[number : number + limit]

    def by_hashes(self, job: str, hashes: Iterable[str]) -> Sequence[LoggedEntry]:
        """By number."""
        wanted = set(hashes)
        return [entry for entry in self.entries.get(job, []) if entry.hash in wanted]

    def of_kinds(self, job: str, kinds: Iterable[str]) -> Sequence[LoggedEntry]:
        """By number."""
        wanted = set(kinds)
        return [entry for entry in self.entries.get(job, []) if entry.kind in wanted]

    def of_lots(self, words: str, limit: int) -> Sequence[LoggedEntry]:
        """The newest first."""
        return self._newest("lot", words.lower(), limit)

    def pinning(self, digest: str, limit: int) -> Sequence[LoggedEntry]:
        """The newest first."""
        return self._newest("pin", digest, limit)

    def _newest(self, kind: str, words: str, limit: int) -> list[LoggedEntry]:
        found = [one for entries in self.entries.values() for one in entries if one.kind == kind]
        named = [one for one in found if words in one.text.lower()]
        return sorted(named, key=lambda one: (one.received_ms, one.hash), reverse=True)[:limit]

    def hashes(self, job: str) -> Sequence[str]:
        """By number."""
        return [entry.hash for entry in self.entries.get(job, [])]

    def heads(self, job: str) -> Sequence[SignedHead]:
        """By device and seq."""
        mine = [head for head in self.signed_heads.values() if head.job == job]
        return sorted(mine, key=lambda head: (head.device, head.seq, head.hash))

    def chains(self, job: str) -> Sequence[Chain]:
        """By device."""
        chains: dict[str, Chain] = {}
        for entry in self.entries.get(job, []):
            before = chains.get(entry.device)
            count = before.count + 1 if before is not None else 1
            newer = before is None or entry.seq >= before.seq
            newest = Chain(entry.device, entry.seq, entry.hash, count)
            chains[entry.device] = newest if newer or before is None else replace(before, count=count)
        return [chains[device] for device in sorted(chains)]

    def tip(self, job: str, device: str) -> tuple[int, str] | None:
        """Seq and hash."""
        found = next((chain for chain in self.chains(job) if chain.device == device), None)
        return (found.seq, found.hash) if found is not None else None

    def unsigned(self, job: str, device: str) -> Sequence[LoggedEntry]:
        """By number."""
        return [entry for entry in self._chain(job, device) if not entry.signed]

    def signed_after(self, job: str, device: str, hashes: Iterable[str]) -> set[str]:
        """Those that a signed entry follows."""
        return {entry.prev for entry in self._chain(job, device) if entry.signed} & set(hashes)

    def asides(self, job: str) -> Sequence[AsideMark]:
        """By hash."""
        return [mark for (of, _), mark in sorted(self.marks.items()) if of == job]

    def jobs_to_mend(self, codes: Iterable[str]) -> Sequence[str]:
        """Sorted."""
        wanted = set(codes)
        waiting = {job for (job, _), mark in self.marks.items() if mark.code in wanted and not mark.admitted}
        return sorted(waiting)

    def spans(self, job: str) -> Sequence[Span]:
        """By person and time."""
        return sorted(self.job_spans.get(job, ()), key=lambda span: (span.person, span.from_ms))

    def jobs_of(self, person: str, since_ms: int) -> Sequence[str]:
        """Sorted."""
        return sorted(job for job, spans in self.job_spans.items() if _was_on(spans, person, since_ms))

    def photos_named(self, job: str) -> set[tuple[str, str]]:
        """Photo and thumbnail."""
        return set(self.photos.get(job, ()))

    def naming(self, sha256: str) -> set[str]:
        """Jobs that name these bytes."""
        return {job for job, pairs in self.photos.items() if any(sha256 in pair for pair in pairs)}

    def own_device(self) -> ServerDevice:
        """The present one."""
        return self.servers[self.current]

    def own_devices(self) -> Mapping[str, ServerDevice]:
        """All that ever were."""
        return dict(self.servers)

    def refused_of(self, job: str) -> Sequence[RefusedText]:
        """In the order of their coming."""
        mine = [text for text in self.refused_texts.values() if text.job == job]
        return sorted(mine, key=lambda text: (text.received_ms, text.hash_of_text))

    def settled_ms(self, device: str) -> int:
        """0 for never."""
        return self.settled.get(device, 0)

    def _chain(self, job: str, device: str) -> list[LoggedEntry]:
        return [entry for entry in self.entries.get(job, []) if entry.device == device]


def _was_on(spans: Iterable[Span], person: str, since_ms: int) -> bool:
    return any(
        span.person == person and (span.until_ms is None or span.until_ms >= since_ms) for span in spans
    )
