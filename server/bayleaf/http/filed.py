"""Filing a job as a dossier and its addenda, the register of the filed, and what of a dossier is served."""

from __future__ import annotations

from typing import Any

from flask import Response, send_file
from marshmallow import Schema, fields, validate

from bayleaf.domain import dossier as layout
from bayleaf.http import shapes
from bayleaf.http.callers import Callers, calling_office
from bayleaf.http.parts import parts
from bayleaf.http.reading import SAFE_INTEGER
from bayleaf.http.routes import Routes
from bayleaf.usecases.file_job import file_addendum, file_job
from bayleaf.usecases.filed_list import Asked, filed_of_job, search_filed
from bayleaf.usecases.refusal import Refusal

routes = Routes("filed")
ZIP = "application/zip"
PDF = "application/pdf"
REPORTS = (("data/report.pdf", PDF), (layout.REPORT, "text/plain; charset=utf-8"))


class Reason(Schema):
    """Why it is filed incomplete; empty where nothing is missing."""

    reason = shapes.text(4000)


class Dossier(Schema):
    """A dossier as it was sealed."""

    dossier = fields.String(required=True)
    sha256 = fields.String(required=True)
    seal_fingerprint = fields.String(required=True)
    bytes = fields.Integer(required=True)


class SealedDossier(Dossier):
    """A dossier of the register."""

    filed_ms = fields.Integer(required=True)
    reason = fields.String(required=True)


class FoundBy(Schema):
    """What a search found it by: which kind of word, and how it was written."""

    field = fields.String(required=True)
    said = fields.String(required=True)


class FiledRow(SealedDossier):
    """A filed job: its newest dossier, those before it, and what came since."""

    job = fields.String(required=True)
    order = fields.String(required=True)
    vin = fields.String(required=True)
    vehicle = fields.String(required=True)
    part = fields.String(required=True)
    file_hash = fields.String(required=True, metadata={"description": "its `file` entry"})
    after_filing = fields.Integer(
        required=True, metadata={"description": "entries that came since; they are not in the dossier"}
    )
    late_ms = fields.Integer(required=True, allow_none=True, metadata={"description": "when the first came"})
    earlier = fields.List(
        fields.Nested(SealedDossier),
        required=True,
        metadata={"description": "dossiers that this one supersedes, the newest first"},
    )
    found_by = fields.List(fields.Nested(FoundBy), required=True)


class FiledRows(Schema):
    """A page of the register, the newest first; `more`: ask on with the last dossier in `after`."""

    filed = fields.List(fields.Nested(FiledRow), required=True)
    more = fields.Boolean(required=True)


class FiledOfJob(Schema):
    """Nothing, or the one row of this job."""

    filed = fields.List(fields.Nested(FiledRow), required=True)


class FiledQuery(Schema):
    """Every word has to be found: in VIN, order, part, vehicle or lot, or as a person's name."""

    words = shapes.text(200, required=False)
    from_ms = fields.Integer(load_default=0, validate=validate.Range(min=0, max=SAFE_INTEGER))
    until_ms = fields.Integer(load_default=SAFE_INTEGER, validate=validate.Range(min=0, max=SAFE_INTEGER))
    after = fields.String(load_default="", validate=validate.Length(max=36))


@routes.on("POST", "/api/jobs/<job>/file", Callers.OFFICE, takes=Reason, gives=Dossier)
def file(job: str, body: dict[str, str]) -> object:
    """File a closed job: seal it as one file that anyone can check."""
    return file_job(parts().office, parts().filing, job, calling_office().id, body["reason"])


@routes.on("POST", "/api/jobs/<job>/addendum", Callers.OFFICE, takes=Reason, gives=Dossier)
def addendum(job: str, body: dict[str, str]) -> object:
    """File what came after filing: a second dossier, whole, that names the first; the first stays."""
    return file_addendum(parts().office, parts().filing, job, calling_office().id, body["reason"])


@routes.on("GET", "/api/jobs/<job>/filed", Callers.OFFICE, gives=FiledOfJob)
def filed_job(job: str) -> dict[str, object]:
    """How one job stands in the register."""
    return {"filed": filed_of_job(parts().office, parts().filing, job)}


@routes.on("GET", "/api/filed", Callers.OFFICE, query=FiledQuery, gives=FiledRows)
def filed(query: dict[str, Any]) -> dict[str, object]:
    """The register of the filed, the newest first, or what of it a search finds."""
    asked = Asked(query.get("words", ""), query["from_ms"], query["until_ms"], query["after"])
    return search_filed(parts().office, parts().filing, asked)


@routes.on("GET", "/api/filed/<dossier>/dossier", Callers.OFFICE, media=ZIP)
def download(dossier: str) -> Response:
    """The dossier itself."""
    _require_dossier(dossier)
    path = parts().filing.dossiers.path(dossier)
    name = f"bayleaf-dossier-{dossier}.zip"
    return send_file(path, mimetype=ZIP, as_attachment=True, download_name=name)


@routes.on("GET", "/api/filed/<dossier>/report", Callers.OFFICE, media=PDF)
def report(dossier: str) -> Response:
    """The report out of the dossier, as it was sealed."""
    _require_dossier(dossier)
    for name, media in REPORTS:
        found = parts().filing.dossiers.read(dossier, name)
        if found is not None:
            ending = name.rpartition(".")[2]
            disposition = f'inline; filename="bayleaf-report-{dossier}.{ending}"'
            return Response(found, content_type=media, headers={"Content-Disposition": disposition})
    raise Refusal("unknown_dossier", "The dossier's file is not here.", "dossier")


def _require_dossier(dossier: str) -> None:
    if parts().filing.register.find(dossier) is None:
        raise Refusal("unknown_dossier", "No dossier here has this id.", "dossier")
