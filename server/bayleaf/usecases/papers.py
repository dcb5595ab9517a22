"""Makers' instructions as PDF: taken in by the office, told to phones that need them, kept in dossiers."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import IO

from bayleaf.paper_ports import Paper
from bayleaf.ports import Caller
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal

MOST_BYTES = 40_000_000
MAGIC = b"%PDF-"  # ISO 32000-2, 7.5.2
END = b"%%EOF"  # 7.5.5: the last line; readers look for it in the last 1024 bytes
END_WITHIN = 1024
CHUNK = 1 << 16


@dataclass(frozen=True)
class Offered:
    """A file that somebody hands in, and what it is to belong to."""

    name: str
    job: str
    method: str


def add_paper(office: Office, offered: Offered, file: IO[bytes]) -> Paper:
    """Keep it, checked and on disk. The same file for the same job and method is there once.

    Refusals: broken_request where it belongs to nothing; unknown_job; unknown_method; not_a_pdf; too_large.
    """
    _require_place(office, offered)
    size, sha256 = _checked(file)
    for known in office.papers.all():
        if (known.sha256, known.job, known.method) == (sha256, offered.job, offered.method):
            return known
    paper = Paper(
        id=office.ids.uuid(),
        sha256=sha256,
        job=offered.job,
        method=offered.method,
        name=offered.name,
        bytes=size,
        added_ms=office.clock.now_ms(),
    )
    file.seek(0)
    office.papers.add(paper, _chunks(file))
    return paper


def remove_paper(office: Office, paper: str) -> None:
    """No phone is told of it any more; what was filed with it keeps it. Refusal: not_found."""
    if paper not in {one.id for one in office.papers.all()}:
        raise Refusal("not_found", "No instruction here has this id.", "paper")
    office.papers.remove(paper)


def papers_of(office: Office, jobs: Collection[str]) -> list[Paper]:
    """What a phone with these jobs needs: theirs, and those of methods, which every phone has all of."""
    return [paper for paper in office.papers.all() if paper.job == "" or paper.job in jobs]


def papers_of_job(office: Office, job: str, methods: Collection[str]) -> list[Paper]:
    """What belongs into the dossier of a job with these methods, each file once, by hash."""
    mine = [
        paper
        for paper in office.papers.all()
        if paper.job in ("", job) and (paper.method == "" or paper.method in methods)
    ]
    return sorted({paper.sha256: paper for paper in reversed(mine)}.values(), key=lambda one: one.sha256)


def readable_paper(office: Office, caller: Caller, jobs: Collection[str], sha256: str) -> Paper:
    """For the office, and for a phone that is told of it. Refusal: not_found."""
    all_papers: Sequence[Paper] = office.papers.all()
    seen = all_papers if caller.kind == "office" else papers_of(office, jobs)
    for paper in seen:
        if paper.sha256 == sha256 and office.papers.path(sha256):
            return paper
    raise Refusal("not_found", "No instruction of this hash is here for this caller.", "sha256")


def papers_version(papers: Iterable[Paper]) -> list[str]:
    """What a phone's list is known again by."""
    return [f"{one.id} {one.sha256}" for one in papers]


def _require_place(office: Office, offered: Offered) -> None:
    if not offered.job and not offered.method:
        said = "job, method: found neither. Say which job or which method the instruction belongs to."
        raise Refusal("broken_request", said, "job")
    if offered.job:
        with office.log.reading() as log:
            if log.job(offered.job) is None:
                raise Refusal("unknown_job", "No job here has this id.", "job")
    texts = office.methods.texts(office.methods.digests()) if offered.method else {}
    if offered.method and offered.method not in {json.loads(text)["id"] for text in texts.values()}:
        raise Refusal("unknown_method", "No method here has this id.", "method")


def _checked(file: IO[bytes]) -> tuple[int, str]:
    """Length and digest of what begins and ends as a PDF; nothing of it is ever interpreted here."""
    digest, size, last = hashlib.sha256(), 0, b""
    file.seek(0)
    for chunk in _chunks(file):
        if size == 0 and not chunk.startswith(MAGIC):
            raise Refusal("not_a_pdf", "The file does not begin as a PDF does. Choose the PDF itself.", "")
        digest.update(chunk)
        size += len(chunk)
        last = (last + chunk)[-END_WITHIN:]
    if size > MOST_BYTES:
        raise Refusal("too_large", f"An instruction has at most {MOST_BYTES} bytes, found {size}.")
    if END not in last:
        said = "The file has no end as a PDF has; it may have been cut off. Choose it again."
        raise Refusal("not_a_pdf", said, "")
    return size, digest.hexdigest()


def _chunks(file: IO[bytes]) -> Iterator[bytes]:
    while chunk := file.read(CHUNK):
        yield chunk
