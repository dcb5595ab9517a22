"""Heat plans: asked for, cancelled, looked at; and pinned to the heat zones of a job's methods."""

from __future__ import annotations

import json
from collections.abc import Collection, Iterable
from dataclasses import dataclass

from bayleaf.domain.method import method_of
from bayleaf.heat.model import MODEL_ID
from bayleaf.heat_ports import DONE, PinnedPlan, PlanRow
from bayleaf.ports import Caller, JobRow, ReadsLog
from bayleaf.step_computations.plans import ZonePlan, figures_of
from bayleaf.usecases.heat_zones import standing, zone_here
from bayleaf.usecases.office import Office
from bayleaf.usecases.refusal import Refusal


@dataclass(frozen=True)
class Place:
    """A heat zone of a method, in a job."""

    job: str
    method: str
    zone: str


@dataclass(frozen=True)
class JobPlan:
    """The plan that a job's method uses for one of its heat zones; `name` is the zone document's."""

    pin: PinnedPlan
    row: PlanRow
    name: str


def ask_plan(office: Office, digest: str) -> PlanRow:
    """Waiting, unless it is under way or done. Refusal: unknown_zone."""
    zone_here(office, digest)
    return office.heat.ask(digest, MODEL_ID, office.clock.now_ms())


def plan_here(office: Office, digest: str) -> PlanRow:
    """Refusal: unknown_plan."""
    row = standing(office, digest)
    if row is None:
        raise Refusal("unknown_plan", "Nobody has asked for a plan of this zone yet.", "digest")
    return row


def cancel_plan(office: Office, digest: str) -> PlanRow:
    """What is done stays done. Refusal: unknown_plan."""
    row = plan_here(office, digest)
    return office.heat.cancel(digest, row.model, office.clock.now_ms()) or row


def field_of(office: Office, digest: str) -> bytes:
    """The temperature field, gzipped. Refusals: unknown_plan; not_planned."""
    row = plan_here(office, digest)
    _require_done(row)
    return office.heat.field(digest, row.model)


def response_of(office: Office, caller: Caller, jobs: Collection[str], sha256: str) -> bytes:
    """For the office, and for a phone whose jobs use it. Refusal: not_found."""
    told = caller.kind == "office" or any(p.row.response_sha256 == sha256 for p in plans_of(office, jobs))
    found = office.heat.response(sha256) if told else b""
    if not found:
        raise Refusal("not_found", "No response set of this hash is here for this caller.", "sha256")
    return found


def pin_plan(office: Office, place: Place, digest: str, by: str) -> JobPlan:
    """The job's method uses this plan from now on; what it used before ends.

    Refusals: unknown_job; already_filed; unknown_method; unknown_zone; unknown_plan; not_planned.
    """
    _require_place(office, place)
    zone, row = zone_here(office, digest), plan_here(office, digest)
    _require_done(row)
    now_ms = office.clock.now_ms()
    for one in plans_of(office, [place.job]):
        if (one.pin.method, one.pin.zone, one.row) == (place.method, place.zone, row):
            return one
    pin = PinnedPlan(
        id=office.ids.uuid(),
        job=place.job,
        method=place.method,
        zone=place.zone,
        digest=digest,
        model=row.model,
        pinned_ms=now_ms,
        by=by,
    )
    office.heat.pin(pin)
    return JobPlan(pin, row, zone.name)


def unpin_plan(office: Office, place: Place) -> None:
    """Refusals: unknown_job; already_filed; not_found."""
    _require_open(office, place.job)
    if not office.heat.unpin(place.job, place.method, place.zone, office.clock.now_ms()):
        raise Refusal("not_found", "No plan is pinned there.", "zone")


def plans_of(office: Office, jobs: Collection[str], *, ended: bool = False) -> list[JobPlan]:
    """What these jobs use; `ended`: and what they used before."""
    pins = [one for one in office.heat.pins(jobs) if ended or one.ended_ms == 0]
    if not pins:
        return []
    digests = {one.digest for one in pins}
    rows = {(row.digest, row.model): row for row in office.heat.plans(digests)}
    names = office.heat.names(digests)
    found = [(pin, rows.get((pin.digest, pin.model)), names.get(pin.digest)) for pin in pins]
    return [JobPlan(pin, row, name) for pin, row, name in found if row is not None and name is not None]


def plans_of_job(office: Office, job: str) -> list[JobPlan]:
    """What this job uses. Refusal: unknown_job."""
    _job_here(office, job)
    return plans_of(office, [job])


def zone_plans(office: Office, job: str) -> list[ZonePlan]:
    """The same as steps' computations know them."""
    return [
        ZonePlan(
            method=one.pin.method,
            zone=one.pin.zone,
            plan=one.pin.digest,
            sha256=one.row.response_sha256,
            figures=figures_of(json.loads(one.row.figures)),
        )
        for one in plans_of(office, [job])
    ]


def plans_version(plans: Iterable[JobPlan]) -> list[str]:
    """What a phone's list is known again by."""
    return [f"{one.pin.id} {one.row.response_sha256}" for one in plans]


def _require_done(row: PlanRow) -> None:
    if row.state != DONE:
        raise Refusal("not_planned", f"The plan is {row.state}. Wait until it is done.", "digest")


def _require_place(office: Office, place: Place) -> None:
    _require_open(office, place.job)
    with office.log.reading() as log:
        digests = _pinned_methods(log, place.job)
    methods = [method_of(json.loads(text)) for text in office.methods.texts(digests).values()]
    method = next((one for one in methods if one.id == place.method), None)
    if method is None:
        raise Refusal("unknown_method", "The job has no method of this id.", "method")
    if method.zone(place.zone) is None:
        raise Refusal("unknown_zone", "The method has no heat zone of this id.", "zone")


def _require_open(office: Office, job: str) -> None:
    if _job_here(office, job).filed_ms is not None:
        raise Refusal("already_filed", "The job is filed: its plans are what its dossier holds.", "job")


def _job_here(office: Office, job: str) -> JobRow:
    with office.log.reading() as log:
        row = log.job(job)
    if row is None:
        raise Refusal("unknown_job", "No job here has this id.", "job")
    return row


def _pinned_methods(log: ReadsLog, job: str) -> list[str]:
    pins = log.of_kinds(job, ("pin",))
    found: list[str] = json.loads(pins[-1].text)["body"]["methods"] if pins else []
    return found
