"""Reconciles one job with one phone: names what either lacks, until both hold the same."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from bayleaf.canonical.digest import set_digest
from bayleaf.ports import Caller, LoggedEntry, OfficeLine, ReadsLog
from bayleaf.usecases.job_reading import MOST, chain_heads, item
from bayleaf.usecases.office import Office
from bayleaf.usecases.sync import cards_of, jobs_of


@dataclass(frozen=True)
class ReconcileRequest:
    """All hashes of the job that the phone holds, and their digest."""

    log: str
    job: str
    hashes: Sequence[str]
    digest: str


def reconcile(office: Office, caller: Caller, request: ReconcileRequest) -> dict[str, Any]:
    """What the server lacks, what the phone lacks (at most 2,000 texts), and the cursor that then holds.

    A phone whose job this is not may still bring what the server lacks, but is told nothing.
    """
    theirs = set(request.hashes)
    with office.log.reading() as log:
        ours = log.hashes(request.job)
        mine = _may_read(office, log, caller, request.job)
        lacking = [found for found in ours if found not in theirs] if mine else []
        answer = {
            "log": log.log(),
            "job": request.job,
            "known": log.job(request.job) is not None,
            "missing_here": sorted(theirs - set(ours)),
            "entries": [item(entry) for entry in log.by_hashes(request.job, lacking[:MOST])],
            "more": len(lacking) > MOST,
            "cursor": _cursor(ours, theirs | set(lacking[:MOST])) if mine else 0,
            "set_digest": set_digest(ours) if mine else "",
            "heads": chain_heads(log, request.job) if mine else [],
            "cards": cards_of(office, log, [request.job]) if mine else [],
            **_lacking_here(office, log, request.job),
        }
    _report(office, caller, request, answer, settled=mine and not lacking)
    return answer


def _may_read(office: Office, log: ReadsLog, caller: Caller, job: str) -> bool:
    row = log.job(job)
    if row is None or row.shell:
        return row is not None
    return caller.kind == "office" or job in jobs_of(log, caller.person, office.clock.now_ms())


def _cursor(ours: Sequence[str], held: set[str]) -> int:
    """How many entries, by number and without a gap, the phone holds once it has this answer."""
    for place, found in enumerate(ours):
        if found not in held:
            return place
    return len(ours)


def _lacking_here(office: Office, log: ReadsLog, job: str) -> dict[str, list[str]]:
    """Photos, thumbnails, methods and drawings that the entries name and the store does not hold."""
    named = log.photos_named(job)
    photos, thumbs = {photo for photo, _ in named}, {thumb for _, thumb in named}
    pinned = {digest for pin in log.of_kinds(job, {"pin"}) for digest in _pinned(pin)}
    texts = office.methods.texts(pinned)
    drawings = {drawing for text in texts.values() for drawing in json.loads(text)["drawings"].values()}
    return {
        "photos_missing": sorted(photos - office.photos.held(photos)),
        "thumbs_missing": sorted(thumbs - office.photos.thumbs_held(thumbs)),
        "methods_missing": sorted(pinned - set(texts)),
        "drawings_missing": sorted(drawings - office.methods.drawings_held(drawings)),
    }


def _pinned(pin: LoggedEntry) -> Sequence[str]:
    parsed = json.loads(pin.text)
    return list(parsed["body"]["methods"]) if parsed["v"] == 1 else []


def _report(
    office: Office, caller: Caller, request: ReconcileRequest, answer: dict[str, Any], *, settled: bool
) -> None:
    """Both lists are empty and the digests still differ: one of the two counts wrong."""
    if settled and not answer["missing_here"] and request.digest not in ("", answer["set_digest"]):
        ours = answer["set_digest"]
        said = f"After a reconcile the phone's set is {request.digest}, the server's {ours}."
        office.office_log.add(OfficeLine(office.clock.now_ms(), caller.device, request.job, said))
