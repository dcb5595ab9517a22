"""The entry log's queries, each made once: making one costs more than most of them take."""

from __future__ import annotations

from typing import Any

from sqlalchemy import BindParameter, bindparam, func, literal_column, or_, select

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

JOB: BindParameter[Any] = bindparam("job")
DEVICE: BindParameter[Any] = bindparam("device")
NUMBER: BindParameter[Any] = bindparam("number")
MOST: BindParameter[Any] = bindparam("most")
PERSON: BindParameter[Any] = bindparam("person")
SINCE_MS: BindParameter[Any] = bindparam("since_ms")
ORDER: BindParameter[Any] = bindparam("order")
SHA256: BindParameter[Any] = bindparam("sha256")
SOME: BindParameter[Any] = bindparam("some", expanding=True)

LOG = select(store.c.log)
ONE_JOB = select(job).where(job.c.id == JOB)
OPEN_JOBS = select(job).where(job.c.filed_ms.is_(None)).order_by(job.c.made_ms, job.c.id)
OF_ORDER = select(job).where(job.c.order == ORDER).order_by(job.c.made_ms, job.c.id)
JOBS = select(job).order_by(job.c.made_ms, job.c.id)

OF_JOB = select(entry).where(entry.c.job == JOB).order_by(entry.c.number)
AFTER = OF_JOB.where(entry.c.number > NUMBER).limit(MOST)
BY_HASHES = OF_JOB.where(entry.c.hash.in_(SOME))
OF_KINDS = OF_JOB.where(entry.c.kind.in_(SOME))
# The kind is written out, so that the partial index of that kind serves.
OF_LOTS = (
    select(entry)
    .where(entry.c.kind == literal_column("'lot'"))
    .order_by(entry.c.received_ms.desc(), entry.c.hash.desc())
    .limit(MOST)
)
LIKE: BindParameter[Any] = bindparam("like")
LOTS_NAMED = OF_LOTS.where(func.lower(entry.c.text).like(LIKE, escape="\\"))
PINNING = (
    select(entry)
    .where(entry.c.kind == literal_column("'pin'"), entry.c.text.like(LIKE))
    .order_by(entry.c.received_ms.desc(), entry.c.hash.desc())
    .limit(MOST)
)
HASHES = select(entry.c.hash).where(entry.c.job == JOB).order_by(entry.c.number)
HELD = select(entry.c.hash).where(entry.c.hash.in_(SOME))

_CHAIN = (entry.c.job == JOB, entry.c.device == DEVICE)
# Not in order of number: that would be looked up by number, which reads the whole job at every push.
UNSIGNED = select(entry).where(*_CHAIN, entry.c.signed.is_(False))
SIGNED_AFTER = select(entry.c.prev).where(*_CHAIN, entry.c.signed.is_(True), entry.c.prev.in_(SOME))
TIP = (
    select(entry.c.seq, entry.c.hash)
    .where(*_CHAIN)
    .order_by(entry.c.seq.desc(), entry.c.number.desc())
    .limit(1)
)
_LENGTHS = (
    select(entry.c.device, func.max(entry.c.seq).label("seq"), func.count().label("count"))
    .where(entry.c.job == JOB)
    .group_by(entry.c.device)
    .subquery()
)
# Of a fork, both ends come; which is newer, `number` says.
CHAINS = select(entry.c.device, entry.c.seq, entry.c.hash, _LENGTHS.c.count, entry.c.number).where(
    entry.c.job == JOB, entry.c.device == _LENGTHS.c.device, entry.c.seq == _LENGTHS.c.seq
)
HEADS = (
    select(head.c.job, head.c.device, head.c.seq, head.c.hash, head.c.signature)
    .where(head.c.job == JOB)
    .order_by(head.c.device, head.c.seq, head.c.hash)
)

ASIDES = select(aside.c.hash, aside.c.code, aside.c.admitted).where(aside.c.job == JOB).order_by(aside.c.hash)
TO_MEND = (
    select(aside.c.job)
    .distinct()
    .where(aside.c.code.in_(SOME), aside.c.admitted.is_(False))
    .order_by(aside.c.job)
)
SPANS = (
    select(assignment.c.person, assignment.c.from_ms, assignment.c.until_ms)
    .where(assignment.c.job == JOB)
    .order_by(assignment.c.person, assignment.c.from_ms)
)
JOBS_OF = (
    select(assignment.c.job)
    .distinct()
    .where(
        assignment.c.person == PERSON,
        or_(assignment.c.until_ms.is_(None), assignment.c.until_ms >= SINCE_MS),
    )
    .order_by(assignment.c.job)
)

PHOTOS_NAMED = select(photo_named.c.sha256, photo_named.c.thumb).where(photo_named.c.job == JOB)
NAMING = select(photo_named.c.job).where(or_(photo_named.c.sha256 == SHA256, photo_named.c.thumb == SHA256))
SERVER_DEVICES = select(server_device)
REFUSED_OF = (
    select(refused).where(refused.c.job == JOB).order_by(refused.c.received_ms, refused.c.hash_of_text)
)
REFUSED_KNOWN = select(refused.c.hash_of_text).where(refused.c.hash_of_text.in_(SOME))
SETTLED = select(hearing.c.settled_ms).where(hearing.c.device == DEVICE)
