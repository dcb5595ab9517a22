"""The OpenAPI 3.1 document, made from what the routes state, and the health of the server."""

from __future__ import annotations

from collections.abc import Iterable

from flask import Flask, Response, current_app, jsonify
from flask_smorest import Api  # type: ignore[import-untyped]  # the library ships no types
from marshmallow import Schema, fields

from bayleaf.http.callers import Callers
from bayleaf.http.doors import store_log
from bayleaf.http.refused_by import say_refusals
from bayleaf.http.routes import Routes
from bayleaf.wire.document import describe_entries

routes = Routes("about")
API_KEY = "bayleaf-api"


class Health(Schema):
    """The store answers."""

    ok = fields.Boolean(required=True)


@routes.on("GET", "/api/openapi.json", Callers.EVERYONE)
def document() -> Response:
    """This document."""
    return jsonify(say_refusals(current_app.extensions[API_KEY].spec.to_dict()))


@routes.on("GET", "/api/health", Callers.EVERYONE, gives=Health)
def health() -> dict[str, object]:
    """Whether the server can read its store."""
    return {"ok": bool(store_log())}


def register(app: Flask, declared: Iterable[Routes]) -> None:
    """Register every view, in the app and in the document."""
    app.config.update(
        API_TITLE="Bayleaf",
        API_VERSION="1",
        OPENAPI_VERSION="3.1.0",
    )
    api = Api(app)
    for one in declared:
        api.register_blueprint(one.blueprint)
    describe_entries(api.spec)
    app.extensions[API_KEY] = api
