"""Admits by itself what was set aside as unsigned or not yet known, once that is mended."""

from __future__ import annotations

from collections.abc import Sequence

from bayleaf.ports import AsideMark, WritesLog
from bayleaf.usecases.admissions import taken_back
from bayleaf.usecases.judge import MENDABLE, Judge
from bayleaf.usecases.office import Office
from bayleaf.usecases.server_pen import admit, set_aside
from bayleaf.wire.entries import Malformed, read_entry

LOST_WITH_THE_JOB = ("unknown_job", "foreign_job")
REASON = "mended: "


def mend_all(office: Office) -> int:
    """At the start: a newer program may know what an older one did not. How many were admitted."""
    with office.log.writing() as log:
        jobs = log.jobs_to_mend(MENDABLE)
        log.lock(jobs)
        return sum(admit_mended(office, log, job, remade=False) for job in jobs)


def admit_mended(office: Office, log: WritesLog, job: str, *, remade: bool) -> int:
    """Judge again what waits; the caller holds the job's lock.

    `remade`: entries of this server came back that it had lost, so that a job or who is on it is known again.
    """
    codes = MENDABLE + LOST_WITH_THE_JOB if remade else MENDABLE
    waits = [mark for mark in log.asides(job) if not mark.admitted and mark.code in codes]
    decided = taken_back(log, job) if waits else frozenset()
    waiting = {mark.hash: mark for mark in waits if mark.hash not in decided}
    admitted = 0
    for code in codes:
        mended = _mended(office, log, job, [mark for mark in waiting.values() if mark.code == code])
        admit(office, log, job, REASON + code, mended)
        admitted += len(mended)
    return admitted


def _mended(office: Office, log: WritesLog, job: str, marks: Sequence[AsideMark]) -> list[str]:
    """Those that may count now. Another fault that shows only now gets its own `aside`."""
    judge = Judge(office, log, frozenset(log.own_devices()), since_ever=True)
    codes = {mark.hash: mark.code for mark in marks}
    mended: list[str] = []
    for entry in log.by_hashes(job, codes):
        try:
            code, _ = judge.verdict(read_entry(entry.text), signed=entry.signed)
        except Malformed:
            continue  # this program knows its kind now, and the body breaks it: the office decides
        if not code:
            mended.append(entry.hash)
        elif code not in (*MENDABLE, codes[entry.hash]):
            set_aside(office, log, job, code, [entry.hash])
    return mended
