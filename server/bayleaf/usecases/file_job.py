"""Files a job: the `file` entry first, then the sealed dossier on disk, then the register."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from bayleaf.canonical.digest import sha256_hex
from bayleaf.domain import dossier
from bayleaf.domain.dossier import DossierFault
from bayleaf.domain.dossier_chains import tips
from bayleaf.domain.entries import NIL, Entry, read_entry
from bayleaf.domain.fold import fold
from bayleaf.domain.method import MethodDoc, method_of
from bayleaf.domain.state import CardState
from bayleaf.dossier_ports import BeingFiled, DossierStore, FiledDossier, FiledRegister
from bayleaf.ports import LoggedEntry, ReadsLog, RefusedText, SignedHead
from bayleaf.usecases.dossier_contents import FiledPhoto, Gathered, payload_of
from bayleaf.usecases.dossier_faults import photos_named
from bayleaf.usecases.job_gaps import what_is_missing
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.server_pen import Author, Draft, write

REASON_LENGTH = 4000
EVERY = 10**9  # more than any job has


@dataclass(frozen=True)
class Filing:
    """Where dossiers go."""

    dossiers: DossierStore
    register: FiledRegister


@dataclass(frozen=True)
class Outcome:
    """A job that is filed: its dossier's id, digest, size, and the fingerprint of the seal."""

    dossier: str
    sha256: str
    seal_fingerprint: str
    bytes: int


def file_job(office: Office, filing: Filing, job: str, person: str, reason: str) -> Outcome:
    """Seals what the office holds of a job now; later entries are still taken, and are not in it.

    Refusals: unknown_job; already_filed; being_filed by somebody else; broken_body for a reason that is too
    long; incomplete where something is missing and no reason is written (`named["missing"]` says what);
    not_sealed where the dossier cannot be written (its `file` entry is struck: mend what is named, file
    again).
    """
    if len(reason) > REASON_LENGTH:
        raise Refusal(
            "broken_body", f"reason: {len(reason)} characters, allowed are {REASON_LENGTH}.", "reason"
        )
    _require_job(office, job)
    try:
        with filing.dossiers.alone(job):
            return _file_alone(office, filing, job, person, reason.strip())
    except BeingFiled as error:
        raise Refusal("being_filed", "Somebody else is filing this job now; look again.", "job") from error


def _require_job(office: Office, job: str) -> None:
    with office.log.reading() as log:
        if log.job(job) is None:
            raise Refusal("unknown_job", "No job here has this id.", "job")


def _file_alone(office: Office, filing: Filing, job: str, person: str, reason: str) -> Outcome:
    if filing.register.of_job(job):
        raise Refusal(
            "already_filed", "This job is filed already; its dossier stands in the register.", "job"
        )
    snapshot = _write_file_entry(office, job, person, reason)
    try:
        return _seal(office, filing, job, snapshot)
    except Exception:
        _strike_file_entry(office, job, person, snapshot.entries[-1].hash)
        raise


@dataclass(frozen=True)
class Snapshot:
    """The log of a job as it stood when its `file` entry, the last here, was written."""

    log: str
    logged: Sequence[LoggedEntry]
    entries: Sequence[Entry]
    heads: Sequence[SignedHead]
    refused: Sequence[RefusedText]
    cards: Mapping[str, tuple[str, str]]


def _write_file_entry(office: Office, job: str, person: str, reason: str) -> Snapshot:
    """In one transaction: nothing comes between what `file` names, the heads that sign it, and it."""
    with office.log.writing() as log:
        log.lock([job])
        entries = [read_entry(one.text) for one in log.after(job, 0, EVERY)]
        _require_complete(office, entries, reason)
        own = log.own_device().id
        heads = [head for head in tips(entries) if head["device"] != own]
        write(office, log, job, [Draft("file", {"heads": heads, "reason": reason})], _author(office, person))
        return _snapshot(office, log, job, len(entries) + 1)


def _strike_file_entry(office: Office, job: str, person: str, file_hash: str) -> None:
    """The record must not say filed where there is no dossier."""
    body = {"target": file_hash, "reason": "The dossier could not be written."}
    with office.log.writing() as log:
        log.lock([job])
        write(office, log, job, [Draft("strike", body)], _author(office, person))


def _author(office: Office, person: str) -> Author:
    found = office.people.find(person)
    return Author(person, found.roles if found is not None else ())


def _snapshot(office: Office, log: ReadsLog, job: str, number: int) -> Snapshot:
    logged = log.after(job, 0, number)
    entries = [read_entry(one.text) for one in logged]
    cards = _cards(office, log, entries)
    heads = [head for head in log.heads(job) if head.device in cards]
    return Snapshot(log.log(), logged, entries, heads, log.refused_of(job), cards)


def _require_complete(office: Office, entries: Sequence[Entry], reason: str) -> None:
    if reason:
        return
    state, _ = _folded(office, entries)
    missing = what_is_missing(state, _photos_missing(office, entries))
    if missing:
        sentence = (
            f"The job is not complete ({', '.join(missing[:3])}); to file it all the same, write the reason."
        )
        raise Refusal("incomplete", sentence, "reason", named={"missing": missing})


def _seal(office: Office, filing: Filing, job: str, at: Snapshot) -> Outcome:
    gathered = _gather(office, job, at)
    fingerprint = sha256_hex(bytes.fromhex(office.seal.public_key))
    about, payload = payload_of(gathered, fingerprint, office.photos.photo_bytes)
    members = dossier.sealed(
        about, payload, lambda text: dossier.seal_of(office.seal.public_key, office.seal.sign(text))
    )
    name = office.ids.uuid()
    try:
        written = filing.dossiers.write(name, dossier.bag_name(job), members)
    except (DossierFault, OSError) as fault:
        raise Refusal("not_sealed", f"The dossier cannot be written: {fault}.", "job") from fault
    filed = FiledDossier(
        name, job, about["file"], written.sha256, fingerprint, gathered.filed_ms, gathered.reason
    )
    filing.register.add(filed)
    office.photos.cover([photo.sha256 for photo in gathered.photos], office.clock.now_ms())
    return Outcome(name, written.sha256, fingerprint, written.bytes)


def _gather(office: Office, job: str, at: Snapshot) -> Gathered:
    state, texts = _folded(office, at.entries)
    methods = {digest: method_of(json.loads(text)) for digest, text in texts.items()}
    return Gathered(
        job=job,
        log=at.log,
        filed_ms=at.logged[-1].received_ms,
        reason=at.entries[-1].body["reason"],
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
        photos_missing=_photos_missing(office, at.entries),
        state=state,
    )


def _folded(office: Office, entries: Sequence[Entry]) -> tuple[CardState, Mapping[str, str]]:
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


def _photos(office: Office, entries: Sequence[Entry]) -> list[FiledPhoto]:
    named = photos_named(entries)
    stored = [(office.photos.find(sha256), media_type) for sha256, media_type in sorted(named.items())]
    return [FiledPhoto(photo.sha256, kind, photo.bytes) for photo, kind in stored if photo is not None]


def _photos_missing(office: Office, entries: Sequence[Entry]) -> list[str]:
    named = photos_named(entries)
    return sorted(set(named) - office.photos.held(named))
