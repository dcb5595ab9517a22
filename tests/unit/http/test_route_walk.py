"""One walk over every route in every role, with a foreign job, a revoked device, a used and an old code.

The table below states each route; a route that states nothing fails the walk.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from bayleaf.usecases.pairing import CODE_MS
from harness.doors import PASSWORD
from harness.pictures import pdf
from harness.push_service import browser
from harness.server import METHOD_FOLDER, error_of
from harness.walk import NOBODY_ID, TECHNICIANS_ORIGIN, Walk, tus_creation, walk
from unit.heat.zones import joint

CALLERS = ("nobody", "waiting", "technician", "photographer", "office", "revoked")
TUS = {"Tus-Resumable": "1.0.0"}
PIECE = {**TUS, "Upload-Offset": "0", "Content-Type": "application/offset+octet-stream"}
NO_JOB = "names no job"

LET_IN = {
    "everyone": set(CALLERS),
    "waiting": {"waiting", "technician", "photographer"},
    "device": {"technician", "photographer"},
    "office": {"office"},
    "signed_in": {"technician", "photographer", "office"},
    "logger": set(),  # by a key alone: tests/unit/readings/test_door.py
}
TURNED_AWAY = {
    "nobody": (401, "no_login"),
    "waiting": (403, "not_paired"),
    "technician": (403, "wrong_door"),
    "photographer": (403, "wrong_door"),
    "office": (403, "wrong_door"),
    "revoked": (403, "revoked_device"),
}

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


LOGIN = {"name": "A office", "password": PASSWORD}
ROUTES: dict[str, Stated] = {
    "GET /": Stated("everyone", at("/"), 200),
    "GET /<page:path>": Stated("everyone", at("/job/any"), 200),
    "GET /api/openapi.json": Stated("everyone", at("/api/openapi.json"), 200),
    "GET /api/health": Stated("everyone", at("/api/health"), 200),
    "GET /api/me": Stated("everyone", at("/api/me"), 200),
    "GET /api/demo": Stated("everyone", at("/api/demo"), 200),
    "POST /api/demo/pair": Stated("everyone", at("/api/demo/pair", json={"public_key": "00" * 65}), 404),
    "POST /api/office/login": Stated("everyone", at("/api/office/login", json=LOGIN), 200),
    "POST /api/office/logout": Stated("office", at("/api/office/logout", json={}), 200),
    "POST /api/pair/claim": Stated(
        "everyone", lambda walked, _: {"path": "/api/pair/claim", "json": walked.claim(walked.code())}, 200
    ),
    "GET /api/pair/state": Stated("waiting", at("/api/pair/state"), 200),
    "POST /api/door/challenge": Stated(
        "everyone", at("/api/door/challenge", json={"device": NOBODY_ID}), 200
    ),
    "POST /api/door/renew": Stated(
        "everyone",
        at("/api/door/renew", json={"device": NOBODY_ID, "nonce": "x", "signature": "0" * 128}),
        403,
    ),
    "POST /api/pair/codes": Stated(
        "office",
        lambda walked, _: {"path": "/api/pair/codes", "json": {"person": walked.server.people["technician"]}},
        201,
    ),
    "POST /api/pair/<device>/confirm": Stated(
        "office", lambda walked, _: {"path": f"/api/pair/{walked.waiting_device()}/confirm", "json": {}}, 200
    ),
    "POST /api/pair/<device>/refuse": Stated(
        "office", lambda walked, _: {"path": f"/api/pair/{walked.waiting_device()}/refuse", "json": {}}, 200
    ),
    "GET /api/devices": Stated("office", at("/api/devices"), 200),
    "POST /api/devices/<device>/revoke": Stated(
        "office",
        lambda walked, _: {"path": f"/api/devices/{walked.waiting_device()}/revoke", "json": {}},
        200,
    ),
    "GET /api/people": Stated("office", at("/api/people"), 200),
    "POST /api/people": Stated("office", new_person, 201),
    "POST /api/people/<person>": Stated(
        "office",
        lambda walked, _: {"path": f"/api/people/{walked.server.people['photographer']}", "json": {}},
        200,
    ),
    "GET /api/bundle": Stated("signed_in", at("/api/bundle"), 200),
    "GET /api/methods": Stated("office", at("/api/methods"), 200),
    "POST /api/methods": Stated("office", at("/api/methods", json=method_file()), 200),
    "GET /api/materials": Stated("office", at("/api/materials"), 200),
    "GET /api/instruments": Stated("office", at("/api/instruments"), 200),
    "POST /api/instruments": Stated("office", new_instrument, 201),
    "POST /api/instruments/<id>": Stated(
        "office", at(f"/api/instruments/{NOBODY_ID}", json={"number": "T-1", "kind": "torque tool"}), 404
    ),
    "GET /api/lots": Stated("office", at("/api/lots"), 200),
    "POST /api/lots": Stated("office", at("/api/lots", json={"material": "adhesive", "lot": "KL-1"}), 201),
    "POST /api/lots/<id>": Stated(
        "office", at(f"/api/lots/{NOBODY_ID}", json={"material": "adhesive", "lot": "KL-1"}), 404
    ),
    "GET /api/used-lots": Stated("office", at("/api/used-lots?words=kl"), 200),
    "GET /api/sheets": Stated("office", at("/api/sheets"), 200),
    "POST /api/sheets": Stated("office", new_sheet, 201),
    "GET /api/sheets/<digest>/jobs": Stated("office", at(f"/api/sheets/{'0' * 64}/jobs"), 404),
    "POST /api/methods/check": Stated("office", at("/api/methods/check", json=method_file()), 200),
    "GET /api/methods/<digest>/yaml": Stated(
        "office", lambda walked, _: {"path": f"/api/methods/{walked.digest}/yaml"}, 200
    ),
    "GET /api/methods/<digest>/jobs": Stated(
        "office", lambda walked, _: {"path": f"/api/methods/{walked.digest}/jobs"}, 200
    ),
    "GET /api/method-guide": Stated("office", at("/api/method-guide"), 200),
    "GET /api/methods/<digest>": Stated(
        "signed_in", lambda walked, _: {"path": f"/api/methods/{walked.digest}"}, 200
    ),
    "PUT /api/methods/<digest>": Stated(
        "device",
        lambda walked, _: {"path": f"/api/methods/{walked.digest}", "data": walked.method_text.encode()},
        204,
    ),
    "GET /api/drawings/<sha256>": Stated(
        "signed_in", lambda walked, _: {"path": f"/api/drawings/{walked.drawing}"}, 200
    ),
    "PUT /api/drawings/<sha256>": Stated("device", drawing_file, 204),
    "GET /api/jobs": Stated("office", at("/api/jobs"), 200),
    "POST /api/jobs": Stated("office", at("/api/jobs", json={"order": "W-1"}), 201),
    "GET /api/jobs/<job>/entries": Stated(
        "office", lambda walked, _: {"path": f"/api/jobs/{walked.job}/entries"}, 200, (403, "wrong_door")
    ),
    "POST /api/jobs/<job>/entries": Stated(
        "office",
        lambda walked, _: {
            "path": f"/api/jobs/{walked.job}/entries",
            "json": {"kind": "place", "body": {"place": "bay 3", "over": []}},
        },
        201,
        (403, "wrong_door"),
    ),
    "GET /api/jobs/<job>/asides": Stated(
        "office", lambda walked, _: {"path": f"/api/jobs/{walked.job}/asides"}, 200, (403, "wrong_door")
    ),
    "POST /api/jobs/<job>/file": Stated(
        "office",
        lambda walked, _: {"path": f"/api/jobs/{walked.job}/file", "json": {"reason": ""}},
        409,
        (403, "wrong_door"),
    ),
    "POST /api/jobs/<job>/addendum": Stated(
        "office",
        lambda walked, _: {"path": f"/api/jobs/{walked.job}/addendum", "json": {"reason": ""}},
        409,
        (403, "wrong_door"),
    ),
    "GET /api/jobs/<job>/filed": Stated(
        "office", lambda walked, _: {"path": f"/api/jobs/{walked.job}/filed"}, 200, (403, "wrong_door")
    ),
    "GET /api/jobs/<job>/report.pdf": Stated(
        "office", lambda walked, _: {"path": f"/api/jobs/{walked.job}/report.pdf"}, 200, (403, "wrong_door")
    ),
    "GET /api/orders": Stated("office", at("/api/orders?order=W-1"), 200),
    "GET /api/filed": Stated("office", at("/api/filed"), 200),
    "GET /api/filed/<dossier>/dossier": Stated("office", at(f"/api/filed/{NOBODY_ID}/dossier"), 404),
    "GET /api/filed/<dossier>/report": Stated("office", at(f"/api/filed/{NOBODY_ID}/report"), 404),
    "GET /api/office/log": Stated("office", at("/api/office/log"), 200),
    "POST /api/handin": Stated("office", at("/api/handin", data=b"no hand-in"), 400),
    "GET /api/push": Stated("device", at("/api/push"), 200),
    "POST /api/push": Stated("device", at("/api/push", json=SUBSCRIPTION), 200),
    "DELETE /api/push": Stated("device", at("/api/push"), 200),
    "POST /api/push/rehearsal": Stated("device", at("/api/push/rehearsal", json={}), 400),
    "GET /api/push/office": Stated("office", at("/api/push/office"), 200),
    "POST /api/push/contact": Stated("office", at("/api/push/contact", json={"contact": ""}), 200),
    "POST /api/sync": Stated(
        "device",
        lambda walked, _: {"path": "/api/sync", "json": sync_body(walked.job)},
        200,
        lambda walked, answer: (
            walked.job in answer["gone_jobs"] and walked.job not in [job["job"] for job in answer["jobs"]]
        ),
    ),
    "POST /api/reconcile": Stated(
        "device",
        lambda walked, _: {"path": "/api/reconcile", "json": reconcile_body(walked.job)},
        200,
        lambda _walk, answer: (answer["entries"], answer["heads"], answer["set_digest"]) == ([], [], ""),
    ),
    "OPTIONS /api/photos": Stated("signed_in", at("/api/photos"), 204),
    "POST /api/photos": Stated("device", new_upload, 201, (403, "foreign_job")),
    "HEAD /api/photos/<string(length=36):upload>": Stated(
        "device",
        lambda walked, caller: {
            "path": f"/api/photos/{walked.upload_of(caller, walked.callers[caller]())}",
            "headers": TUS,
        },
        200,
        (404, ""),
    ),
    "PATCH /api/photos/<string(length=36):upload>": Stated("device", new_piece, 204, (404, "unknown_upload")),
    "GET /api/photos/<string(length=64):sha256>": Stated(
        "signed_in", lambda walked, _: {"path": f"/api/photos/{walked.photo}"}, 200, (404, "not_found")
    ),
    "GET /api/thumbs/<string(length=64):sha256>": Stated(
        "signed_in", lambda walked, _: {"path": f"/api/thumbs/{walked.thumb}"}, 200, (404, "not_found")
    ),
    "PUT /api/thumbs/<string(length=64):sha256>": Stated("device", new_thumb, 204),
    "GET /api/heat/zones": Stated("office", at("/api/heat/zones"), 200),
    "POST /api/heat/zones": Stated("office", at("/api/heat/zones", json={"document": joint()}), 201),
    "GET /api/heat/zones/<string(length=64):digest>": Stated(
        "office", lambda walked, _: {"path": f"/api/heat/zones/{kept_zone(walked, 'read')}"}, 200
    ),
    "DELETE /api/heat/zones/<string(length=64):digest>": Stated(
        "office", lambda walked, _: {"path": f"/api/heat/zones/{kept_zone(walked, 'removed')}"}, 204
    ),
    "POST /api/heat/plans": Stated(
        "office",
        lambda walked, _: {"path": "/api/heat/plans", "json": {"zone": kept_zone(walked, "asked")}},
        202,
    ),
    "GET /api/heat/plans/<string(length=64):digest>": Stated(
        "office", lambda walked, _: {"path": f"/api/heat/plans/{kept_zone(walked, 'looked')}"}, 200
    ),
    "DELETE /api/heat/plans/<string(length=64):digest>": Stated(
        "office", lambda walked, _: {"path": f"/api/heat/plans/{kept_zone(walked, 'cancelled')}"}, 200
    ),
    "GET /api/heat/plans/<string(length=64):digest>/field": Stated(
        "office", lambda walked, _: {"path": f"/api/heat/plans/{kept_zone(walked, 'early')}/field"}, 409
    ),
    "GET /api/heat/responses/<string(length=64):sha256>": Stated(
        "signed_in", at(f"/api/heat/responses/{'0' * 64}"), 404, (404, "not_found")
    ),
    "GET /api/jobs/<job>/heat_plans": Stated(
        "office", lambda walked, _: {"path": f"/api/jobs/{walked.job}/heat_plans"}, 200, (403, "wrong_door")
    ),
    "POST /api/jobs/<job>/heat_plans": Stated(
        "office",
        lambda walked, _: {
            "path": f"/api/jobs/{walked.job}/heat_plans",
            "json": {"method": "spine", "zone": "upper", "plan": "0" * 64},
        },
        404,
        (403, "wrong_door"),
    ),
    "DELETE /api/jobs/<job>/heat_plans/<method>/<zone>": Stated(
        "office",
        lambda walked, _: {"path": f"/api/jobs/{walked.job}/heat_plans/spine/upper"},
        404,
        (403, "wrong_door"),
    ),
    "GET /api/jobs/<job>/verdicts": Stated(
        "office", of_no_run("/api/jobs/JOB/verdicts"), 200, (403, "wrong_door")
    ),
    "GET /api/jobs/<job>/reading_files": Stated(
        "office", of_no_run("/api/jobs/JOB/reading_files"), 200, (403, "wrong_door")
    ),
    "POST /api/jobs/<job>/reading_files": Stated(
        "office",
        of_no_run(f"/api/jobs/JOB/reading_files?name=a&run={NO_RUN}", data=b"s,a\n", content_type="text/csv"),
        404,
        (403, "wrong_door"),
    ),
    "GET /api/reading_files/<file>": Stated("office", at(f"/api/reading_files/{NOBODY_ID}"), 404),
    "POST /api/reading_files/<file>/look": Stated(
        "office", at(f"/api/reading_files/{NOBODY_ID}/look", json={}), 404
    ),
    "POST /api/reading_files/<file>/take": Stated(
        "office", at(f"/api/reading_files/{NOBODY_ID}/take", json={"mapping": MAPPED}), 404
    ),
    "GET /api/jobs/<job>/logger_keys": Stated(
        "office", of_no_run("/api/jobs/JOB/logger_keys"), 200, (403, "wrong_door")
    ),
    "POST /api/jobs/<job>/logger_keys": Stated(
        "office",
        of_no_run("/api/jobs/JOB/logger_keys", json={"run": NO_RUN, "logger": "L"}),
        404,
        (403, "wrong_door"),
    ),
    "DELETE /api/logger_keys/<key>": Stated("office", at(f"/api/logger_keys/{NOBODY_ID}"), 404),
    "POST /api/logger/readings": Stated(
        "logger", at("/api/logger/readings", json={"rows": [{"run_s": 1, "readings": {"a": 1}}]}), 200
    ),
    "GET /api/papers": Stated(
        "signed_in",
        lambda walked, _: {"path": "/api/papers"},
        200,
        lambda walked, answer: walked.job not in [paper["job"] for paper in answer["papers"]],
    ),
    "POST /api/papers": Stated("office", new_paper, 201),
    "DELETE /api/papers/<string(length=36):paper>": Stated(
        "office", lambda walked, _: {"path": f"/api/papers/{kept_paper(walked)['id']}"}, 204
    ),
    "GET /api/papers/<string(length=64):sha256>": Stated(
        "signed_in",
        lambda walked, _: {"path": f"/api/papers/{kept_paper(walked)['sha256']}"},
        200,
        (404, "not_found"),
    ),
}


@pytest.fixture(scope="module")
def walked(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Walk]:
    made = walk(tmp_path_factory.mktemp("walk"))
    yield made
    made.server.close()


@pytest.fixture(scope="module")
def declared(walked: Walk) -> set[str]:
    """Every method of every rule; HEAD and OPTIONS only where a view takes them itself."""
    found = set()
    for rule in walked.server.app.url_map.iter_rules():
        methods = set(rule.methods or ())
        own = methods if len(methods) == 1 else methods - {"HEAD", "OPTIONS"}
        own |= {"HEAD"} if methods == {"HEAD", "OPTIONS"} else set()
        found |= {f"{method} {rule.rule}" for method in own}
    return found


def ask(walked: Walk, route: str, caller: str) -> Any:
    named = ROUTES[route].sample(walked, caller)
    client = walked.callers[caller]()
    return client.open(named.pop("path"), method=route.split(" ", 1)[0], **named)


def test_every_route_states_its_door_and_every_statement_is_a_route(declared: set[str]) -> None:
    assert declared == set(ROUTES)


@pytest.mark.parametrize("route", ROUTES)
@pytest.mark.parametrize("caller", CALLERS)
def test_a_route_lets_in_whom_it_states_and_nobody_else(walked: Walk, route: str, caller: str) -> None:
    stated = ROUTES[route]
    answer = ask(walked, route, caller)
    if caller in LET_IN[stated.door]:
        assert answer.status_code == stated.status, answer.text
    elif route.startswith("HEAD"):
        assert answer.status_code == TURNED_AWAY[caller][0]
    else:
        assert error_of(answer) == TURNED_AWAY[caller]


@pytest.mark.parametrize("route", [route for route, stated in ROUTES.items() if stated.foreign != NO_JOB])
def test_a_phone_that_is_not_on_the_job_gets_nothing_of_it(walked: Walk, route: str) -> None:
    foreign = ROUTES[route].foreign
    answer = ask(walked, route, "stranger")
    if callable(foreign):
        assert foreign(walked, answer.get_json())
    elif route.startswith("HEAD"):
        assert answer.status_code == foreign[0]  # type: ignore[index]
    else:
        assert error_of(answer) == foreign


def test_a_route_that_names_a_job_states_what_a_foreign_job_gets() -> None:
    silent = [route for route, stated in ROUTES.items() if "<job>" in route and stated.foreign == NO_JOB]
    assert silent == []


def test_a_used_and_an_expired_code_let_nobody_in(walked: Walk) -> None:
    used, expired = walked.code(), walked.code()
    client = walked.server.client()
    client.post("/api/pair/claim", json=walked.claim(used))
    stranger = walked.server.client()
    assert error_of(stranger.post("/api/pair/claim", json=walked.claim(used))) == (403, "used_code")
    noon_ms = walked.server.clock.at_ms
    walked.server.clock.at_ms += CODE_MS
    answer = stranger.post("/api/pair/claim", json=walked.claim(expired))
    walked.server.clock.at_ms = noon_ms
    assert error_of(answer) == (403, "expired_code")
    assert error_of(stranger.get("/api/bundle")) == (401, "no_login")


def test_the_demo_pairs_at_once_only_on_a_devices_origin(walked: Walk, tmp_path: Path) -> None:
    body = {"public_key": walked.claim("")["public_key"]}
    assert error_of(walked.server.client().post("/api/demo/pair", json=body)) == (404, "not_found")
    answer = walked.server.client(TECHNICIANS_ORIGIN).post("/api/demo/pair", json=body)
    assert error_of(answer) == (404, "unknown_person")  # this shop's people are not in this store
