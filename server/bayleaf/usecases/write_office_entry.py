"""Writes entries for an office person: kind and body come from them, the envelope from the server."""

from __future__ import annotations

from collections.abc import Sequence

from bayleaf.domain.kinds import is_kind
from bayleaf.ports import JobRow, LoggedEntry, WritesLog
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.server_pen import Author, Draft, write
from bayleaf.wire.entries import Malformed, judge_body

__all__ = ["Draft", "append_office_entries", "open_job", "write_office_entries"]


def write_office_entries(office: Office, job: str, person: str, drafts: Sequence[Draft]) -> list[LoggedEntry]:
    """Append them to a job that is there, in one transaction."""
    check_drafts(drafts)
    with office.log.writing() as log:
        log.lock([job])
        if log.job(job) is None:
            raise Refusal("unknown_job", f"No job here has the id {job}.", "job")
        return write(office, log, job, drafts, _author(office, person))


def append_office_entries(
    office: Office, log: WritesLog, job: str, person: str, drafts: Sequence[Draft]
) -> list[str]:
    """Append them within the caller's transaction, who holds the job's lock; their hashes."""
    check_drafts(drafts)
    return [entry.hash for entry in write(office, log, job, drafts, _author(office, person))]


def open_job(office: Office, person: str, drafts: Sequence[Draft]) -> str:
    """A new job that begins with these entries."""
    check_drafts(drafts)
    job = office.ids.uuid()
    with office.log.writing() as log:
        log.put_job(JobRow(job, 0, shell=False, made_ms=office.clock.now_ms()))
        write(office, log, job, drafts, _author(office, person))
    return job


def check_drafts(drafts: Sequence[Draft]) -> None:
    """Refuse a kind that is none, `file`, and a body that breaks its schema or has unknown fields."""
    for kind, body in drafts:
        if not is_kind(kind):
            raise Refusal("unknown_kind", f"kind: {kind[:40]} is no kind of entry.", "kind")
        if kind == "file":  # it would say that there is a dossier, and make none
            said = "kind: file is written with its dossier only, by POST /api/jobs/<job>/file."
            raise Refusal("use_file_route", said, "kind")
        try:
            unknown = judge_body(kind, body)
        except Malformed as malformed:
            raise Refusal("broken_body", malformed.message, malformed.field) from malformed
        if unknown:
            raise Refusal("broken_body", f"{', '.join(unknown)}: not known here.", unknown[0])


def _author(office: Office, person: str) -> Author:
    found = office.people.find(person)
    if found is None:
        raise Refusal("unknown_person", f"Nobody of the shop has the id {person}.", "person")
    return Author(found.id, (*found.roles, *found.qualifications))
