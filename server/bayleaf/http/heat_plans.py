"""Heat plans: asked for and watched by the office, pinned to jobs; response sets for phones, by hash."""

from __future__ import annotations

import gzip
import json
from typing import Any

from flask import Response, request

from bayleaf.heat_ports import PlanRow
from bayleaf.http.callers import Callers, calling_office
from bayleaf.http.heat_shapes import FieldShape, JobPlans, JobPlanShape, PlanAsked, PlanPinned, PlanShape
from bayleaf.http.heat_shapes import job_plan as shape_of
from bayleaf.http.heat_shapes import job_plans as shapes_of
from bayleaf.http.heat_zones import DIGEST, plan_state
from bayleaf.http.parts import parts
from bayleaf.http.routes import JSON, Routes
from bayleaf.http.who_calls import any_caller, own_jobs
from bayleaf.ports import Caller
from bayleaf.usecases.heat_plans import (
    JobPlan,
    Place,
    ask_plan,
    cancel_plan,
    field_of,
    pin_plan,
    plan_here,
    plans_of,
    plans_of_job,
    response_of,
    unpin_plan,
)

routes = Routes("heat_plans")
GZIP = "application/gzip"


@routes.on("POST", "/api/heat/plans", Callers.OFFICE, takes=PlanAsked, gives=PlanShape, status=202)
def ask(body: dict[str, Any]) -> dict[str, object]:
    """Plan a zone, outside this request. What was planned before is answered from the store."""
    return _plan(ask_plan(parts().office, body["zone"]))


@routes.on("GET", f"/api/heat/plans/{DIGEST}", Callers.OFFICE, gives=PlanShape)
def plan(digest: str) -> dict[str, object]:
    """How far it is, and what it answered."""
    return _plan(plan_here(parts().office, digest))


@routes.on("DELETE", f"/api/heat/plans/{DIGEST}", Callers.OFFICE, gives=PlanShape)
def cancel(digest: str) -> dict[str, object]:
    """Stop what waits or runs; what is done stays."""
    return _plan(cancel_plan(parts().office, digest))


@routes.on("GET", f"/api/heat/plans/{DIGEST}/field", Callers.OFFICE, gives=FieldShape)
def field(digest: str) -> Response:
    """The temperature field over time, for a picture that plays."""
    packed = field_of(parts().office, digest)
    response = Response(content_type=JSON, headers={"Vary": "Accept-Encoding"})
    zipped = request.accept_encodings["gzip"] > 0
    response.set_data(packed if zipped else gzip.decompress(packed))
    if zipped:
        response.headers["Content-Encoding"] = "gzip"
    response.headers["Cache-Control"] = "private, no-cache"
    return response


@routes.on("GET", "/api/jobs/<job>/heat_plans", Callers.OFFICE, gives=JobPlans)
def of_job(job: str) -> dict[str, object]:
    """Which plan each heat zone of the job's methods uses."""
    return {"plans": shapes_of(plans_of_job(parts().office, job))}


@routes.on(
    "POST", "/api/jobs/<job>/heat_plans", Callers.OFFICE, takes=PlanPinned, gives=JobPlanShape, status=201
)
def pin(job: str, body: dict[str, Any]) -> dict[str, object]:
    """Phones of the job fetch the plan's response set; a plan that was pinned there before ends."""
    place = Place(job, body["method"], body["zone"])
    return shape_of(pin_plan(parts().office, place, body["plan"], calling_office().id))


@routes.on("DELETE", "/api/jobs/<job>/heat_plans/<method>/<zone>", Callers.OFFICE, status=204)
def unpin(job: str, method: str, zone: str) -> Response:
    """The run counts by the method's own times again."""
    unpin_plan(parts().office, Place(job, method, zone))
    return Response(status=204)


@routes.on("GET", "/api/heat/responses/<string(length=64):sha256>", Callers.SIGNED_IN, media=GZIP)
def response(sha256: str) -> Response:
    """A response set as it is kept: gzipped JSON, whose bytes have this hash."""
    office, caller = parts().office, any_caller()
    found = Response(response_of(office, caller, own_jobs(caller), sha256), content_type=GZIP)
    found.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return found


def told_to(caller: Caller) -> list[JobPlan]:
    """The plans that this caller's bundle names: of its own jobs, for the office of the open ones."""
    office = parts().office
    if caller.kind != "office":
        return plans_of(office, own_jobs(caller))
    with office.log.reading() as log:
        jobs = [row.id for row in log.open_jobs()]
    return plans_of(office, jobs)


def _plan(row: PlanRow) -> dict[str, object]:
    answer = parts().office.heat.answer(row.digest, row.model)
    return {
        **plan_state(row.digest, row),
        **({"answer": json.loads(answer)} if answer else {}),
        "faults": [{"field": "", "mend": row.fault}] if row.fault else [],
        "response_sha256": row.response_sha256,
        "response_bytes": row.response_bytes,
    }
