"""Writes the entry log by SQL, within one transaction."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import asdict
from functools import cache
from typing import Any

from sqlalchemy import Dialect, bindparam, delete, insert, select, update

from bayleaf.adapters import sql_log_queries as queries
from bayleaf.adapters.sql_log_reading import SqlLogReading
from bayleaf.adapters.tables import (
    aside,
    assignment,
    clock_sync,
    entry,
    filed,
    head,
    hearing,
    job,
    photo_named,
    refused,
    server_device,
    store,
)
from bayleaf.ports import JobRow, LoggedEntry, RefusedText, ServerDevice, SignedHead, Span

STORE_ROW = 1
_NAMES = LoggedEntry._fields
_NUMBER = _NAMES.index("number")

_SOME = queries.SOME
_LOCK = select(job.c.id).where(job.c.id.in_(_SOME)).order_by(job.c.id).with_for_update()
_MOVE = (
    update(job)
    .where(job.c.id == bindparam("moved"))
    .values(count=job.c.count + bindparam("by"))
    .returning(job.c.count)
)
_PUT_HEADS = insert(head)
_DROP_HEADS = delete(head).where(
    head.c.job == bindparam("of"), head.c.device == bindparam("by"), head.c.hash.in_(_SOME)
)


class SqlLogWriting(SqlLogReading):
    """The port WritesLog."""

    def lock(self, jobs: Iterable[str]) -> None:
        """In sorted order, so that no two writers wait for each other. SQLite has locked all already."""
        self._connection.execute(_LOCK, {"some": sorted(set(jobs))}).all()
        self._jobs.clear()

    def put_job(self, put: JobRow) -> None:
        """Its `count` is the log's own, and only `append` moves it."""
        self._jobs.pop(put.id, None)
        row = asdict(put)
        del row["count"]
        changed = self._connection.execute(update(job).where(job.c.id == put.id).values(**row))
        if changed.rowcount == 0:
            self._connection.execute(insert(job).values(count=0, **row))

    def append(self, job_id: str, entries: Sequence[LoggedEntry]) -> int:
        """Numbers come from the job's counter: in the order of commits, without gaps."""
        self._jobs.pop(job_id, None)
        count = self._connection.execute(_MOVE, {"moved": job_id, "by": len(entries)}).scalar_one()
        first = int(count) - len(entries) + 1
        rows = [(*one[:_NUMBER], number, *one[_NUMBER + 1 :]) for number, one in enumerate(entries, first)]
        if rows:
            self._connection.exec_driver_sql(*_insert_many(self._connection.dialect, rows))
        return first

    def sign(self, job_id: str, hashes: Iterable[str]) -> None:
        """One statement each: it is rare, and few."""
        for one in hashes:
            self._connection.execute(
                update(entry).where(entry.c.job == job_id, entry.c.hash == one).values(signed=True)
            )

    def put_heads(self, heads: Sequence[SignedHead], now_ms: int) -> None:
        """Each once."""
        for put in heads:
            self.drop_heads(put.job, put.device, [put.hash])
        rows = {(put.job, put.device, put.hash): {**asdict(put), "received_ms": now_ms} for put in heads}
        if rows:
            self._connection.execute(_PUT_HEADS, list(rows.values()))

    def drop_heads(self, job_id: str, device: str, hashes: Iterable[str]) -> None:
        """Heads that a newer one covers."""
        self._connection.execute(_DROP_HEADS, {"of": job_id, "by": device, "some": list(hashes)})

    def refuse(self, texts: Sequence[RefusedText]) -> None:
        """Each once."""
        known = self._those(queries.REFUSED_KNOWN, (text.hash_of_text for text in texts))
        rows = {text.hash_of_text: asdict(text) for text in texts if text.hash_of_text not in known}
        if rows:
            self._connection.execute(insert(refused), list(rows.values()))

    def mark_aside(self, job_id: str, hashes: Iterable[str], code: str) -> None:
        """An admission that is already known stays."""
        marks = {mark.hash for mark in self.asides(job_id)}
        for one in hashes:
            if one in marks:
                mine = (aside.c.job == job_id, aside.c.hash == one)
                self._connection.execute(update(aside).where(*mine).values(code=code))
            else:
                self._connection.execute(insert(aside).values(job=job_id, hash=one, code=code))

    def mark_admitted(self, job_id: str, hashes: Iterable[str], *, admitted: bool = True) -> None:
        """Whether its `aside` is here or yet to come."""
        for one in hashes:
            mine = (aside.c.job == job_id, aside.c.hash == one)
            changed = self._connection.execute(update(aside).where(*mine).values(admitted=admitted))
            if changed.rowcount == 0:
                row = {"job": job_id, "hash": one, "code": "", "admitted": admitted}
                self._connection.execute(insert(aside).values(**row))

    def put_spans(self, job_id: str, spans: Sequence[Span]) -> None:
        """Instead of those that were."""
        self._connection.execute(delete(assignment).where(assignment.c.job == job_id))
        if spans:
            self._connection.execute(insert(assignment), [{"job": job_id, **asdict(span)} for span in spans])

    def name_photos(self, job_id: str, photos: Iterable[tuple[str, str]]) -> None:
        """Each pair once."""
        fresh = sorted(set(photos) - self.photos_named(job_id))
        if fresh:
            rows = [{"job": job_id, "sha256": sha256, "thumb": thumb} for sha256, thumb in fresh]
            self._connection.execute(insert(photo_named), rows)

    def mark_late(self, job_id: str, now_ms: int) -> None:
        """On the line that no addendum follows yet."""
        newest = (filed.c.job == job_id, filed.c.superseded_by == "", filed.c.late_ms.is_(None))
        self._connection.execute(update(filed).where(*newest).values(late_ms=now_ms))

    def begin_log(self, log: str, device: ServerDevice, now_ms: int) -> None:
        """A new name for the store and for the server in it."""
        self._servers = []
        self._connection.execute(delete(store))
        self._connection.execute(insert(store).values(id=STORE_ROW, log=log, made_ms=now_ms))
        self._connection.execute(update(server_device).values(current=False))
        row = {**asdict(device), "current": True, "made_ms": now_ms}
        self._connection.execute(insert(server_device).values(**row))

    def note_clock(self, device: str, load: str, at_ms: int, mono_ms: int, server_ms: int) -> None:
        """What the device's clocks showed at a moment of ours; of one millisecond, the newest."""
        mine = (clock_sync.c.device == device, clock_sync.c.load == load, clock_sync.c.server_ms == server_ms)
        self._connection.execute(delete(clock_sync).where(*mine))
        row = {"device": device, "load": load, "server_ms": server_ms, "at_ms": at_ms, "mono_ms": mono_ms}
        self._connection.execute(insert(clock_sync).values(**row))

    def settle(self, device: str, now_ms: int) -> None:
        """The device holds nothing unsent."""
        changed = update(hearing).where(hearing.c.device == device).values(settled_ms=now_ms)
        if self._connection.execute(changed).rowcount == 0:
            self._connection.execute(insert(hearing).values(device=device, settled_ms=now_ms))


def _insert_many(dialect: Dialect, rows: Sequence[tuple[object, ...]]) -> tuple[str, list[Any]]:
    """The statement as the driver wants it: thousands of rows need no processing of each value."""
    statement = _statement(dialect)
    if dialect.positional:
        return statement, list(rows)
    return statement, [dict(zip(_NAMES, row, strict=True)) for row in rows]


@cache
def _statement(dialect: Dialect) -> str:
    return str(insert(entry).values({name: bindparam(name) for name in _NAMES}).compile(dialect=dialect))
