"""The shop's registers kept by the office: instruments, lots on the shelf, and which jobs used a lot."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

from bayleaf.ports import JobRow, LoggedEntry, ReadsLog
from bayleaf.stock_ports import Instrument, ShelfLot
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal

MOST = 1_000
Kept = TypeVar("Kept", Instrument, ShelfLot)


@dataclass(frozen=True)
class UsedLot:
    """A lot as it was recorded at a step of a job. `state`: stands, struck, or aside (set aside)."""

    hash: str
    job: str
    order: str
    filed_ms: int
    method: str
    step: str
    material: str
    lot: str
    expires_ms: int
    at_ms: int
    by: str
    state: str


def keep_instrument(office: Office, id_: str, named: dict[str, Any]) -> str:
    """Adds one where `id_` is empty, else replaces it."""
    found = {one.id: one for one in office.stock.instruments()}
    before = _before(found, id_, "unknown_instrument", "No instrument here has this id.")
    others = [one for one in found.values() if one.id != id_ and not one.gone]
    if not named["gone"] and any(one.number == named["number"] for one in others):
        raise Refusal("known_number", f"number: another instrument is {named['number']} already.", "number")
    at_ms = _after(office.clock.now_ms(), before.changed_ms if before else 0)
    put = Instrument(id=id_ or office.ids.uuid(), changed_ms=at_ms, **named)
    office.stock.put_instrument(put)
    return put.id


def keep_lot(office: Office, id_: str, named: dict[str, Any]) -> str:
    """Adds one where `id_` is empty, else replaces it."""
    found = {one.id: one for one in office.stock.lots()}
    before = _before(found, id_, "unknown_lot", "No lot here has this id.")
    same = [one for one in found.values() if (one.material, one.lot) == (named["material"], named["lot"])]
    if not named["gone"] and any(one.id != id_ and not one.gone for one in same):
        raise Refusal("known_number", f"lot: {named['lot']} of this material is here already.", "lot")
    at_ms = _after(office.clock.now_ms(), before.changed_ms if before else 0)
    put = ShelfLot(id=id_ or office.ids.uuid(), changed_ms=at_ms, **named)
    office.stock.put_lot(put)
    return put.id


def _before(found: dict[str, Kept], id_: str, code: str, message: str) -> Kept | None:
    if id_ and id_ not in found:
        raise Refusal(code, message, "id")
    return found.get(id_)


def _after(now_ms: int, before_ms: int) -> int:
    """Later than before even where the clock has not moved: the version of the registers goes by it."""
    return max(now_ms, before_ms + 1)


def used_lots(office: Office, words: str) -> Sequence[UsedLot]:
    """Over all jobs, the newest first; with `words` those whose lot or material holds them."""
    wanted = words.lower().split()
    with office.log.reading() as log:
        found = log.of_lots(max(wanted, key=len, default=""), MOST)
        jobs = {job: _lot_job(log, job) for job in {entry.job for entry in found}}
        rows = [_row(jobs[entry.job], entry) for entry in found]
    return [row for row in rows if all(word in _told(row) for word in wanted)]


def _told(row: UsedLot) -> str:
    return f"{row.lot} {row.material} {row.material.replace('_', ' ')}".lower()


@dataclass(frozen=True)
class _LotJob:
    """What is read once of a job, however many lots it used."""

    row: JobRow | None
    aside: frozenset[str]
    struck: frozenset[str]


def _lot_job(log: ReadsLog, job: str) -> _LotJob:
    aside = (mark.hash for mark in log.asides(job) if not mark.admitted)
    struck = (json.loads(one.text)["body"]["target"] for one in log.of_kinds(job, ("strike",)))
    return _LotJob(log.job(job), frozenset(aside), frozenset(struck))


def _row(used_in: _LotJob, entry: LoggedEntry) -> UsedLot:
    written = json.loads(entry.text)
    body, job = written["body"], used_in.row
    return UsedLot(
        hash=entry.hash,
        job=entry.job,
        order=job.order if job else "",
        filed_ms=(job.filed_ms or 0) if job else 0,
        method=body["method"],
        step=body["step"],
        material=body["material"],
        lot=body["lot"],
        expires_ms=body["expires_ms"],
        at_ms=written["at_ms"],
        by=written["by"],
        state=_state(used_in, entry.hash),
    )


def _state(used_in: _LotJob, lot: str) -> str:
    if lot in used_in.aside:
        return "aside"
    return "struck" if lot in used_in.struck else "stands"
