"""What a reader of a job's log is given: new entries after a cursor, and how far every chain goes."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Any, Final

from bayleaf.ports import LoggedEntry, ReadsLog
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal

MOST = 2_000
EVERY: Final = 10**9  # more than any job has


@dataclass(frozen=True)
class NewEntries:
    """`cursor`: all numbers up to it are with the reader once it holds these. `more`: there are more."""

    cursor: int
    entries: list[LoggedEntry]
    more: bool


def after_cursor(log: ReadsLog, job: str, cursor: int, brought: Collection[str], most: int) -> NewEntries:
    """At most `most` entries after the cursor, without those that the reader has just brought."""
    found = log.after(job, cursor, most + len(brought) + 1)
    chosen: list[LoggedEntry] = []
    for entry in found:
        if entry.hash not in brought:
            if len(chosen) == most:
                return NewEntries(cursor, chosen, more=True)
            chosen.append(entry)
        cursor = entry.number
    return NewEntries(cursor, chosen, more=False)


def item(entry: LoggedEntry) -> dict[str, Any]:
    """An entry as it travels, with what only the server knows of its time."""
    found: dict[str, Any] = {"text": entry.text, "received_ms": entry.received_ms}
    return found if entry.offset_ms is None else {**found, "offset_ms": entry.offset_ms}


def chain_heads(log: ReadsLog, job: str) -> list[dict[str, Any]]:
    """The signed heads of every chain, and its newest entry where no head covers it yet (no signature)."""
    signed = log.heads(job)
    known = {head.hash for head in signed}
    chains = {chain.device: chain for chain in log.chains(job)}
    heads = [
        {"device": head.device, "seq": head.seq, "hash": head.hash, "signature": head.signature}
        for head in signed
        if head.device in chains
    ]
    heads += [
        {"device": chain.device, "seq": chain.seq, "hash": chain.hash, "signature": ""}
        for chain in chains.values()
        if chain.hash not in known
    ]
    return [{**head, "count": chains[str(head["device"])].count} for head in heads]


def read_job(office: Office, job: str, after: int) -> dict[str, Any]:
    """What the office's browser pulls: entries after its cursor, and which bytes are here."""
    with office.log.reading() as log:
        _require_job(log, job)
        new = after_cursor(log, job, after, (), MOST)
        named = log.photos_named(job)
        name = log.log()
    return {
        "job": job,
        "log": name,
        "now_ms": office.clock.now_ms(),
        "cursor": new.cursor,
        "more": new.more,
        "entries": [item(entry) for entry in new.entries],
        "photos_here": sorted(office.photos.held(photo for photo, _ in named)),
        "thumbs_here": sorted(office.photos.thumbs_held(thumb for _, thumb in named)),
    }


def whole_log(office: Office, job: str) -> Sequence[LoggedEntry]:
    """Every entry of the job. Refusal: unknown_job."""
    with office.log.reading() as log:
        _require_job(log, job)
        return log.after(job, 0, EVERY)


def _require_job(log: ReadsLog, job: str) -> None:
    if log.job(job) is None:
        raise Refusal("unknown_job", f"No job here has the id {job}.", "job")
