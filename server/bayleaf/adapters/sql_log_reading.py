"""Reads the entry log by SQL, within one transaction."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from sqlalchemy import Connection, Executable, Row

from bayleaf.adapters import sql_log_queries as queries
from bayleaf.ports import AsideMark, Chain, JobRow, LoggedEntry, RefusedText, ServerDevice, SignedHead, Span

AT_ONCE = 500  # names in one statement: far below what any driver takes


class SqlLogReading:
    """The port ReadsLog. What it has read of jobs and of the server itself holds for its transaction."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection
        self._jobs: dict[str, JobRow | None] = {}
        self._servers: list[Row[Any]] = []

    def log(self) -> str:
        """The name of this store; empty before it is begun."""
        return str(self._connection.scalar(queries.LOG) or "")

    def job(self, job_id: str) -> JobRow | None:
        """One job."""
        if job_id not in self._jobs:
            row = self._connection.execute(queries.ONE_JOB, {"job": job_id}).mappings().one_or_none()
            self._jobs[job_id] = JobRow(**row) if row is not None else None
        return self._jobs[job_id]

    def jobs(self) -> Sequence[JobRow]:
        """All jobs, the oldest first."""
        return [JobRow(**row) for row in self._connection.execute(queries.JOBS).mappings()]

    def open_jobs(self) -> Sequence[JobRow]:
        """Not filed, the oldest first."""
        return [JobRow(**row) for row in self._connection.execute(queries.OPEN_JOBS).mappings()]

    def of_order(self, order: str) -> Sequence[JobRow]:
        """The oldest first."""
        rows = self._connection.execute(queries.OF_ORDER, {"order": order})
        return [JobRow(**row) for row in rows.mappings()]

    def held(self, hashes: Iterable[str]) -> set[str]:
        """Those of the hashes that are in the log."""
        return self._those(queries.HELD, hashes)

    def after(self, job_id: str, number: int, limit: int) -> Sequence[LoggedEntry]:
        """By number."""
        return self._entries(queries.AFTER, job=job_id, number=number, most=limit)

    def by_hashes(self, job_id: str, hashes: Iterable[str]) -> Sequence[LoggedEntry]:
        """By number."""
        found = [
            one
            for some in _batches(hashes)
            for one in self._entries(queries.BY_HASHES, job=job_id, some=some)
        ]
        return sorted(found, key=lambda one: one.number)

    def of_kinds(self, job_id: str, kinds: Iterable[str]) -> Sequence[LoggedEntry]:
        """By number."""
        return self._entries(queries.OF_KINDS, job=job_id, some=list(kinds))

    def of_lots(self, words: str, limit: int) -> Sequence[LoggedEntry]:
        """The newest first."""
        if words == "":
            return self._entries(queries.OF_LOTS, most=limit)
        return self._entries(queries.LOTS_NAMED, like=_like(words.lower()), most=limit)

    def pinning(self, digest: str, limit: int) -> Sequence[LoggedEntry]:
        """The newest first."""
        return self._entries(queries.PINNING, like=_like(digest), most=limit)

    def hashes(self, job_id: str) -> Sequence[str]:
        """By number."""
        return self._connection.scalars(queries.HASHES, {"job": job_id}).all()

    def heads(self, job_id: str) -> Sequence[SignedHead]:
        """By device and seq."""
        return [SignedHead(*row) for row in self._connection.execute(queries.HEADS, {"job": job_id})]

    def chains(self, job_id: str) -> Sequence[Chain]:
        """By device; of entries with the same seq, the one that came last."""
        rows = self._connection.execute(queries.CHAINS, {"job": job_id}).all()
        newest = {row.device: Chain(*row[:4]) for row in sorted(rows, key=lambda row: row.number)}
        return [newest[device] for device in sorted(newest)]

    def tip(self, job_id: str, device: str) -> tuple[int, str] | None:
        """Seq and hash of the newest entry of a chain."""
        row = self._connection.execute(queries.TIP, {"job": job_id, "device": device}).one_or_none()
        return (row.seq, row.hash) if row is not None else None

    def unsigned(self, job_id: str, device: str) -> Sequence[LoggedEntry]:
        """What no valid head covers yet."""
        found = self._entries(queries.UNSIGNED, job=job_id, device=device)
        return sorted(found, key=lambda one: one.number)

    def signed_after(self, job_id: str, device: str, hashes: Iterable[str]) -> set[str]:
        """Those that a signed entry of the chain follows."""
        return self._those(queries.SIGNED_AFTER, hashes, job=job_id, device=device)

    def asides(self, job_id: str) -> Sequence[AsideMark]:
        """By hash."""
        return [AsideMark(*row) for row in self._connection.execute(queries.ASIDES, {"job": job_id})]

    def jobs_to_mend(self, codes: Iterable[str]) -> Sequence[str]:
        """Sorted."""
        return self._connection.scalars(queries.TO_MEND, {"some": list(codes)}).all()

    def spans(self, job_id: str) -> Sequence[Span]:
        """By person and time."""
        return [Span(*row) for row in self._connection.execute(queries.SPANS, {"job": job_id})]

    def jobs_of(self, person: str, since_ms: int) -> Sequence[str]:
        """Sorted."""
        return self._connection.scalars(queries.JOBS_OF, {"person": person, "since_ms": since_ms}).all()

    def photos_named(self, job_id: str) -> set[tuple[str, str]]:
        """Photo and thumbnail."""
        rows = self._connection.execute(queries.PHOTOS_NAMED, {"job": job_id})
        return {(row.sha256, row.thumb) for row in rows}

    def naming(self, sha256: str) -> set[str]:
        """Jobs that name these bytes."""
        return set(self._connection.scalars(queries.NAMING, {"sha256": sha256}))

    def own_device(self) -> ServerDevice:
        """The present one."""
        return next(_server_device(row) for row in self._server_rows() if row.current)

    def own_devices(self) -> Mapping[str, ServerDevice]:
        """All that ever were."""
        return {row.id: _server_device(row) for row in self._server_rows()}

    def refused_of(self, job_id: str) -> Sequence[RefusedText]:
        """In the order of their coming."""
        rows = self._connection.execute(queries.REFUSED_OF, {"job": job_id}).mappings()
        return [RefusedText(**row) for row in rows]

    def settled_ms(self, device: str) -> int:
        """0 for never."""
        return int(self._connection.scalar(queries.SETTLED, {"device": device}) or 0)

    def _server_rows(self) -> Sequence[Row[Any]]:
        if not self._servers:
            self._servers = list(self._connection.execute(queries.SERVER_DEVICES))
        return self._servers

    def _entries(self, query: Executable, **named: object) -> list[LoggedEntry]:
        # A LoggedEntry has the columns of the table, in their order.
        return [LoggedEntry(*row) for row in self._connection.execute(query, named)]

    def _those(self, query: Executable, names: Iterable[str], **named: object) -> set[str]:
        found: set[str] = set()
        for some in _batches(names):
            found.update(self._connection.scalars(query, {"some": some, **named}))
        return found


def _like(words: str) -> str:
    """Anything that holds the words; what LIKE has meanings for stands for itself."""
    escaped = words.replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_")
    return f"%{escaped}%"


def _batches(names: Iterable[str]) -> Iterator[list[str]]:
    every = list(names)
    for start in range(0, len(every), AT_ONCE):
        yield every[start : start + AT_ONCE]


def _server_device(row: Row[Any]) -> ServerDevice:
    return ServerDevice(row.id, row.public_key, row.private_pem, row.card, row.card_signature)
