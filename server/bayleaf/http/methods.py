"""Methods: their list, their texts, the import from YAML; and the bundle that completes a phone."""

from __future__ import annotations

import base64
import json
from collections.abc import Iterable
from dataclasses import asdict
from typing import Any

from flask import Response, request
from marshmallow import Schema, fields

from bayleaf.door_ports import Person
from bayleaf.http import shapes
from bayleaf.http.callers import Callers
from bayleaf.http.heat_plans import told_to
from bayleaf.http.heat_shapes import JobPlanShape, job_plans
from bayleaf.http.papers import BundlePaper, seen_by
from bayleaf.http.parts import parts
from bayleaf.http.routes import JSON, Routes
from bayleaf.http.sheets import SheetShape
from bayleaf.http.who_calls import any_caller
from bayleaf.http.zipped import json_answer
from bayleaf.method_files import MethodFileFault
from bayleaf.paper_ports import Paper
from bayleaf.usecases.bundle_version import bundle_version
from bayleaf.usecases.heat_plans import JobPlan
from bayleaf.usecases.import_methods import Imported, import_methods
from bayleaf.usecases.method_uses import look_at
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.sheets import sheets_in_use

routes = Routes("methods")
YAML_LIMIT = 2_000_000


class MethodRow(Schema):
    """An issued revision of a method."""

    digest = fields.String(required=True)
    id = fields.String(required=True)
    title = fields.String(required=True)
    revision = fields.String(required=True)
    invented = fields.Boolean(required=True)
    imported_ms = fields.Integer(required=True)


class MethodRows(Schema):
    """All, the newest import first."""

    methods = fields.List(fields.Nested(MethodRow), required=True)


class MethodFile(Schema):
    """A method file as it was written."""

    file = shapes.text(200)
    yaml = shapes.text(YAML_LIMIT, shortest=1)
    drawings = fields.Dict(
        keys=fields.String(),
        values=shapes.text(YAML_LIMIT),
        metadata={"description": "SVG text by the file name that the YAML gives"},
    )


class ImportedMethod(Schema):
    """What came of one method of the file; `known`: this revision was here."""

    digest = fields.String(required=True)
    id = fields.String(required=True)
    title = fields.String(required=True)
    revision = fields.String(required=True)
    known = fields.Boolean(required=True)


class FileRemark(Schema):
    """What the file leaves unsaid at a line, and what was taken for it; no fault."""

    line = fields.Integer(required=True)
    field = fields.String(required=True)
    said = fields.String(required=True)


class ImportedMethods(ImportedMethod):
    """The first method of the file, and all of them; and what the file leaves unsaid."""

    methods = fields.List(fields.Nested(ImportedMethod), required=True)
    remarks = fields.List(fields.Nested(FileRemark), required=True)


class PinVerifierShape(Schema):
    """Enough to check a PIN offline."""

    algorithm = fields.String(required=True)
    iterations = fields.Integer(required=True)
    salt = fields.String(required=True)
    verifier = fields.String(required=True)


class BundlePerson(Schema):
    """A person as phones know them."""

    id = fields.String(required=True)
    name = fields.String(required=True)
    roles = fields.List(fields.String(), required=True)
    qualifications = fields.List(fields.String(), required=True)
    pin = fields.Nested(PinVerifierShape)


class ShelfInstrument(Schema):
    """An instrument in use; `calibrated_until` is a day, empty where nobody knows it."""

    number = fields.String(required=True)
    kind = fields.String(required=True)
    calibrated_until = fields.String(required=True)


class ShelfLotShape(Schema):
    """A lot in use; `expires` is a day, empty where none is printed."""

    material = fields.String(required=True)
    lot = fields.String(required=True)
    expires = fields.String(required=True)


class Shelf(Schema):
    """What phones offer where a step asks for an instrument or a lot, and the sheets they reckon with."""

    instruments = fields.List(fields.Nested(ShelfInstrument), required=True)
    lots = fields.List(fields.Nested(ShelfLotShape), required=True)
    sheets = fields.List(fields.Nested(SheetShape), required=True)


class Bundle(Schema):
    """All that a phone needs to finish its jobs without the network."""

    version = fields.String(required=True)
    people = fields.List(fields.Nested(BundlePerson), required=True)
    methods = fields.Dict(keys=fields.String(), values=fields.String(), required=True)
    drawings = fields.Dict(keys=fields.String(), values=fields.String(), required=True)
    papers = fields.List(fields.Nested(BundlePaper), required=True)
    plans = fields.List(fields.Nested(JobPlanShape), required=True)
    shelf = fields.Nested(Shelf, required=True)


@routes.on("GET", "/api/methods", Callers.OFFICE, gives=MethodRows)
def methods() -> dict[str, object]:
    """Every revision here, the newest import first."""
    store = parts().office.methods
    texts = store.texts(store.digests())
    return {"methods": [_row(digest, texts[digest]) for digest in store.digests()]}


