"""Answers a device's sync: the fate of what it brought, and what is new for it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from bayleaf.domain.fold import FOLD_VERSION
from bayleaf.ports import NIL, Caller, JobRow, OfficeLine, ReadsLog
from bayleaf.usecases.bundle_version import bundle_version
from bayleaf.usecases.fates import Brought, Fate, FateOf
from bayleaf.usecases.heat_plans import plans_of
from bayleaf.usecases.job_reading import MOST, NewEntries, after_cursor, chain_heads, item
from bayleaf.usecases.office import Office
from bayleaf.usecases.papers import papers_of
from bayleaf.usecases.receive_entries import receive_entries

PROTOCOL = 1
KEPT_AFTER_FILING_MS = 30 * 24 * 3600 * 1000


@dataclass(frozen=True)
class SyncRequest:
    """What a device says of itself, and what it brings."""

    protocol: int
    log: str
    cursors: Mapping[str, int]
    brought: Brought
    holds_entries: int = 0
    holds_photos: int = 0
    photos: Sequence[str] | None = None
    """Photos whose bytes the device still keeps; None where it does not say."""
    reports: Sequence[tuple[str, str]] = field(default=())
    """(job, sentence): a mismatch that a reconcile did not mend."""


def sync(office: Office, caller: Caller, request: SyncRequest) -> dict[str, Any]:
    """The answer as it travels. What it acknowledges is on disk."""
    settles = request.holds_entries <= len(request.brought.texts)
    brought = replace(request.brought, settles=settles, log=request.log, heard=request.cursors)
    fates = receive_entries(office, caller.device, brought)
    now_ms = office.clock.now_ms()
    left_entries = max(0, request.holds_entries - len(fates))
    office.devices.heard(caller.device, now_ms, left_entries, request.holds_photos)
    for job, said in request.reports:
        office.office_log.add(OfficeLine(now_ms, caller.device, job, said))
    answer = {
        "protocol": PROTOCOL,
        "fold": FOLD_VERSION,
        "update": request.protocol < PROTOCOL,
        "now_ms": now_ms,
        "fates": [_fate(fate) for fate in fates],
    }
    with office.log.reading() as log:
        return {**answer, **_what_is_new(office, log, caller, request, fates)}


def _is_filed(log: ReadsLog, job: str) -> bool:
    row = log.job(job)
    return row is not None and row.filed_ms is not None


def jobs_of(log: ReadsLog, person: str, now_ms: int) -> list[str]:
    """The jobs that a device of this person holds; a shared device, which is nobody's own, holds all."""
    if person == NIL:
        return sorted(row.id for row in log.jobs() if _lasts(row, now_ms))
    rows = [log.job(job) for job in log.jobs_of(person, now_ms)]
    return [row.id for row in rows if row is not None and _lasts(row, now_ms)]


def _lasts(row: JobRow, now_ms: int) -> bool:
    filed = row.filed_ms is not None and row.filed_ms <= now_ms - KEPT_AFTER_FILING_MS
    return not row.shell and not filed


def _what_is_new(
    office: Office, log: ReadsLog, caller: Caller, request: SyncRequest, fates: Sequence[FateOf]
) -> dict[str, Any]:
    name = log.log()
    mine = jobs_of(log, caller.person, office.clock.now_ms())
    bundle = bundle_version(office, papers_of(office, mine), plans_of(office, mine))
    same_log = request.log == name
    gone = sorted(job for job in request.cursors if job not in mine)
    to_reconcile = [job for job in mine if job in request.cursors and not same_log]
    brought: defaultdict[str, list[FateOf]] = defaultdict(list)
    for fate in fates:
        brought[fate.job].append(fate)
    jobs = _jobs(office, log, request, brought, [job for job in mine if job not in to_reconcile])
    moved = [found["job"] for found in jobs if found["entries"]]
    once_mine = [job for job in gone if _was_on(log, caller, job)]
    pairs = {pair for job in (*mine, *once_mine) for pair in log.photos_named(job)}
    named, thumbs = {photo for photo, _ in pairs}, {thumb for _, thumb in pairs}
    asked = named if request.photos is None else named & set(request.photos)
    return {
        "log": name,
        "bundle": bundle,
        "jobs": jobs,
        "new_jobs": [job for job in mine if job not in request.cursors],
        "filed_jobs": [job for job in mine if _is_filed(log, job)],
        "gone_jobs": gone,
        "gone_heads": [
            {"job": job, "heads": chain_heads(log, job) if job in once_mine else []} for job in gone
        ],
        "reconcile": to_reconcile,
        "covered_photos": sorted(office.photos.covered(asked)),
        "photos_missing": sorted(named - office.photos.held(named)),
        "thumbs_missing": sorted(thumbs - office.photos.thumbs_held(thumbs)),
        "cards": cards_of(office, log, moved),
    }


def _was_on(log: ReadsLog, caller: Caller, job: str) -> bool:
    """Then it is told how far the chains go, to see whether a server put back has lost what it heard."""
    on_it = any(span.person == caller.person for span in log.spans(job))
    return on_it or log.tip(job, caller.device) is not None


def _jobs(
    office: Office,
    log: ReadsLog,
    request: SyncRequest,
    brought: Mapping[str, Sequence[FateOf]],
    jobs: Sequence[str],
) -> list[dict[str, Any]]:
    left = MOST
    answers = []
    for job in jobs:
        known = _Known(request.cursors.get(job, 0), brought.get(job, ()))
        answers.append(_job(office, log, job, known, left))
        left -= len(answers[-1]["entries"])
    return answers


@dataclass(frozen=True)
class _Known:
    """What the device holds of a job: all numbers up to the cursor, and what it has just brought."""

    cursor: int
    brought: Sequence[FateOf]

    def new_entries(self, log: ReadsLog, job: str, most: int) -> NewEntries:
        """What else there is. Mostly nothing, and then the numbers tell without reading any entry."""
        row = log.job(job)
        fresh = {one.hash for one in self.brought if one.fate is not Fate.REFUSED and not one.known}
        if row is not None and row.count == self.cursor + len(fresh):
            return NewEntries(row.count, [], more=False)
        return after_cursor(log, job, self.cursor, {one.hash for one in self.brought}, most)


def _job(office: Office, log: ReadsLog, job: str, known: _Known, most: int) -> dict[str, Any]:
    new = known.new_entries(log, job, most)
    answer = {
        "job": job,
        "cursor": new.cursor,
        "more": new.more,
        "entries": [item(entry) for entry in new.entries],
        "heads": chain_heads(log, job),
    }
    if known.brought or new.entries or new.more or new.cursor != known.cursor:
        return answer
    set_digest, state_digest = office.digests.of(log, office.methods, job, new.cursor)
    answer["set_digest"] = set_digest
    return {**answer, "state_digest": state_digest} if state_digest else answer


def cards_of(office: Office, log: ReadsLog, jobs: Sequence[str]) -> list[dict[str, str]]:
    """The signed cards of every device that wrote in these jobs."""
    own = log.own_devices()
    authors = sorted({chain.device for job in jobs for chain in log.chains(job)})
    cards = []
    for author in authors:
        found = own.get(author) or office.devices.find(author)
        if found is not None and found.card:
            cards.append({"card": found.card, "signature": found.card_signature})
    return cards


def _fate(fate: FateOf) -> dict[str, Any]:
    return {
        "index": fate.index,
        "hash": fate.hash,
        "fate": str(fate.fate),
        "code": fate.code,
        "message": fate.message,
        "field": fate.field,
    }
