"""Makes the PDF report of a job: for its dossier, or as a preview before it is filed."""

from __future__ import annotations

import json
from collections import OrderedDict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from threading import Lock
from typing import Final

from bayleaf.canonical.digest import sha256_hex
from bayleaf.domain.dossier_chains import irregular
from bayleaf.report.contents import contents_of
from bayleaf.report.source import Arrival, Filing, PhotoHere, ReportSource, RunPlan, SheetTold
from bayleaf.report_ports import NotSet, Pictures, Typesetter
from bayleaf.usecases.dossier_contents import FiledPlan, FiledSheet, Gathered
from bayleaf.usecases.dossier_faults import photos_named
from bayleaf.usecases.dossier_gathering import Snapshot, gathered_of, snapshot_of
from bayleaf.usecases.job_reading import EVERY
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal

MOST_KEPT: Final = 4
MOST_BYTES: Final = 32 * 1024 * 1024

Mark = tuple[int | str, ...]


def report_pdf(office: Office, typesetter: Typesetter, gathered: Gathered, fingerprint: str) -> bytes:
    """The report as it goes into the dossier; raises NotSet."""
    pictures = Pictures(office.photos.photo_path, office.photos.photo_bytes, gathered.drawings)
    filing = Filing(gathered.filed_ms, gathered.reason, gathered.entries[-1].by)
    return typesetter.typeset(contents_of(source_of(gathered, fingerprint, filing)), pictures).pdf


def source_of(gathered: Gathered, fingerprint: str, filing: Filing | None) -> ReportSource:
    """What the report is written from; a preview has no filing."""
    heads = [(head.device, head.seq, head.hash) for head in gathered.heads]
    return ReportSource(
        job=gathered.job,
        made_ms=gathered.filed_ms,
        filing=filing,
        fingerprint=fingerprint,
        state=gathered.state,
        entries=gathered.entries,
        methods=gathered.methods,
        people=gathered.people,
        devices=_devices(gathered),
        arrivals={one.hash: Arrival(one.received_ms, one.offset_ms or 0) for one in gathered.logged},
        photos={one.sha256: PhotoHere(one.sha256, one.type, one.size) for one in gathered.photos},
        drawings=frozenset(gathered.drawings),
        refused=len(gathered.refused),
        unsigned=len(irregular(gathered.entries, heads)["unsigned"]),
        supersedes=[f"{one['dossier']}, SHA-256 {one['sha256'][:16]}" for one in gathered.supersedes],
        plans=[_plan(one) for one in gathered.plans],
        sheets=[_sheet(one) for one in gathered.sheets],
        time=gathered.time,
    )


def _plan(one: FiledPlan) -> RunPlan:
    answer = json.loads(one.answer)
    times = (one.pinned_ms, one.ended_ms)
    response = sha256_hex(one.response) if one.response else ""
    return RunPlan(one.method, one.zone, one.digest, one.model, one.name, *times, answer, response)


def _sheet(one: FiledSheet) -> SheetTold:
    return SheetTold(one.sha256, one.material, one.sheet, one.revision, one.dated, one.withdrawn_ms, one.why)


def _devices(gathered: Gathered) -> dict[str, str]:
    """Names by id, from the device cards."""
    cards = (json.loads(text) for text, _ in gathered.cards.values())
    return {card["device"]: card["name"] for card in cards}


@dataclass
class Previews:
    """Makes reports of jobs that are not filed, and keeps the last few until their job has grown."""

    typesetter: Typesetter
    _kept: OrderedDict[str, tuple[Mark, bytes]] = field(default_factory=OrderedDict)
    _alone: Lock = field(default_factory=Lock)

    def pdf(self, office: Office, job: str) -> bytes:
        """The report of what the office holds now. Refusals: unknown_job; not_set where it cannot be set."""
        at = _snapshot(office, job)
        with self._alone:
            mark = _mark(office, at)
            kept = self._kept.get(job)
            if kept is None or kept[0] != mark:
                kept = (mark, self._made(office, job, at))
                self._keep(job, kept)
            return kept[1]

    def _made(self, office: Office, job: str, at: Snapshot) -> bytes:
        fingerprint = sha256_hex(bytes.fromhex(office.seal.public_key))
        gathered = gathered_of(office, job, at)
        pictures = Pictures(office.photos.photo_path, office.photos.photo_bytes, gathered.drawings)
        contents = contents_of(source_of(gathered, fingerprint, None))
        try:
            return self.typesetter.typeset(contents, pictures).pdf
        except NotSet as fault:
            raise Refusal("not_set", f"The report cannot be set. {fault}", "job") from fault

    def _keep(self, job: str, made: tuple[Mark, bytes]) -> None:
        self._kept[job] = made
        self._kept.move_to_end(job)
        while len(self._kept) > MOST_KEPT or _bytes(self._kept.values()) > MOST_BYTES:
            self._kept.popitem(last=False)


def _bytes(kept: Iterable[tuple[Mark, bytes]]) -> int:
    return sum(len(pdf) for _, pdf in kept)


def _snapshot(office: Office, job: str) -> Snapshot:
    """Read in one look; everything after that is slow and outside of it."""
    with office.log.reading() as log:
        if log.job(job) is None or not log.hashes(job):
            raise Refusal("unknown_job", "No job here has this id.", "job")
        return snapshot_of(office, log, job, EVERY, ())


def _mark(office: Office, at: Snapshot) -> Mark:
    """What a report depends on: entries, photos and methods here, plans, names, sheets, the time zone."""
    here: Sequence[str] = sorted(office.photos.held(photos_named(at.entries)))
    pins = office.heat.pins({one.job for one in at.logged[:1]})
    plans = [len(pins), sum(one.pinned_ms + one.ended_ms for one in pins)]
    counts = (len(at.entries), len(here), len(office.methods.digests()), office.people.version())
    withdrawn = sum(one.withdrawn_ms for one in office.stock.sheets())
    return (*counts, *plans, withdrawn, office.time_zones.own())
