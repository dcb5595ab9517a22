"""Method files around their import: a check that keeps nothing, the YAML, who pins it, the guide."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import Any

from flask import Response
from marshmallow import Schema, fields

from bayleaf.http.callers import Callers
from bayleaf.http.methods import FileRemark, MethodFile
from bayleaf.http.parts import parts
from bayleaf.http.routes import Routes
from bayleaf.seed_folder import SEED_FOLDER
from bayleaf.usecases.method_uses import jobs_pinning, known, look_at
from bayleaf.usecases.refusal import Refusal

routes = Routes("method_files")
YAML = "application/yaml"
MARKDOWN = "text/markdown"
GUIDE = SEED_FOLDER / "methods" / "writing_a_method.md"


class FileFault(Schema):
    """Where the file is wrong: its line from 1 (0: the whole file), what was found, what mends it."""

    line = fields.Integer(required=True)
    field = fields.String(required=True)
    found = fields.String(required=True)
    allowed = fields.String(required=True)


class CheckedMethod(Schema):
    """A method that the import would keep; `known`: this revision is here already."""

    digest = fields.String(required=True)
    id = fields.String(required=True)
    title = fields.String(required=True)
    revision = fields.String(required=True)
    steps = fields.Integer(required=True)
    known = fields.Boolean(required=True)


class CheckedFile(Schema):
    """Either methods with remarks, or faults."""

    methods = fields.List(fields.Nested(CheckedMethod), required=True)
    remarks = fields.List(fields.Nested(FileRemark), required=True)
    faults = fields.List(fields.Nested(FileFault), required=True)


class PinningJob(Schema):
    """A job that pins this revision; `now` is false where it has been given another since."""

    job = fields.String(required=True)
    order = fields.String(required=True)
    vehicle = fields.String(required=True)
    part = fields.String(required=True)
    filed_ms = fields.Integer(required=True, metadata={"description": "0 while it is open"})
    now = fields.Boolean(required=True)


class PinningJobs(Schema):
    """The newest pin first."""

    jobs = fields.List(fields.Nested(PinningJob), required=True)


@routes.on("POST", "/api/methods/check", Callers.OFFICE, takes=MethodFile, gives=CheckedFile, limit=3_000_000)
def check(body: dict[str, Any]) -> dict[str, object]:
    """Look at a method file as the import would; nothing is kept, and faults are no refusal here."""
    drawings = {name: text.encode() for name, text in body.get("drawings", {}).items()}
    looked = look_at(body["yaml"], drawings)
    held = known(parts().office.methods, [one.digest for one in looked.methods])
    return {
        "methods": [_row(one.digest, one.document, held) for one in looked.methods],
        "remarks": [asdict(remark) for remark in looked.remarks],
        "faults": [asdict(fault) for fault in looked.faults],
    }


@routes.on("GET", "/api/methods/<digest>/yaml", Callers.OFFICE, media=YAML)
def yaml(digest: str) -> Response:
    """The method file as it was imported; other methods of the same file are in it too."""
    store = parts().office.methods
    text = store.texts([digest]).get(digest)
    if text is None:
        raise Refusal("unknown_method", "No method here has this digest.", "digest")
    written = store.yaml(digest)
    if written == "":
        raise Refusal("not_found", "This method came back from a phone, which has no file of it.", "digest")
    response = Response(written, content_type=f"{YAML}; charset=utf-8")
    response.headers.set("Content-Disposition", "attachment", filename=f"{json.loads(text)['id']}.yaml")
    return response


@routes.on("GET", "/api/methods/<digest>/jobs", Callers.OFFICE, gives=PinningJobs)
def pinning(digest: str) -> dict[str, object]:
    """Which jobs pin this revision, or did."""
    return {"jobs": [asdict(one) for one in jobs_pinning(parts().office, digest)]}


@routes.on("GET", "/api/method-guide", Callers.OFFICE, media=MARKDOWN)
def guide() -> Response:
    """The page that teaches how a method is written."""
    return Response(GUIDE.read_text(encoding="utf-8"), content_type=f"{MARKDOWN}; charset=utf-8")


def _row(digest: str, document: dict[str, Any], held: set[str]) -> dict[str, object]:
    kept = {key: document[key] for key in ("id", "title", "revision")}
    steps = sum(len(stage["steps"]) for stage in document["stages"])
    return {**kept, "digest": digest, "steps": steps, "known": digest in held}
