"""Gathers all that a dossier is made of: the log as it stood at its `file` entry, methods, photos, names."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from bayleaf.domain.entries import NIL, Entry, read_entry
from bayleaf.domain.fold import fold
from bayleaf.domain.method import MethodDoc, method_of
from bayleaf.domain.state import CardState
from bayleaf.dossier_ports import FiledDossier
from bayleaf.ports import LoggedEntry, ReadsLog, RefusedText, SignedHead
from bayleaf.usecases.dossier_contents import FiledBeside, FiledPhoto, FiledPlan, FiledSheet, Gathered
from bayleaf.usecases.dossier_faults import photos_named
from bayleaf.usecases.heat_plans import plans_of
from bayleaf.usecases.job_gaps import what_is_missing
from bayleaf.usecases.office import Office
from bayleaf.usecases.papers import papers_of_job
from bayleaf.usecases.sheets import KeptSheet, kept_sheets, sheet_texts
from bayleaf.usecases.time_zone import wall_time


@dataclass(frozen=True)
class Snapshot:
    """The log of a job as it stood when its `file` entry, the last here, was written.

    `earlier`: the dossiers of this job before, the oldest first.
    """

    log: str
    logged: Sequence[LoggedEntry]
    entries: Sequence[Entry]
    heads: Sequence[SignedHead]
    refused: Sequence[RefusedText]
    cards: Mapping[str, tuple[str, str]]
    earlier: Sequence[FiledDossier] = ()


def snapshot_of(
    office: Office, log: ReadsLog, job: str, number: int, earlier: Sequence[FiledDossier]
) -> Snapshot:
    """All entries up to the number, and what vouches for them."""
    logged = log.after(job, 0, number)
    entries = [read_entry(one.text) for one in logged]
    cards = _cards(office, log, entries)
    heads = [head for head in log.heads(job) if head.device in cards]
    return Snapshot(log.log(), logged, entries, heads, log.refused_of(job), cards, earlier)


def gathered_of(office: Office, job: str, at: Snapshot) -> Gathered:
    """What the dossier of this snapshot holds."""
    state, texts = folded(office, at.entries)
    missing_photos = photos_missing(office, at.entries)
    methods = {digest: method_of(json.loads(text)) for digest, text in texts.items()}
    return Gathered(
        job=job,
        log=at.log,
        filed_ms=at.logged[-1].received_ms,
        reason=at.entries[-1].body["reason"] if at.entries[-1].kind == "file" else "",
        logged=at.logged,
        entries=at.entries,
        heads=at.heads,
        refused=at.refused,
        cards=at.cards,
        people=_people(office, at.entries),
        method_texts=texts,
        methods=methods,
        drawings=_drawings(office, methods.values()),
        photos=_photos(office, at.entries),
        photos_missing=missing_photos,
        state=state,
        missing=what_is_missing(state, at.entries, missing_photos),
        supersedes=[{"dossier": one.id, "sha256": one.sha256, "file": one.file_hash} for one in at.earlier],
        papers=_papers(office, job, methods.values()),
        readings=_readings(office, job),
        plans=_plans(office, job),
        sheets=_sheets(office, at.entries),
        time=wall_time(office, at.logged, at.entries),
    )


def folded(office: Office, entries: Sequence[Entry]) -> tuple[CardState, Mapping[str, str]]:
    """The card state, and the texts of all methods that any entry names and the office holds."""
    named = {digest for entry in entries for digest in _digests(entry)}
    texts = office.methods.texts(sorted(named))
    return fold({digest: method_of(json.loads(text)) for digest, text in texts.items()}, entries), texts


def _digests(entry: Entry) -> Iterable[str]:
    pinned = entry.body.get("methods", []) if entry.kind == "pin" else [entry.body.get("digest", "")]
    return [digest for digest in pinned if isinstance(digest, str) and digest]


def _cards(office: Office, log: ReadsLog, entries: Sequence[Entry]) -> dict[str, tuple[str, str]]:
    own = log.own_devices()
    found: dict[str, tuple[str, str]] = {}
    for device in {entry.device for entry in entries}:
        known = own.get(device) or office.devices.find(device)
        if known is not None and known.card:
            found[device] = (known.card, known.card_signature)
    return found


def _people(office: Office, entries: Sequence[Entry]) -> dict[str, str]:
    """Names by id, of all who wrote or were assigned; they stand beside the entries, never in them."""
    ids = {entry.by for entry in entries} | {
        entry.body["person"] for entry in entries if isinstance(entry.body.get("person"), str)
    }
    found = [office.people.find(person) for person in sorted(ids - {NIL})]
    return {person.id: person.name for person in found if person is not None}


def _drawings(office: Office, methods: Iterable[MethodDoc]) -> dict[str, bytes]:
    wanted = sorted({sha256 for method in methods for sha256 in method.drawings.values()})
    found = {sha256: office.methods.drawing(sha256) for sha256 in wanted}
    return {sha256: drawing for sha256, drawing in found.items() if drawing is not None}


def _papers(office: Office, job: str, methods: Iterable[MethodDoc]) -> list[FiledBeside]:
    found = papers_of_job(office, job, {method.id for method in methods})
    return [
        FiledBeside(paper.sha256, paper.name, paper.bytes, partial(office.papers.read, paper.sha256))
        for paper in found
        if office.papers.path(paper.sha256)
    ]


def _readings(office: Office, job: str) -> list[FiledBeside]:
    """Files of loggers that were read in, each once, by hash."""
    found = {one.sha256: one for one in office.readings.files_of(job) if one.read_ms}
    return [
        FiledBeside(one.sha256, one.name, one.bytes, partial(_content, office, one.sha256))
        for _, one in sorted(found.items())
    ]


def _sheets(office: Office, entries: Sequence[Entry]) -> list[FiledSheet]:
    """Suppliers' sheets that any result rests on, whatever became of it or of them."""
    named = {one for entry in entries if entry.kind == "result" for one in entry.body.get("tables", ())}
    if not named:
        return []
    texts, kept = sheet_texts(office.stock), {one.told.digest: one for one in kept_sheets(office.stock)}
    return [_sheet(kept[digest], *texts[digest]) for digest in sorted(named & texts.keys())]


