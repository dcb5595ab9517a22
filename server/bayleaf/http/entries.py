"""A job's entries for the office: its browser pulls them, and writes by kind and body."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields, validate

from bayleaf.http import shapes
from bayleaf.http.callers import Callers, calling_office
from bayleaf.http.parts import parts
from bayleaf.http.reading import SAFE_INTEGER
from bayleaf.http.routes import Routes
from bayleaf.http.sync_shapes import PulledEntry
from bayleaf.http.zipped import json_answer
from bayleaf.usecases.job_reading import read_job
from bayleaf.usecases.write_office_entry import Draft, write_office_entries

routes = Routes("entries")


class After(Schema):
    """The number of the newest entry that the reader holds."""

    after = fields.Integer(load_default=0, validate=validate.Range(min=0, max=SAFE_INTEGER))


class JobEntries(Schema):
    """What is new of a job, and which bytes are here."""

    job = fields.String(required=True)
    log = fields.String(required=True)
    now_ms = fields.Integer(required=True)
    cursor = fields.Integer(required=True)
    more = fields.Boolean(required=True)
    entries = fields.List(fields.Nested(PulledEntry), required=True)
    photos_here = fields.List(fields.String(), required=True)
    thumbs_here = fields.List(fields.String(), required=True)


class OfficeEntry(Schema):
    """What an office person writes; the envelope is the server's."""

    kind = shapes.text(32, shortest=1)
    body = fields.Dict(required=True, metadata={"description": "by the schema of its kind"})


class Written(Schema):
    """The entry as it stands in the log."""

    hash = fields.String(required=True)
    number = fields.Integer(required=True)


@routes.on("GET", "/api/jobs/<job>/entries", Callers.OFFICE, query=After, gives=JobEntries)
def entries(job: str, query: dict[str, int]) -> Response:
    """The entries after a cursor, as they were received."""
    return json_answer(read_job(parts().office, job, query["after"]))


@routes.on("POST", "/api/jobs/<job>/entries", Callers.OFFICE, takes=OfficeEntry, gives=Written, status=201)
def write(job: str, body: dict[str, Any]) -> dict[str, object]:
    """Write an entry of any kind."""
    draft = Draft(body["kind"], body["body"])
    written = write_office_entries(parts().office, job, calling_office().id, [draft])
    return {"hash": written[-1].hash, "number": written[-1].number}
