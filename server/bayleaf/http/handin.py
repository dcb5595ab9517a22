"""The hand-in: a phone's unsent records, brought to the office as a file."""

from __future__ import annotations

from marshmallow import Schema, fields

from bayleaf.http.callers import Callers
from bayleaf.http.parts import parts
from bayleaf.http.reading import body_file
from bayleaf.http.routes import Routes
from bayleaf.http.who_calls import any_caller
from bayleaf.usecases.hand_in import hand_in

routes = Routes("handin")
FILE_LIMIT = 512_000_000


class HandedIn(Schema):
    """What became of it; `known` was here before, `pictures_refused` are no photos that could be kept."""

    taken = fields.Integer(required=True)
    set_aside = fields.Integer(required=True)
    refused = fields.Integer(required=True)
    known = fields.Integer(required=True)
    photos = fields.Integer(required=True)
    pictures_refused = fields.Integer(required=True)
    jobs = fields.List(fields.String(), required=True)
    devices = fields.List(fields.String(), required=True)


@routes.on("POST", "/api/handin", Callers.OFFICE, raw="application/octet-stream", gives=HandedIn)
def import_file() -> dict[str, object]:
    """Take in the file; a second time changes nothing."""
    with body_file(FILE_LIMIT) as file:
        return hand_in(parts().office, any_caller(), file)