def _sheet(kept: KeptSheet, name: str, text: str) -> FiledSheet:
    told, content = kept.told, text.encode()
    return FiledSheet(
        sha256=told.digest,
        name=name,
        size=len(content),
        read=partial(_once, content),
        material=told.name,
        sheet=told.sheet,
        revision=told.revision,
        dated=told.dated,
        withdrawn_ms=kept.withdrawn_ms,
        why=kept.why,
    )


def _once(content: bytes) -> Iterable[bytes]:
    return (content,)


def _plans(office: Office, job: str) -> list[FiledPlan]:
    """Plans that were ever pinned to the job's zones, in the order of their pins."""
    found = []
    for one in plans_of(office, [job], ended=True):
        pin, zone = one.pin, office.heat.zone(one.pin.digest)
        filed = FiledPlan(
            method=pin.method,
            zone=pin.zone,
            digest=pin.digest,
            model=pin.model,
            name=one.name,
            pinned_ms=pin.pinned_ms,
            ended_ms=pin.ended_ms,
            answer=office.heat.answer(pin.digest, pin.model),
            zone_text=zone.text if zone is not None else "",
            response=office.heat.response(one.row.response_sha256),
        )
        found += [filed] if filed.answer else []
    return sorted(found, key=lambda one: (one.pinned_ms, one.method, one.zone))


def _content(office: Office, sha256: str) -> Iterable[bytes]:
    return (office.readings.content(sha256),)


def _photos(office: Office, entries: Sequence[Entry]) -> list[FiledPhoto]:
    named = photos_named(entries)
    stored = [(office.photos.find(sha256), media_type) for sha256, media_type in sorted(named.items())]
    return [FiledPhoto(photo.sha256, kind, photo.bytes) for photo, kind in stored if photo is not None]


def photos_missing(office: Office, entries: Sequence[Entry]) -> list[str]:
    """SHA-256 of photos that entries name and whose bytes are not here."""
    named = photos_named(entries)
    return sorted(set(named) - office.photos.held(named))
