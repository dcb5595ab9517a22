"""Files of loggers: handed in for a run, looked at under a mapping of their columns, read in part by part."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import Any

from flask import Response, request
from marshmallow import Schema, fields, validate

from bayleaf.http import shapes
from bayleaf.http.callers import Callers, calling_office
from bayleaf.http.parts import parts
from bayleaf.http.reading import body_bytes
from bayleaf.http.routes import Routes
from bayleaf.readings_ports import ReadingFile
from bayleaf.usecases.readings_files import Offered, found_file, keep_file, look_at, take_file
from bayleaf.usecases.readings_mapping import map_of
from bayleaf.usecases.readings_table import MOST_BYTES, MOST_LINES, SEPARATORS
from bayleaf.usecases.refusal import Refusal

routes = Routes("readings_files")
CSV = "text/csv"
MOST_COLUMNS = 63


def _column(least: int = 0) -> fields.Integer:
    return fields.Integer(required=True, validate=validate.Range(min=least, max=MOST_COLUMNS))


class FileNamed(Schema):
    """The file's own name, and the run that it is of."""

    name = shapes.name()
    run = shapes.hex_digits(64)


class SensorAt(Schema):
    """A column, counted from 0, and the sensor that it is."""

    column = _column()
    sensor = fields.String(required=True, validate=validate.Length(min=1, max=64))


class Mapped(Schema):
    """What the columns are. `at_on`: the logger's own time at switch-on; `date` -1: no column of its own."""

    logger = fields.String(required=True, validate=validate.Length(max=100))
    separator = fields.String(required=True, validate=validate.OneOf(SEPARATORS))
    decimal = fields.String(required=True, validate=validate.OneOf([".", ","]))
    first_line = fields.Integer(required=True, validate=validate.Range(min=1, max=MOST_LINES))
    time = _column()
    date = _column(-1)
    time_form = fields.String(required=True, validate=validate.OneOf(["clock", "minutes", "seconds"]))
    day_order = fields.String(required=True, validate=validate.OneOf(["ymd", "dmy", "mdy"]))
    unit = fields.String(required=True, validate=validate.OneOf(["C", "F", "K"]))
    at_on = fields.String(required=True, validate=validate.Length(max=60))
    sensors = fields.List(fields.Nested(SensorAt), required=True, validate=validate.Length(max=MOST_COLUMNS))


class Asked(Schema):
    """Look at it under this mapping; without one under a guess, by what was said of the logger before."""

    mapping = fields.Nested(Mapped, load_default=None, allow_none=True)
    logger = fields.String(load_default="", validate=validate.Length(max=100))


class TakePart(Schema):
    """Read it in under this mapping, from this row on."""

    mapping = fields.Nested(Mapped, required=True)
    from_row = fields.Integer(load_default=0, validate=validate.Range(min=0, max=MOST_LINES))


class UnreadRow(Schema):
    """A row, or a cell of it, that could not be read."""

    line = fields.Integer(required=True)
    column = fields.String(required=True)
    found = fields.String(required=True)
    reason = fields.String(required=True)


class SampleLine(Schema):
    """A line as it stands in the file."""

    line = fields.Integer(required=True)
    cells = fields.List(fields.String(), required=True)


class SensorSpan(Schema):
    """What one column holds, in the run's own scale."""

    sensor = fields.String(required=True)
    readings = fields.Integer(required=True)
    low = fields.Integer(required=True)
    high = fields.Integer(required=True)


class WouldRead(Schema):
    """What would come of it. `whole`: moments at which every sensor of the bond was read."""

    rows = fields.Integer(required=True)
    readings = fields.Integer(required=True)
    known = fields.Integer(required=True)
    unread = fields.List(fields.Nested(UnreadRow), required=True)
    unread_total = fields.Integer(required=True)
    before_on = fields.Integer(required=True)
    blank = fields.Integer(required=True)
    first_ms = fields.Integer(required=True)
    last_ms = fields.Integer(required=True)
    whole = fields.Integer(required=True)
    sensors = fields.List(fields.Nested(SensorSpan), required=True)


