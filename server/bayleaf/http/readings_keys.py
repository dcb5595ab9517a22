"""The small door of loggers: keys that the office makes and ends, and the rows that a logger posts."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from flask import Response
from marshmallow import Schema, ValidationError, fields, validate, validates_schema

from bayleaf.http import shapes
from bayleaf.http.callers import Callers, calling_logger, calling_office
from bayleaf.http.parts import parts
from bayleaf.http.reading import SAFE_INTEGER
from bayleaf.http.routes import Routes
from bayleaf.readings_ports import LoggerKey
from bayleaf.usecases.readings_keys import Wanted, end_key, make_key, take_post
from bayleaf.usecases.readings_rows import LONGEST_MS

routes = Routes("readings_keys")
MOST_ROWS = 600
MOST_SENSORS = 64


class KeyWanted(Schema):
    """The run that the logger is to write into, and what it is called."""

    run = shapes.hex_digits(64)
    logger = shapes.name()


class KeyRow(Schema):
    """A key. The times are 0 where it was never heard, or not ended."""

    id = fields.String(required=True)
    run = fields.String(required=True)
    logger = fields.String(required=True)
    by = fields.String(required=True)
    made_ms = fields.Integer(required=True)
    ended_ms = fields.Integer(required=True)
    heard_ms = fields.Integer(required=True)
    readings = fields.Integer(required=True)


class KeyMade(KeyRow):
    """A new key with its secret, which is not shown again."""

    key = fields.String(required=True)


class KeyRows(Schema):
    """The oldest first, ended ones too."""

    keys = fields.List(fields.Nested(KeyRow), required=True)


class PostedRow(Schema):
    """One moment: `at_ms` by the logger's own clock, ms since 1970 UTC, or `run_s`, s since switch-on."""

    at_ms = fields.Integer(strict=True, validate=validate.Range(min=0, max=SAFE_INTEGER))
    run_s = fields.Float(validate=validate.Range(min=-LONGEST_MS / 1000, max=LONGEST_MS / 1000))
    readings = fields.Dict(
        keys=fields.String(validate=validate.Length(min=1, max=64)),
        values=fields.Raw(),
        required=True,
        validate=validate.Length(max=MOST_SENSORS),
        metadata={"description": "the figure of each sensor, by its id"},
    )

    @validates_schema
    def one_time(self, data: dict[str, Any], **_named: object) -> None:
        """Exactly one of the two times."""
        if ("at_ms" in data) == ("run_s" in data):
            raise ValidationError("needed is one of at_ms and run_s", "at_ms")


class Posted(Schema):
    """What a logger sends. `clock_ms`: its clock now, so that the office can put its times right."""

    unit = fields.String(load_default="C", validate=validate.OneOf(["C", "F", "K"]))
    clock_ms = fields.Integer(strict=True, validate=validate.Range(min=0, max=SAFE_INTEGER))
    rows = fields.List(
        fields.Nested(PostedRow), required=True, validate=validate.Length(min=1, max=MOST_ROWS)
    )


class NotTakenRow(Schema):
    """A row, counted from 1, or one of its readings, that was not taken."""

    row = fields.Integer(required=True)
    sensor = fields.String(required=True)
    reason = fields.String(required=True)


class PostTaken(Schema):
    """How many readings are new, how many were here, and which could not be taken."""

    taken = fields.Integer(required=True)
    known = fields.Integer(required=True)
    not_taken = fields.List(fields.Nested(NotTakenRow), required=True)


@routes.on("GET", "/api/jobs/<job>/logger_keys", Callers.OFFICE, gives=KeyRows)
def keys(job: str) -> dict[str, object]:
    """The keys of the job's runs; never their secrets."""
    return {"keys": [_row(one) for one in parts().office.readings.keys_of(job)]}


@routes.on("POST", "/api/jobs/<job>/logger_keys", Callers.OFFICE, takes=KeyWanted, gives=KeyMade, status=201)
def make(job: str, body: dict[str, Any]) -> dict[str, object]:
    """Let a logger write into one run. The answer is the only one that shows the key."""
    wanted = Wanted(job, body["run"], body["logger"], calling_office().id)
    made, secret = make_key(parts().office, parts().doors.chance, wanted)
    return {**_row(made), "key": secret}


@routes.on("DELETE", "/api/logger_keys/<key>", Callers.OFFICE, status=204)
def end(key: str) -> Response:
    """End a key; what was written by it stays."""
    end_key(parts().office, key)
    return Response(status=204)


@routes.on("POST", "/api/logger/readings", Callers.LOGGER, takes=Posted, gives=PostTaken)
def post(body: dict[str, Any]) -> dict[str, Any]:
    """Rows of readings, with `Authorization: Bearer <key>`. The same rows again add nothing."""
    return take_post(parts().office, calling_logger(), body)


def _row(one: LoggerKey) -> dict[str, object]:
    return {name: found for name, found in asdict(one).items() if name not in ("key_hash", "job")}
