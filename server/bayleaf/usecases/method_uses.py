"""Which jobs pin a method, and what a method file would give if it were imported."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from bayleaf.method_files import Compiled, Fault, MethodFileFault, Remark, check_methods
from bayleaf.ports import MethodStore
from bayleaf.usecases.office import Office

MOST = 500


@dataclass(frozen=True)
class PinningJob:
    """A job that pins this revision, or did (`now` is false) before it was given another."""

    job: str
    order: str
    vehicle: str
    part: str
    filed_ms: int
    now: bool


@dataclass(frozen=True)
class Looked:
    """What a file holds: its methods, or its faults; and remarks on what it leaves unsaid."""

    methods: Sequence[Compiled]
    remarks: Sequence[Remark]
    faults: Sequence[Fault]


def jobs_pinning(office: Office, digest: str) -> list[PinningJob]:
    """The newest pin first."""
    with office.log.reading() as log:
        jobs = dict.fromkeys(entry.job for entry in log.pinning(digest, MOST))
        newest = {job: log.of_kinds(job, ("pin",))[-1].text for job in jobs}
        rows = {job: log.job(job) for job in jobs}
    return [
        PinningJob(job, row.order, row.vehicle, row.part, row.filed_ms or 0, digest in _pinned(newest[job]))
        for job, row in rows.items()
        if row is not None
    ]


def _pinned(text: str) -> list[str]:
    found: list[str] = json.loads(text)["body"]["methods"]
    return found


def look_at(yaml: str, drawings: Mapping[str, bytes]) -> Looked:
    """Compiles the file and keeps nothing."""
    try:
        checked = check_methods(yaml, drawings)
    except MethodFileFault as fault:
        return Looked((), (), fault.faults)
    return Looked(checked.methods, checked.remarks, ())


def known(methods: MethodStore, digests: Sequence[str]) -> set[str]:
    """Those that are here."""
    return set(methods.texts(digests))
