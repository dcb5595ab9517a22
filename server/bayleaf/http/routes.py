"""Declares a view in one place: path, whom it lets in, what it takes and gives; the document follows."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import wraps
from http import HTTPStatus
from typing import Protocol, TypeVar

from flask import jsonify, request
from flask.typing import ResponseReturnValue
from flask_smorest import Blueprint  # type: ignore[import-untyped]  # the library ships no types
from marshmallow import Schema, fields
from werkzeug.wrappers import Response

from bayleaf.http.callers import Callers, let_in
from bayleaf.http.reading import load, load_body

BODY_LIMIT = 1_000_000
JSON = "application/json"
View = TypeVar("View", bound=Callable[..., object])


class Refused(Schema):
    """Every refusal, whatever its status."""

    code = fields.String(required=True, metadata={"description": "never changes; programs may compare it"})
    message = fields.String(required=True, metadata={"description": "a sentence for whoever can mend it"})
    field = fields.String(required=True, metadata={"description": "the field at fault, or empty"})


class Nothing(Schema):
    """An empty object."""


class MarkedView(Protocol):
    """A view that states whom it lets in."""

    callers: Callers


class Routes:
    """The views of one blueprint. Each is declared by one `on`, so that none can forget its door."""

    def __init__(self, name: str) -> None:
        self.blueprint = Blueprint(name, __name__)

    def on(
        self,
        method: str,
        path: str,
        callers: Callers,
        *,
        takes: type[Schema] | None = None,
        query: type[Schema] | None = None,
        gives: type[Schema] | None = None,
        status: int = 200,
        limit: int = BODY_LIMIT,
        raw: str = "",
        told: type[Schema] | None = None,
        media: str = JSON,
    ) -> Callable[[View], View]:
        """The view gets `body` (by `takes`) and `query` as keywords besides the path's own names.

        It returns a mapping for `gives` to dump, or a finished Response. `raw` is the media type of a body
        that the view reads itself, `told` what the document says of it; `media` is that of the answer.
        """

        def declare(view: View) -> View:
            @wraps(view)
            def guarded(**named: object) -> ResponseReturnValue:
                let_in(callers)
                if takes is not None:
                    named["body"] = load_body(takes(), limit)
                if query is not None:
                    named["query"] = load(query(), request.args.to_dict())
                return _answer(view(**named), gives, status)

            guarded.callers = callers  # type: ignore[attr-defined]  # read back as a MarkedView
            documented = self.blueprint.doc(
                **_document(callers, takes=takes or told, query=query, raw=raw),
                responses=_responses(gives, status, media, callers),
            )(guarded)
            documented.callers = callers
            self.blueprint.route(path, methods=[method])(documented)
            return view

        return declare


def _answer(answer: object, gives: type[Schema] | None, status: int) -> ResponseReturnValue:
    if isinstance(answer, Response):
        return answer
    response = jsonify(gives().dump(answer) if gives is not None else answer)
    response.status_code = status
    return response


def _document(
    callers: Callers, *, takes: type[Schema] | None, query: type[Schema] | None, raw: str
) -> dict[str, object]:
    found: dict[str, object] = {"x-callers": str(callers)}
    if takes is not None:
        found["requestBody"] = {"required": True, "content": {JSON: {"schema": takes}}}
    elif raw:
        found["requestBody"] = {"required": True, "content": {raw: {"schema": {"type": "string"}}}}
    if query is not None:
        found["parameters"] = [{"in": "query", "schema": query}]
    return found


def _responses(gives: type[Schema] | None, status: int, media: str, callers: Callers) -> Mapping[str, object]:
    schema: object = gives if gives is not None else {}
    found: dict[str, object] = {
        str(status): {"description": HTTPStatus(status).phrase, "content": {media: {"schema": schema}}},
        "4XX": {"description": "Refused", "content": {JSON: {"schema": Refused}}},
    }
    if status == HTTPStatus.NO_CONTENT:
        found[str(status)] = {"description": HTTPStatus(status).phrase}
    if callers not in (Callers.EVERYONE, Callers.DEMO):
        found["401"] = {"description": "Nobody is signed in", "content": {JSON: {"schema": Refused}}}
    return found
