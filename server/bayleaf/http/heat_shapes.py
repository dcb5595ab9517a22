"""What the heat routes take and give."""

from __future__ import annotations

import json
from collections.abc import Iterable

from marshmallow import Schema, fields, validate

from bayleaf.http import shapes
from bayleaf.usecases.heat_plans import JobPlan

STATES = ("none", "waiting", "running", "done", "failed", "cancelled")
LONGEST_ZONE = 200_000


class ZoneGiven(Schema):
    """A zone document: as text that a person wrote (YAML or JSON), or as the JSON itself."""

    text = shapes.text(LONGEST_ZONE, shortest=1, required=False)
    document = fields.Dict(keys=fields.String(), metadata={"description": "instead of `text`"})


class ZoneAdded(Schema):
    """Kept, or known already; what the document leaves out, in sentences."""

    digest = fields.String(required=True)
    remarks = fields.List(fields.String(), required=True)
    known = fields.Boolean(required=True)


class ZoneFaultShape(Schema):
    """Where the document is wrong; `line` from 1, where a person wrote it."""

    line = fields.Integer()
    field = fields.String(required=True)
    mend = fields.String(required=True)


class ZoneRow(Schema):
    """A zone; `state` and `sentence` are its plan's, `jobs` use it now."""

    digest = fields.String(required=True)
    id = fields.String(required=True)
    name = fields.String(required=True)
    invented = fields.Boolean(required=True)
    added_ms = fields.Integer(required=True)
    by = fields.String(required=True)
    state = fields.String(required=True, validate=validate.OneOf(STATES))
    sentence = fields.String(required=True)
    jobs = fields.List(fields.String(), required=True)


class ZoneRows(Schema):
    """The newest first."""

    zones = fields.List(fields.Nested(ZoneRow), required=True)


class PlanState(Schema):
    """How a plan stands; `share` is from 0 to 1. `current`: by the model of this program."""

    digest = fields.String(required=True)
    state = fields.String(required=True, validate=validate.OneOf(STATES))
    doing = fields.String(required=True)
    share = fields.Float(required=True)
    sentence = fields.String(required=True)
    model = fields.String(required=True)
    current = fields.Boolean(required=True)
    asked_ms = fields.Integer(required=True)
    done_ms = fields.Integer(required=True)


class PlanShape(PlanState):
    """With what it answered, once it is done, or why it failed."""

    answer = fields.Raw(metadata={"description": "as `bayleaf heat plan --json` gives it; only when done"})
    faults = fields.List(fields.Nested(ZoneFaultShape), required=True)
    response_sha256 = fields.String(required=True)
    response_bytes = fields.Integer(required=True)


class ZoneShape(Schema):
    """A zone as it was handed in, what it spells, and how its plan stands."""

    digest = fields.String(required=True)
    id = fields.String(required=True)
    name = fields.String(required=True)
    invented = fields.Boolean(required=True)
    added_ms = fields.Integer(required=True)
    by = fields.String(required=True)
    text = fields.String(required=True)
    document = fields.Raw(required=True)
    remarks = fields.List(fields.String(), required=True)
    plan = fields.Nested(PlanState, required=True)


class PlanAsked(Schema):
    """Which zone to plan."""

    zone = shapes.hex_digits(64)


class PlanPinned(Schema):
    """Which plan a heat zone of a method uses in this job; `plan` is the zone document's digest."""

    method = fields.String(required=True, validate=validate.Regexp(r"[a-z0-9_-]{1,64}\Z"))
    zone = fields.String(required=True, validate=validate.Regexp(r"[a-z0-9_-]{1,64}\Z"))
    plan = shapes.hex_digits(64)


class FieldLayer(Schema):
    """One layer of the field, see `bayleaf.heat.field`."""

    id = fields.String(required=True)
    name = fields.String(required=True)
    role = fields.String(required=True)
    shown = fields.List(fields.List(fields.Integer()), required=True)
    frames = fields.List(fields.List(fields.Integer()), required=True)


class FieldShape(Schema):
    """The temperatures over the zone and time, in tenths of a degree, as differences frame by frame."""

    x_mm = fields.List(fields.Float(), required=True)
    y_mm = fields.List(fields.Float(), required=True)
    t_min = fields.List(fields.Float(), required=True)
    layers = fields.List(fields.Nested(FieldLayer), required=True)
    lowest_dC = fields.Integer(required=True)
    highest_dC = fields.Integer(required=True)


class JobPlanShape(Schema):
    """A plan that a job uses; `sha256` and `bytes` are those of its response set, gzipped."""

    job = fields.String(required=True)
    method = fields.String(required=True)
    zone = fields.String(required=True)
    plan = fields.String(required=True)
    sha256 = fields.String(required=True)
    bytes = fields.Integer(required=True)
    name = fields.String(required=True)
    sentence = fields.String(required=True)
    figures = fields.Raw(required=True, metadata={"description": "what a step's computation shows of it"})
    pinned_ms = fields.Integer(required=True)


class JobPlans(Schema):
    """By method and zone."""

    plans = fields.List(fields.Nested(JobPlanShape), required=True)


def job_plan(one: JobPlan) -> dict[str, object]:
    """A row of JobPlans."""
    return {
        "job": one.pin.job,
        "method": one.pin.method,
        "zone": one.pin.zone,
        "plan": one.pin.digest,
        "sha256": one.row.response_sha256,
        "bytes": one.row.response_bytes,
        "name": one.name,
        "sentence": one.row.sentence,
        "figures": json.loads(one.row.figures),
        "pinned_ms": one.pin.pinned_ms,
    }


def job_plans(found: Iterable[JobPlan]) -> list[dict[str, object]]:
    """In an order of its own: by job, method and zone."""
    return [job_plan(one) for one in sorted(found, key=lambda o: (o.pin.job, o.pin.method, o.pin.zone))]
