"""The office's jobs: the board, opening one, what was refused of one, and the office's log."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, fields, validate

from bayleaf.http import shapes
from bayleaf.http.callers import Callers, calling_office
from bayleaf.http.parts import now_ms, parts
from bayleaf.http.routes import Routes
from bayleaf.usecases.filed_list import late_jobs
from bayleaf.usecases.open_job import NewJob, open_job
from bayleaf.usecases.refusal import Refusal

routes = Routes("jobs")
LOG_LINES = 500


class NewJobShape(Schema):
    """A job as the office opens it."""

    order = shapes.text(200, shortest=1)
    vin = shapes.text(200, required=False)
    vehicle = shapes.text(200, required=False)
    part = shapes.text(200, required=False)
    side = fields.String(load_default="none", validate=validate.OneOf(("left", "right", "none")))
    place = shapes.text(200, required=False)
    invented = fields.Boolean(load_default=False)
    methods = fields.List(shapes.hex_digits(64), load_default=list, validate=validate.Length(max=20))
    people = fields.List(shapes.uuid(), load_default=list, validate=validate.Length(max=50))


class JobId(Schema):
    """The job that was opened."""

    job = fields.String(required=True)


class LateJob(Schema):
    """A filed job with entries that its dossier does not hold."""

    job = fields.String(required=True)
    order = fields.String(required=True)
    part = fields.String(required=True)
    after_filing = fields.Integer(required=True)
    late_ms = fields.Integer(required=True, allow_none=True)


class BoardRows(Schema):
    """One row a job that is not filed; see `usecases/board_rows.py` for what of it the fold decides."""

    now_ms = fields.Integer(required=True)
    jobs = fields.List(fields.Dict(), required=True)
    late = fields.List(fields.Nested(LateJob), required=True)


class OrderQuery(Schema):
    """An order number as it is typed."""

    order = shapes.text(200, shortest=1)


class JobOfOrder(Schema):
    """A job that has this order number."""

    job = fields.String(required=True)
    part = fields.String(required=True)
    filed = fields.Boolean(required=True)


class JobsOfOrder(Schema):
    """All of them, the oldest first."""

    jobs = fields.List(fields.Nested(JobOfOrder), required=True)


class RefusedText(Schema):
    """The raw text of an entry that was none."""

    text = fields.String(required=True)
    code = fields.String(required=True)
    message = fields.String(required=True)
    field = fields.String(required=True)
    device = fields.String(required=True)
    received_ms = fields.Integer(required=True)


class AsideMark(Schema):
    """An entry that was set aside."""

    hash = fields.String(required=True)
    code = fields.String(required=True)
    admitted = fields.Boolean(required=True)


class Asides(Schema):
    """What of a job is not folded."""

    asides = fields.List(fields.Nested(AsideMark), required=True)
    refused = fields.List(fields.Nested(RefusedText), required=True)


class LogLine(Schema):
    """Something that the office should look into."""

    at_ms = fields.Integer(required=True)
    device = fields.String(required=True)
    job = fields.String(required=True)
    order = fields.String(required=True)
    text = fields.String(required=True)


class LogLines(Schema):
    """The newest first."""

    lines = fields.List(fields.Nested(LogLine), required=True)


@routes.on("GET", "/api/jobs", Callers.OFFICE, gives=BoardRows)
def board() -> dict[str, object]:
    """The board: jobs that are not filed, and those that were and have entries since."""
    chosen = parts()
    late = late_jobs(chosen.office, chosen.filing)
    return {"now_ms": now_ms(), "jobs": chosen.board.rows(chosen.office), "late": late}


@routes.on("GET", "/api/orders", Callers.OFFICE, query=OrderQuery, gives=JobsOfOrder)
def jobs_of_order(query: dict[str, str]) -> dict[str, object]:
    """Jobs that have this order number already: said when a job is opened, and refused never."""
    with parts().office.log.reading() as log:
        rows = log.of_order(query["order"])
    return {"jobs": [{"job": row.id, "part": row.part, "filed": row.filed_ms is not None} for row in rows]}


@routes.on("POST", "/api/jobs", Callers.OFFICE, takes=NewJobShape, gives=JobId, status=201)
def new_job(body: dict[str, Any]) -> dict[str, object]:
    """Open a job: its opening, methods, people and place in one transaction."""
    return {"job": open_job(parts().office, calling_office(), NewJob(**body))}


@routes.on("GET", "/api/jobs/<job>/asides", Callers.OFFICE, gives=Asides)
def asides(job: str) -> dict[str, object]:
    """What was set aside or refused of a job."""
    with parts().office.log.reading() as log:
        if log.job(job) is None:
            raise Refusal("unknown_job", "No job here has this id.", "job")
        return {"asides": log.asides(job), "refused": log.refused_of(job)}


@routes.on("GET", "/api/office/log", Callers.OFFICE, gives=LogLines)
def office_log() -> dict[str, object]:
    """Reports such as a mismatch, the newest first."""
    office = parts().office
    names = {device.id: device.name for device in parts().doors.devices.all()}
    lines = office.office_log.lines(LOG_LINES)
    with office.log.reading() as log:
        rows = [log.job(job) for job in {line.job for line in lines}]
    orders = {row.id: row.order for row in rows if row is not None}
    return {
        "lines": [
            {
                "at_ms": line.at_ms,
                "device": names.get(line.device, ""),
                "job": line.job,
                "order": orders.get(line.job, ""),
                "text": line.text,
            }
            for line in lines
        ]
    }
