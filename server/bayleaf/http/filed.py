"""Filing a job as a dossier, the register of the filed, and the download of a dossier."""

from __future__ import annotations

from flask import Response, send_file
from marshmallow import Schema, fields

from bayleaf.dossier_ports import FiledDossier
from bayleaf.http import shapes
from bayleaf.http.callers import Callers, calling_office
from bayleaf.http.parts import parts
from bayleaf.http.routes import Routes
from bayleaf.ports import ReadsLog
from bayleaf.usecases.file_job import file_job
from bayleaf.usecases.refusal import Refusal

routes = Routes("filed")
ZIP = "application/zip"


class Reason(Schema):
    """Why it is filed incomplete; empty where nothing is missing."""

    reason = shapes.text(4000)


class Dossier(Schema):
    """A dossier as it was sealed."""

    dossier = fields.String(required=True)
    sha256 = fields.String(required=True)
    seal_fingerprint = fields.String(required=True)
    bytes = fields.Integer(required=True)


class FiledRow(Dossier):
    """A line of the register."""

    job = fields.String(required=True)
    order = fields.String(required=True)
    part = fields.String(required=True)
    filed_ms = fields.Integer(required=True)
    reason = fields.String(required=True)
    file_hash = fields.String(required=True, metadata={"description": "its `file` entry"})
    after_filing = fields.Integer(
        required=True, metadata={"description": "entries that came since; they are not in the dossier"}
    )


class FiledRows(Schema):
    """The register of the filed."""

    filed = fields.List(fields.Nested(FiledRow), required=True)


@routes.on("POST", "/api/jobs/<job>/file", Callers.OFFICE, takes=Reason, gives=Dossier)
def file(job: str, body: dict[str, str]) -> object:
    """File a closed job: seal it as one file that anyone can check."""
    return file_job(parts().office, parts().filing, job, calling_office().id, body["reason"])


@routes.on("GET", "/api/filed", Callers.OFFICE, gives=FiledRows)
def filed() -> dict[str, object]:
    """The register of the filed, the newest first."""
    with parts().office.log.reading() as log:
        register = parts().filing.register.all()
        jobs = {job.id: job for job in log.jobs()}
        later = {one.id: _after_filing(log, one) for one in register}
    rows = []
    for one in register:
        job = jobs.get(one.job)
        rows.append(
            {
                "dossier": one.id,
                "job": one.job,
                "order": job.order if job is not None else "",
                "part": job.part if job is not None else "",
                "sha256": one.sha256,
                "seal_fingerprint": one.seal_fingerprint,
                "filed_ms": one.filed_ms,
                "bytes": parts().filing.dossiers.size(one.id),
                "reason": one.reason,
                "file_hash": one.file_hash,
                "after_filing": later[one.id],
            }
        )
    return {"filed": rows}


def _after_filing(log: ReadsLog, filed: FiledDossier) -> int:
    """By number: a register names a `file` entry of its own store, where numbers never change."""
    named = log.by_hashes(filed.job, [filed.file_hash])
    return sum(len(log.hashes(filed.job)) - one.number for one in named)


@routes.on("GET", "/api/filed/<dossier>/dossier", Callers.OFFICE, media=ZIP)
def download(dossier: str) -> Response:
    """The dossier itself."""
    if parts().filing.register.find(dossier) is None:
        raise Refusal("unknown_dossier", "No dossier here has this id.", "dossier")
    path = parts().filing.dossiers.path(dossier)
    name = f"bayleaf-dossier-{dossier}.zip"
    return send_file(path, mimetype=ZIP, as_attachment=True, download_name=name)