class Looked(Schema):
    """A file as it would be read; `read` is null while the logger's time at switch-on is unsaid."""

    file = fields.String(required=True)
    sha256 = fields.String(required=True)
    name = fields.String(required=True)
    lines = fields.Integer(required=True)
    headings = fields.List(fields.String(), required=True)
    sample = fields.List(fields.Nested(SampleLine), required=True)
    mapping = fields.Nested(Mapped, required=True)
    remembered = fields.Boolean(required=True)
    on_ms = fields.Integer(required=True)
    decimals = fields.Integer(required=True)
    unit = fields.String(required=True)
    read = fields.Nested(WouldRead, required=True, allow_none=True)


class PartTaken(Schema):
    """How far it is; `next_row` is 0 when all of it is in."""

    rows = fields.Integer(required=True)
    next_row = fields.Integer(required=True)
    readings = fields.Integer(required=True)
    known = fields.Integer(required=True)


class FileRow(Schema):
    """A file of the job. `read_ms` is 0 until it was read in."""

    id = fields.String(required=True)
    sha256 = fields.String(required=True)
    run = fields.String(required=True)
    name = fields.String(required=True)
    bytes = fields.Integer(required=True)
    by = fields.String(required=True)
    added_ms = fields.Integer(required=True)
    logger = fields.String(required=True)
    read_ms = fields.Integer(required=True)
    taken = fields.Integer(required=True)
    unread_total = fields.Integer(required=True)
    unread = fields.List(fields.Nested(UnreadRow), required=True)


class FileRows(Schema):
    """The oldest first; `loggers` are names under which files were read in here before."""

    files = fields.List(fields.Nested(FileRow), required=True)
    loggers = fields.List(fields.String(), required=True)


@routes.on("GET", "/api/jobs/<job>/reading_files", Callers.OFFICE, gives=FileRows)
def files(job: str) -> dict[str, object]:
    """The job's files of readings."""
    store = parts().office.readings
    return {"files": [_row(one) for one in store.files_of(job)], "loggers": list(store.loggers())}


@routes.on(
    "POST",
    "/api/jobs/<job>/reading_files",
    Callers.OFFICE,
    query=FileNamed,
    raw=CSV,
    gives=FileRow,
    status=201,
)
def add(job: str, query: dict[str, Any]) -> dict[str, object]:
    """The body is the file as the logger's program wrote it. It is kept; nothing is read in yet."""
    if request.mimetype != CSV:
        raise Refusal("wrong_type", f"Content-Type: allowed is {CSV}.", "Content-Type")
    offered = Offered(job, query["run"], query["name"], calling_office().id)
    return _row(keep_file(parts().office, offered, body_bytes(MOST_BYTES)))


@routes.on("POST", "/api/reading_files/<file>/look", Callers.OFFICE, takes=Asked, gives=Looked)
def look(file: str, body: dict[str, Any]) -> dict[str, Any]:
    """What would be read, and every line that would not; nothing is written."""
    told = body["mapping"]
    return look_at(parts().office, file, map_of(told) if told else None, body["logger"])


@routes.on("POST", "/api/reading_files/<file>/take", Callers.OFFICE, takes=TakePart, gives=PartTaken)
def take(file: str, body: dict[str, Any]) -> dict[str, object]:
    """Read a part in, and say from which row to go on. The same again adds nothing."""
    mapping = map_of(body["mapping"])
    return asdict(take_file(parts().office, file, mapping, body["from_row"], calling_office().id))


@routes.on("GET", "/api/reading_files/<file>", Callers.OFFICE, media=CSV)
def content(file: str) -> Response:
    """The file as it came, to be saved."""
    office = parts().office
    kept = found_file(office, file)
    response = Response(office.readings.content(kept.sha256), content_type="application/octet-stream")
    response.headers["Content-Disposition"] = f'attachment; filename="{kept.sha256[:16]}.csv"'
    return response


def _row(one: ReadingFile) -> dict[str, object]:
    outcome = json.loads(one.outcome) if one.outcome else {"taken": 0, "unread_total": 0, "unread": []}
    return {**asdict(one), **{name: outcome[name] for name in ("taken", "unread_total", "unread")}}
