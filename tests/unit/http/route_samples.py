"""What the walk over the routes asks each of them: a request that is in order, and what is stated of it."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from typing import Any, NamedTuple

from harness.pictures import pdf
from harness.push_service import browser
from harness.server import METHOD_FOLDER
from harness.walk import Walk, tus_creation
from unit.heat.zones import joint

TUS = {"Tus-Resumable": "1.0.0"}
PIECE = {**TUS, "Upload-Offset": "0", "Content-Type": "application/offset+octet-stream"}
NO_JOB = "names no job"

Sample = Callable[[Walk, str], dict[str, Any]]


class Stated(NamedTuple):
    """Whom a route lets in, a request that is in order, its status, and what a phone not on the job gets."""

    door: str
    sample: Sample
    status: int
    foreign: object = NO_JOB


def at(path: str, **named: Any) -> Sample:
    return lambda _walk, _caller: {"path": path, **named}


def sync_body(job: str) -> dict[str, Any]:
    return {"protocol": 1, "log": "", "cursors": {job: 0}, "entries": [], "heads": [], "cards": []}


def reconcile_body(job: str) -> dict[str, Any]:
    return {"protocol": 1, "log": "", "job": job, "hashes": [], "digest": hashlib.sha256(b"").hexdigest()}


def method_file() -> dict[str, Any]:
    return {
        "file": "spine.yaml",
        "yaml": (METHOD_FOLDER / "spine.yaml").read_text(encoding="utf-8"),
        "drawings": {path.name: path.read_text(encoding="utf-8") for path in METHOD_FOLDER.glob("*.svg")},
    }


def new_upload(walked: Walk, _caller: str) -> dict[str, Any]:
    content = walked.new_png()
    sha256 = hashlib.sha256(content).hexdigest()
    return {"path": "/api/photos", "headers": tus_creation(sha256, walked.job, len(content))}


def new_piece(walked: Walk, caller: str) -> dict[str, Any]:
    upload = walked.upload_of(caller, walked.callers[caller]())
    return {"path": f"/api/photos/{upload}", "headers": PIECE, "data": b"\x89PNG"}


def new_thumb(walked: Walk, _caller: str) -> dict[str, Any]:
    content = walked.new_png()
    sha256 = hashlib.sha256(content).hexdigest()
    return {"path": f"/api/thumbs/{sha256}", "data": content, "content_type": "image/png"}


def drawing_file(walked: Walk, _caller: str) -> dict[str, Any]:
    content = (METHOD_FOLDER / "bracket.svg").read_bytes()
    return {"path": f"/api/drawings/{walked.drawing}", "data": content, "content_type": "image/svg+xml"}


def new_paper(walked: Walk, _caller: str) -> dict[str, Any]:
    content = pdf(walked.new_png())
    named = f"name=Instruction&job={walked.job}"
    return {"path": f"/api/papers?{named}", "data": content, "content_type": "application/pdf"}


def kept_paper(walked: Walk) -> dict[str, Any]:
    sample = new_paper(walked, "office")
    kept: dict[str, Any] = walked.server.office().post(sample.pop("path"), **sample).get_json()
    return kept


def kept_zone(walked: Walk, name: str) -> str:
    """The digest of a heat zone, asked to be planned."""
    office = walked.server.office()
    added = office.post("/api/heat/zones", json={"document": joint(id=name)}).get_json()
    office.post("/api/heat/plans", json={"zone": added["digest"]})
    return str(added["digest"])


def new_person(walked: Walk, caller: str) -> dict[str, Any]:
    return {"path": "/api/people", "json": {"name": f"New by {caller} {walked.new_png()[-20]}", "roles": []}}


SUBSCRIPTION = {
    "endpoint": "https://push.example/one",
    "p256dh": browser().p256dh,
    "auth": "AAECAwQFBgcICQoLDA0ODw",
    "runs": True,
    "signs": False,
}


NO_RUN = "0" * 64
MAPPED = {
    "logger": "L", "separator": ",", "decimal": ".", "first_line": 1, "time": 0, "date": -1, "at_on": "0",
    "time_form": "seconds", "day_order": "ymd", "unit": "C", "sensors": [],
}  # fmt: skip


def of_no_run(path: str, **named: Any) -> Sample:
    """About a job of the walk, which has no heat run."""
    return lambda walked, _caller: {"path": path.replace("JOB", walked.job), **named}


def new_instrument(walked: Walk, caller: str) -> dict[str, Any]:
    return {"path": "/api/instruments", "json": {"number": f"T {caller}", "kind": "torque tool"}}


def new_sheet(_walked: Walk, caller: str) -> dict[str, Any]:
    named = {"group": "rivets", "material": "rivets", "name": "Rivet", "sheet": "R", "revision": caller}
    grips = [{"name": "grip_from", "value": "6.5"}, {"name": "grip_to", "value": "8.5"}]
    return {"path": "/api/sheets", "json": {**named, "values": grips}}
