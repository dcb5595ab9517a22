"""Files a job, and later its addenda: the `file` entry first, then the sealed dossier, then the register."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bayleaf.canonical.digest import sha256_hex
from bayleaf.domain import dossier
from bayleaf.domain.dossier import DossierFault
from bayleaf.domain.dossier_chains import tips
from bayleaf.domain.entries import Entry, read_entry
from bayleaf.dossier_ports import BeingFiled, DossierStore, FiledDossier, FiledRegister
from bayleaf.report_ports import NotSet, Typesetter
from bayleaf.usecases.dossier_contents import Gathered, payload_of
from bayleaf.usecases.dossier_gathering import Snapshot, folded, gathered_of, photos_missing, snapshot_of
from bayleaf.usecases.job_gaps import what_is_missing
from bayleaf.usecases.job_reading import EVERY
from bayleaf.usecases.make_report import report_pdf
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.search_words import search_words
from bayleaf.usecases.server_pen import Author, Draft, write

REASON_LENGTH = 4000


@dataclass(frozen=True)
class Filing:
    """Where dossiers go. Without a typesetter they hold the plain report alone."""

    dossiers: DossierStore
    register: FiledRegister
    typesetter: Typesetter | None = None


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
    return _file(office, filing, _Asked(job, person, reason.strip(), addendum=False))


def file_addendum(office: Office, filing: Filing, job: str, person: str, reason: str) -> Outcome:
    """Seals a filed job anew, whole, because entries came after; what was filed before stays as it is.

    Its `about.json` names the dossiers before it. Refusals: those of `file_job`; not_filed for a job without
    a dossier; nothing_late where the newest dossier holds every entry.
    """
    return _file(office, filing, _Asked(job, person, reason.strip(), addendum=True))


@dataclass(frozen=True)
class _Asked:
    job: str
    person: str
    reason: str
    addendum: bool


def _file(office: Office, filing: Filing, asked: _Asked) -> Outcome:
    if len(asked.reason) > REASON_LENGTH:
        found = len(asked.reason)
        raise Refusal("broken_body", f"reason: {found} characters, allowed are {REASON_LENGTH}.", "reason")
    _require_job(office, asked.job)
    try:
        with filing.dossiers.alone(asked.job):
            return _file_alone(office, filing, asked)
    except BeingFiled as error:
        raise Refusal("being_filed", "Somebody else is filing this job now; look again.", "job") from error


def _require_job(office: Office, job: str) -> None:
    with office.log.reading() as log:
        if log.job(job) is None:
            raise Refusal("unknown_job", "No job here has this id.", "job")


def _file_alone(office: Office, filing: Filing, asked: _Asked) -> Outcome:
    earlier = list(filing.register.of_job(asked.job))[::-1]
    _require_turn(earlier, addendum=asked.addendum)
    snapshot = _write_file_entry(office, asked, earlier)
    try:
        return _seal(office, filing, asked.job, snapshot)
    except Exception:
        _strike_file_entry(office, asked, snapshot.entries[-1].hash)
        raise


def _require_turn(earlier: Sequence[FiledDossier], *, addendum: bool) -> None:
    if earlier and not addendum:
        raise Refusal(
            "already_filed", "This job is filed already; its dossier stands in the register.", "job"
        )
    if addendum and not earlier:
        raise Refusal("not_filed", "This job is not filed yet, so there is nothing to add to.", "job")
    if addendum and earlier[-1].late_ms is None:
        raise Refusal("nothing_late", "The newest dossier of this job holds every entry.", "job")


def _write_file_entry(office: Office, asked: _Asked, earlier: Sequence[FiledDossier]) -> Snapshot:
    """In one transaction: nothing comes between what `file` names, the heads that sign it, and it."""
    job = asked.job
    with office.log.writing() as log:
        log.lock([job])
        entries = [read_entry(one.text) for one in log.after(job, 0, EVERY)]
        _require_complete(office, entries, asked.reason)
        own = log.own_device().id
        heads = [head for head in tips(entries) if head["device"] != own]
        draft = Draft("file", {"heads": heads, "reason": asked.reason})
        write(office, log, job, [draft], _author(office, asked.person))
        return snapshot_of(office, log, job, len(entries) + 1, earlier)


def _strike_file_entry(office: Office, asked: _Asked, file_hash: str) -> None:
    """The record must not say filed where there is no dossier."""
    body = {"target": file_hash, "reason": "The dossier could not be written."}
    with office.log.writing() as log:
        log.lock([asked.job])
        write(office, log, asked.job, [Draft("strike", body)], _author(office, asked.person))


def _author(office: Office, person: str) -> Author:
    found = office.people.find(person)
    return Author(person, found.roles if found is not None else ())


def _require_complete(office: Office, entries: Sequence[Entry], reason: str) -> None:
    if reason:
        return
    state, _ = folded(office, entries)
    missing = what_is_missing(state, entries, photos_missing(office, entries))
    if missing:
        sentence = (
            f"The job is not complete ({', '.join(missing[:3])}); to file it all the same, write the reason."
        )
        raise Refusal("incomplete", sentence, "reason", named={"missing": missing})


def _seal(office: Office, filing: Filing, job: str, at: Snapshot) -> Outcome:
    gathered = gathered_of(office, job, at)
    fingerprint = sha256_hex(bytes.fromhex(office.seal.public_key))
    pdf = _report(office, filing, gathered, fingerprint)
    about, payload = payload_of(gathered, fingerprint, office.photos.photo_bytes, pdf)
    members = dossier.sealed(
        about, payload, lambda text: dossier.seal_of(office.seal.public_key, office.seal.sign(text))
    )
    name = office.ids.uuid()
    try:
        written = filing.dossiers.write(name, dossier.bag_name(job), members)
    except (DossierFault, OSError) as fault:
        raise Refusal("not_sealed", f"The dossier cannot be written: {fault}.", "job") from fault
    filed = FiledDossier(
        id=name,
        job=job,
        file_hash=about["file"],
        sha256=written.sha256,
        seal_fingerprint=fingerprint,
        filed_ms=gathered.filed_ms,
        reason=gathered.reason,
        file_number=at.logged[-1].number,
        supersedes=at.earlier[-1].id if at.earlier else "",
    )
    filing.register.add(filed, search_words(at.entries, gathered.state))
    office.photos.cover([photo.sha256 for photo in gathered.photos], office.clock.now_ms())
    return Outcome(name, written.sha256, fingerprint, written.bytes)


def _report(office: Office, filing: Filing, gathered: Gathered, fingerprint: str) -> bytes:
    """The report; a photo that cannot be shown says so in it, and stops nothing."""
    if filing.typesetter is None:
        return b""
    try:
        return report_pdf(office, filing.typesetter, gathered, fingerprint)
    except NotSet as fault:
        raise Refusal("not_sealed", f"The report of the dossier cannot be set. {fault}", "job") from fault