@routes.on("POST", "/api/methods", Callers.OFFICE, takes=MethodFile, gives=ImportedMethods, limit=3_000_000)
def import_file(body: dict[str, Any]) -> dict[str, object]:
    """Compile a method file and keep its methods, all or none; faults come with their lines."""
    drawings = {name: text.encode() for name, text in body.get("drawings", {}).items()}
    found = _imported(body["yaml"], drawings)
    rows = [asdict(one) for one in found]
    remarks = [asdict(remark) for remark in look_at(body["yaml"], drawings).remarks]
    return {**rows[0], "methods": rows, "remarks": remarks}


@routes.on("GET", "/api/methods/<digest>", Callers.SIGNED_IN)
def method(digest: str) -> Response:
    """The canonical text that the digest is of."""
    text = parts().office.methods.texts([digest]).get(digest)
    if text is None:
        raise Refusal("unknown_method", "No method here has this digest.", "digest")
    return _for_ever(Response(text, content_type=JSON))


@routes.on("GET", "/api/drawings/<sha256>", Callers.SIGNED_IN, media="image/svg+xml")
def drawing(sha256: str) -> Response:
    """A drawing; sandboxed, since an SVG opened by itself may hold a script."""
    found = parts().office.methods.drawing(sha256)
    if found is None:
        raise Refusal("not_found", "No drawing here has this hash.", "sha256")
    response = _for_ever(Response(found, content_type="image/svg+xml"))
    response.headers["Content-Security-Policy"] = "default-src 'none'; style-src 'unsafe-inline'; sandbox"
    return response


@routes.on("GET", "/api/bundle", Callers.SIGNED_IN, gives=Bundle)
def bundle() -> Response:
    """People, methods, drawings and what papers there are, in one piece; 304 where the phone has this."""
    papers, plans = seen_by(any_caller()), told_to(any_caller())
    version = bundle_version(parts().office, papers, plans)
    held = request.if_none_match.contains(version)
    response = Response(status=304) if held else json_answer(_told(version, papers, plans))
    response.set_etag(version)
    response.headers["Cache-Control"] = "private, no-cache"
    return response


def _imported(yaml: str, drawings: dict[str, bytes]) -> list[Imported]:
    office = parts().office
    try:
        found = import_methods(office.methods, office.clock, yaml, drawings)
    except MethodFileFault as error:
        faults = [
            {"line": one.line, "message": f"{one.field}: found {one.found}; {one.allowed}"}
            for one in error.faults
        ]
        raise Refusal("method_faults", str(error), "yaml", named={"faults": faults}) from error
    if not found:
        raise Refusal("method_faults", "yaml: found no method in this file.", "yaml", named={"faults": []})
    return found


def _told(version: str, papers: Iterable[Paper], plans: Iterable[JobPlan]) -> dict[str, object]:
    return {"version": version, **_bundle(papers), "plans": job_plans(plans)}


def _bundle(papers: Iterable[Paper]) -> dict[str, object]:
    store = parts().office.methods
    texts = dict(store.texts(store.digests()))
    wanted = {sha for text in texts.values() for sha in json.loads(text)["drawings"].values()}
    drawings = {sha: store.drawing(sha) for sha in sorted(wanted)}
    return {
        "people": [_person(person) for person in parts().doors.people.all()],
        "methods": texts,
        "drawings": {sha: base64.b64encode(svg).decode() for sha, svg in drawings.items() if svg},
        "papers": [_paper(paper) for paper in papers],
        "shelf": _shelf(),
    }


def _shelf() -> dict[str, object]:
    """What is in use: phones offer it by number and lot."""
    stock = parts().office.stock
    return {
        "instruments": [
            {"number": one.number, "kind": one.kind, "calibrated_until": one.calibrated_until}
            for one in stock.instruments()
            if not one.gone
        ],
        "lots": [
            {"material": one.material, "lot": one.lot, "expires": one.expires}
            for one in stock.lots()
            if not one.gone
        ],
        "sheets": [asdict(one) for one in sheets_in_use(stock)],
    }


def _paper(paper: Paper) -> dict[str, object]:
    return {key: getattr(paper, key) for key in ("sha256", "name", "job", "method", "bytes")}


def _person(person: Person) -> dict[str, object]:
    found: dict[str, object] = {
        "id": person.id,
        "name": person.name,
        "roles": list(person.roles),
        "qualifications": list(person.qualifications),
    }
    return {**found, "pin": asdict(person.pin)} if person.pin is not None else found


def _row(digest: str, text: str) -> dict[str, object]:
    document = json.loads(text)
    kept = {key: document[key] for key in ("id", "title", "revision", "invented")}
    return {**kept, "digest": digest, "imported_ms": parts().office.methods.imported_ms(digest)}


def _for_ever(response: Response) -> Response:
    response.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return response
