"""Makers' instructions as PDF: the office hands them in and takes them away, phones fetch them by hash."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from flask import Response, request, send_file
from marshmallow import Schema, fields

from bayleaf.http import shapes
from bayleaf.http.callers import Callers
from bayleaf.http.parts import parts
from bayleaf.http.reading import body_file
from bayleaf.http.routes import Routes
from bayleaf.http.who_calls import any_caller, own_jobs
from bayleaf.paper_ports import Paper
from bayleaf.ports import Caller
from bayleaf.usecases.papers import (
    MOST_BYTES,
    Offered,
    add_paper,
    papers_of,
    readable_paper,
    remove_paper,
)
from bayleaf.usecases.refusal import Refusal

routes = Routes("papers")
PDF = "application/pdf"
SANDBOX = "default-src 'none'; sandbox"


class PaperShape(Schema):
    """An instruction, and what it belongs to."""

    id = fields.String(required=True)
    sha256 = fields.String(required=True)
    name = fields.String(required=True)
    job = fields.String(required=True)
    method = fields.String(required=True)
    bytes = fields.Integer(required=True)
    added_ms = fields.Integer(required=True)


class BundlePaper(Schema):
    """What a phone is told of an instruction; its bytes are fetched by hash."""

    sha256 = fields.String(required=True)
    name = fields.String(required=True)
    job = fields.String(required=True)
    method = fields.String(required=True)
    bytes = fields.Integer(required=True)


class PaperShapes(Schema):
    """The oldest first."""

    papers = fields.List(fields.Nested(PaperShape), required=True)


class PaperNamed(Schema):
    """What the file is called on the screens, and what it belongs to: a job, a method, or both."""

    name = shapes.name()
    job = shapes.uuid(required=False)
    method = shapes.word(required=False)


@routes.on("GET", "/api/papers", Callers.SIGNED_IN, gives=PaperShapes)
def papers() -> dict[str, object]:
    """All for the office; for a phone those of its jobs and of the methods."""
    return {"papers": [asdict(paper) for paper in seen_by(any_caller())]}


@routes.on("POST", "/api/papers", Callers.OFFICE, query=PaperNamed, raw=PDF, gives=PaperShape, status=201)
def add(query: dict[str, Any]) -> dict[str, object]:
    """The body is the PDF. The same file for the same job and method is kept once."""
    if request.mimetype != PDF:
        raise Refusal("wrong_type", f"Content-Type: allowed is {PDF}.", "Content-Type")
    offered = Offered(query["name"], query.get("job", ""), query.get("method", ""))
    with body_file(MOST_BYTES) as file:
        return asdict(add_paper(parts().office, offered, file))


@routes.on("DELETE", "/api/papers/<string(length=36):paper>", Callers.OFFICE, status=204)
def remove(paper: str) -> Response:
    """Take it from the phones; dossiers that were filed with it keep it."""
    remove_paper(parts().office, paper)
    return Response(status=204)


@routes.on("GET", "/api/papers/<string(length=64):sha256>", Callers.SIGNED_IN, media=PDF)
def paper(sha256: str) -> Response:
    """The PDF's bytes, under its own type and in a sandbox: whatever it holds, nothing of it runs here."""
    office = parts().office
    caller = any_caller()
    found = readable_paper(office, caller, own_jobs(caller), sha256)
    response = send_file(office.papers.path(found.sha256), mimetype=PDF, conditional=True)
    response.headers["Content-Security-Policy"] = SANDBOX
    response.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return response


def seen_by(caller: Caller) -> list[Paper]:
    """The papers that this caller is told of."""
    office = parts().office
    return list(office.papers.all()) if caller.kind == "office" else papers_of(office, own_jobs(caller))
