"""The routes of the record: entries, photos, papers, heat plans and readings, as the walk finds them."""

from __future__ import annotations

from harness.walk import NOBODY_ID
from unit.heat.zones import joint
from unit.http.route_samples import (
    MAPPED,
    NO_RUN,
    TUS,
    Stated,
    at,
    kept_paper,
    kept_zone,
    new_paper,
    new_piece,
    new_thumb,
    new_upload,
    of_no_run,
    reconcile_body,
    sync_body,
)

OF_THE_RECORD: dict[str, Stated] = {
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
