"""The list of the filed: one row a job, its newest dossier, with those before it and what came since."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bayleaf.door_ports import Person
from bayleaf.dossier_ports import FiledDossier, Found, Search, SearchWord
from bayleaf.ports import ReadsLog
from bayleaf.usecases.file_job import Filing
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.search_words import sought_in

PAGE = 40
TOLD = ("order", "vin", "vehicle", "part")


@dataclass(frozen=True)
class Asked:
    """What the office typed: words, from when until when, and the dossier that the page before ended with."""

    words: str
    from_ms: int
    until_ms: int
    after: str


def search_filed(office: Office, filing: Filing, asked: Asked) -> dict[str, object]:
    """A page of the newest dossiers of all jobs that were filed in this time and have every word."""
    if asked.after and filing.register.find(asked.after) is None:
        raise Refusal("unknown_dossier", "after: no dossier here has this id.", "after")
    people = list(office.people.all())
    words = sought_in(asked.words, people)
    search = Search(words, asked.from_ms, asked.until_ms, asked.after, PAGE + 1)
    found = filing.register.search(search)
    rows = _rows(office, filing, found[:PAGE], people)
    return {"filed": rows, "more": len(found) > PAGE}


def filed_of_job(office: Office, filing: Filing, job: str) -> list[dict[str, object]]:
    """Nothing, or the one row of this job."""
    newest = [one for one in filing.register.of_job(job) if not one.superseded_by]
    return _rows(office, filing, [Found(one) for one in newest], ())


def late_jobs(office: Office, filing: Filing) -> list[dict[str, object]]:
    """Filed jobs with entries that no dossier holds yet: each asks for an addendum."""
    return _rows(office, filing, [Found(one) for one in filing.register.late()], ())


def _rows(
    office: Office, filing: Filing, found: Sequence[Found], people: Iterable[Person]
) -> list[dict[str, object]]:
    names = {person.id: person.name for person in people}
    with office.log.reading() as log:
        return [_row(log, filing, one, names) for one in found]


def _row(log: ReadsLog, filing: Filing, found: Found, names: dict[str, str]) -> dict[str, object]:
    job, one = log.job(found.filed.job), found.filed
    told = {
        name: getattr(job, name) if job is not None else "" for name in ("order", "vin", "vehicle", "part")
    }
    came = max(job.count - one.file_number, 0) if job is not None and one.file_number else 0
    return {
        **told,
        **_dossier(filing, one),
        "job": one.job,
        "file_hash": one.file_hash,
        "after_filing": came,
        "late_ms": one.late_ms,
        "earlier": [_dossier(filing, before) for before in _before(filing, one)],
        "found_by": [{"field": word.field, "said": _said(word, names)} for word in _each_once(found.by)],
    }


def _dossier(filing: Filing, one: FiledDossier) -> dict[str, object]:
    return {
        "dossier": one.id,
        "sha256": one.sha256,
        "seal_fingerprint": one.seal_fingerprint,
        "filed_ms": one.filed_ms,
        "bytes": filing.dossiers.size(one.id),
        "reason": one.reason,
    }


def _before(filing: Filing, one: FiledDossier) -> Sequence[FiledDossier]:
    """The newest of them first; most jobs have none."""
    if not one.supersedes:
        return ()
    return [before for before in filing.register.of_job(one.job) if before.superseded_by]


def _each_once(words: Iterable[SearchWord]) -> list[SearchWord]:
    """A VIN is found by many of its endings and said once."""
    said = {(word.field, word.said or word.word): word for word in words}
    return list(said.values())


def _said(word: SearchWord, names: dict[str, str]) -> str:
    return names.get(word.word, "") if word.field == "person" else word.said
