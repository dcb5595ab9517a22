"""The verdict on a job's heat runs, as the entries give it."""

from __future__ import annotations

from dataclasses import asdict

from marshmallow import Schema, fields

from bayleaf.http.callers import Callers
from bayleaf.http.parts import parts
from bayleaf.http.routes import Routes
from bayleaf.usecases.judge_run import verdicts_of_job

routes = Routes("readings_verdict")


class Figure(Schema):
    """A whole number of `unit` / 10^decimals."""

    value = fields.Integer(required=True)
    unit = fields.String(required=True)
    decimals = fields.Integer(required=True)


class JudgedLine(Schema):
    """What was found. `limit` is null where the method sets none."""

    code = fields.String(required=True)
    standing = fields.String(
        required=True,
        metadata={
            "description": "conforming, deviation, not_conforming, not_judged, not_recorded (the act that it "
            "is judged from), pending"
        },
    )
    figure = fields.Nested(Figure, required=True)
    limit = fields.Nested(Figure, required=True, allow_none=True)


class JudgedRun(Schema):
    """A run against its limits. `over`: cold or aborted; before that the verdict is one so far.

    `earlier` are the runs whose minutes of the metal are in the sum.
    """

    run = fields.String(required=True)
    method = fields.String(required=True)
    step = fields.String(required=True)
    zone = fields.String(required=True)
    zone_name = fields.String(required=True)
    purpose = fields.String(required=True)
    on_ms = fields.Integer(required=True)
    over = fields.Boolean(required=True)
    aborted = fields.Boolean(required=True)
    model = fields.String(required=True)
    overall = fields.String(
        required=True,
        metadata={"description": "conforming, conforming_with_deviations, not_conforming or not_judged"},
    )
    lines = fields.List(fields.Nested(JudgedLine), required=True)
    earlier = fields.List(fields.String(), required=True)


class JudgedRuns(Schema):
    """In the order in which they were switched on."""

    verdicts = fields.List(fields.Nested(JudgedRun), required=True)


@routes.on("GET", "/api/jobs/<job>/verdicts", Callers.OFFICE, gives=JudgedRuns)
def verdicts(job: str) -> dict[str, object]:
    """Every heat run of the job against its limits, from its entries."""
    return {"verdicts": [asdict(one) for one in verdicts_of_job(parts().office, job)]}
