"""Reads the entry log by SQL, within one transaction."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from sqlalchemy import ColumnElement, Connection, Row, Select, func, or_, select

from bayleaf.adapters.tables import (
    aside,
    assignment,
    entry,
    head,
    hearing,
    job,
    photo_named,
    refused,
    server_device,
    store,
)
from bayleaf.ports import (
    AsideMark,
    Chain,
    JobRow,
    LoggedEntry,
    RefusedText,
    ServerDevice,
    SignedHead,
    Span,
)

AT_ONCE = 500  # names in one statement: far below what any driver takes


class SqlLogReading:
    """The port ReadsLog."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def log(self) -> str:
        """The name of this store; empty before it is begun."""
        return str(self._connection.scalar(select(store.c.log)) or "")

    def job(self, job_id: str) -> JobRow | None:
        """One job."""
        row = self._connection.execute(select(job).where(job.c.id == job_id)).mappings().one_or_none()
        return JobRow(**row) if row is not None else None

    def jobs(self) -> Sequence[JobRow]:
        """All jobs, the oldest first."""
        query = select(job).order_by(job.c.made_ms, job.c.id)
        return [JobRow(**row) for row in self._connection.execute(query).mappings()]

    def held(self, hashes: Iterable[str]) -> set[str]:
        """Those of the hashes that are in the log."""
        return self._those(entry.c.hash, hashes)

    def after(self, job_id: str, number: int, limit: int) -> Sequence[LoggedEntry]:
        """By number."""
        query = select(entry).where(entry.c.job == job_id, entry.c.number > number)
        return self._entries(query.order_by(entry.c.number).limit(limit))

    def by_hashes(self, job_id: str, hashes: Iterable[str]) -> Sequence[LoggedEntry]:
        """By number."""
        found = [
            logged
            for some in _batches(hashes)
            for logged in self._entries(select(entry).where(entry.c.job == job_id, entry.c.hash.in_(some)))
        ]
        return sorted(found, key=lambda logged: logged.number)

    def of_kinds(self, job_id: str, kinds: Iterable[str]) -> Sequence[LoggedEntry]:
        """By number."""
        query = select(entry).where(entry.c.job == job_id, entry.c.kind.in_(list(kinds)))
        return self._entries(query.order_by(entry.c.number))

    def hashes(self, job_id: str) -> Sequence[str]:
        """By number."""
        query = select(entry.c.hash).where(entry.c.job == job_id).order_by(entry.c.number)
        return self._connection.scalars(query).all()

    def heads(self, job_id: str) -> Sequence[SignedHead]:
        """By device and seq."""
        columns = (head.c.job, head.c.device, head.c.seq, head.c.hash, head.c.signature)
        query = select(*columns).where(head.c.job == job_id).order_by(head.c.device, head.c.seq, head.c.hash)
        return [SignedHead(*row) for row in self._connection.execute(query)]

    def chains(self, job_id: str) -> Sequence[Chain]:
        """By device; of entries with the same seq, the one that came last."""
        length = select(entry.c.device, func.max(entry.c.seq).label("seq"), func.count().label("count"))
        lengths = length.where(entry.c.job == job_id).group_by(entry.c.device).subquery()
        query = (
            select(entry.c.device, entry.c.seq, entry.c.hash, lengths.c.count)
            .join(lengths, (entry.c.device == lengths.c.device) & (entry.c.seq == lengths.c.seq))
            .where(entry.c.job == job_id)
            .order_by(entry.c.number)
        )
        newest = {row[0]: Chain(*row) for row in self._connection.execute(query)}
        return [newest[device] for device in sorted(newest)]

    def tip(self, job_id: str, device: str) -> tuple[int, str] | None:
        """Seq and hash of the newest entry of a chain."""
        query = select(entry.c.seq, entry.c.hash).where(entry.c.job == job_id, entry.c.device == device)
        newest = query.order_by(entry.c.seq.desc(), entry.c.number.desc()).limit(1)
        row = self._connection.execute(newest).one_or_none()
        return (row.seq, row.hash) if row is not None else None

    def unsigned(self, job_id: str, device: str) -> Sequence[LoggedEntry]:
        """What no valid head covers yet."""
        mine = (entry.c.job == job_id, entry.c.device == device, entry.c.signed.is_(False))
        return self._entries(select(entry).where(*mine).order_by(entry.c.number))

    def signed_after(self, job_id: str, device: str, hashes: Iterable[str]) -> set[str]:
        """Those that a signed entry of the chain follows."""
        mine = (entry.c.job == job_id, entry.c.device == device, entry.c.signed.is_(True))
        return self._those(entry.c.prev, hashes, *mine)

    def asides(self, job_id: str) -> Sequence[AsideMark]:
        """By hash."""
        columns = (aside.c.hash, aside.c.code, aside.c.admitted)
        query = select(*columns).where(aside.c.job == job_id).order_by(aside.c.hash)
        return [AsideMark(*row) for row in self._connection.execute(query)]

    def jobs_to_mend(self, codes: Iterable[str]) -> Sequence[str]:
        """Sorted."""
        query = select(aside.c.job).distinct()
        waiting = query.where(aside.c.code.in_(list(codes)), aside.c.admitted.is_(False))
        return self._connection.scalars(waiting.order_by(aside.c.job)).all()

    def spans(self, job_id: str) -> Sequence[Span]:
        """By person and time."""
        columns = (assignment.c.person, assignment.c.from_ms, assignment.c.until_ms)
        query = select(*columns).where(assignment.c.job == job_id)
        ordered = query.order_by(assignment.c.person, assignment.c.from_ms)
        return [Span(*row) for row in self._connection.execute(ordered)]

    def jobs_of(self, person: str, since_ms: int) -> Sequence[str]:
        """Sorted."""
        held = or_(assignment.c.until_ms.is_(None), assignment.c.until_ms >= since_ms)
        query = select(assignment.c.job).distinct().where(assignment.c.person == person, held)
        return self._connection.scalars(query.order_by(assignment.c.job)).all()

    def photos_named(self, job_id: str) -> set[tuple[str, str]]:
        """Photo and thumbnail."""
        query = select(photo_named.c.sha256, photo_named.c.thumb).where(photo_named.c.job == job_id)
        return {(row.sha256, row.thumb) for row in self._connection.execute(query)}

    def naming(self, sha256: str) -> set[str]:
        """Jobs that name these bytes."""
        named = or_(photo_named.c.sha256 == sha256, photo_named.c.thumb == sha256)
        return set(self._connection.scalars(select(photo_named.c.job).where(named)))

    def own_device(self) -> ServerDevice:
        """The present one."""
        query = select(server_device).where(server_device.c.current.is_(True))
        return _server_device(self._connection.execute(query).one())

    def own_devices(self) -> Mapping[str, ServerDevice]:
        """All that ever were."""
        rows = self._connection.execute(select(server_device))
        return {row.id: _server_device(row) for row in rows}

    def refused_of(self, job_id: str) -> Sequence[RefusedText]:
        """In the order of their coming."""
        query = select(refused).where(refused.c.job == job_id)
        ordered = query.order_by(refused.c.received_ms, refused.c.hash_of_text)
        return [RefusedText(**row) for row in self._connection.execute(ordered).mappings()]

    def settled_ms(self, device: str) -> int:
        """0 for never."""
        query = select(hearing.c.settled_ms).where(hearing.c.device == device)
        return int(self._connection.scalar(query) or 0)

    def _entries(self, query: Select[Any]) -> list[LoggedEntry]:
        return [LoggedEntry(**row) for row in self._connection.execute(query).mappings()]

    def _those(
        self, column: ColumnElement[Any], named: Iterable[str], *conditions: ColumnElement[bool]
    ) -> set[str]:
        found: set[str] = set()
        for some in _batches(named):
            found.update(self._connection.scalars(select(column).where(column.in_(some), *conditions)))
        return found


def _batches(names: Iterable[str]) -> Iterator[list[str]]:
    every = list(names)
    for start in range(0, len(every), AT_ONCE):
        yield every[start : start + AT_ONCE]


def _server_device(row: Row[Any]) -> ServerDevice:
    return ServerDevice(row.id, row.public_key, row.private_pem, row.card, row.card_signature)
