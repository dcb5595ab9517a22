"""The routes of doors, people, methods, registers, jobs and calls, as the walk finds them."""

from __future__ import annotations

from harness.doors import PASSWORD
from harness.walk import NOBODY_ID
from unit.http.route_samples import (
    SUBSCRIPTION,
    Stated,
    at,
    drawing_file,
    method_file,
    new_instrument,
    new_person,
    new_sheet,
)

LOGIN = {"name": "A office", "password": PASSWORD}
OF_THE_OFFICE: dict[str, Stated] = {
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
    "POST /api/sheets/<sheet>/withdraw": Stated(
        "office", at(f"/api/sheets/{NOBODY_ID}/withdraw", json={"why": "typed wrong"}), 404
    ),
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
    "GET /api/time_zone": Stated("office", at("/api/time_zone"), 200),
    "POST /api/time_zone": Stated("office", at("/api/time_zone", json={"time_zone": ""}), 200),
}
