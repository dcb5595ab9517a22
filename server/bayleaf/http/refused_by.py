"""Which refusal codes each operation can answer with: from its door, from its body, and its own."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bayleaf.http.refusals import STATUS_OF

METHODS = ("get", "put", "post", "patch", "head", "options", "delete")
DOOR: Mapping[str, tuple[str, ...]] = {
    "office": ("no_login", "wrong_door", "not_paired", "revoked_device"),
    "device": ("no_login", "wrong_door", "not_paired", "revoked_device"),
    "waiting": ("no_login", "wrong_door", "revoked_device"),
    "signed_in": ("no_login", "not_paired", "revoked_device"),
    "logger": ("no_login", "wrong_door", "not_paired", "revoked_device"),
}
JSON_BODY = (
    "not_json_type",
    "too_large",
    "unreadable_json",
    "unsafe_number",
    "nul_character",
    "broken_request",
)
ZIPPED = ("wrong_encoding", "too_large", "unreadable_json", "not_json_type", "broken_request")
TUS = ("wrong_tus_version", "unknown_upload")

# What a use case refuses, beyond the door and the form of the body.
OWN: Mapping[str, tuple[str, ...]] = {
    "post /api/office/login": ("wrong_password", "too_many_tries"),
    "post /api/pair/claim": (
        "wrong_code",
        "used_code",
        "expired_code",
        "broken_key",
        "known_key",
        "too_many_tries",
    ),
    "post /api/door/renew": (
        "wrong_nonce",
        "wrong_signature",
        "unknown_device",
        "not_paired",
        "revoked_device",
    ),
    "post /api/pair/codes": ("unknown_person",),
    "post /api/pair/{device}/confirm": ("unknown_device", "not_waiting"),
    "post /api/pair/{device}/refuse": ("unknown_device", "not_waiting"),
    "post /api/devices/{device}/revoke": ("unknown_device", "already_revoked"),
    "post /api/people": ("known_name", "broken_pin", "short_password"),
    "post /api/people/{person}": ("unknown_person", "known_name", "broken_pin", "short_password"),
    "post /api/methods": ("method_faults",),
    "post /api/instruments": ("known_number",),
    "post /api/instruments/{id}": ("unknown_instrument", "known_number"),
    "post /api/lots": ("known_number",),
    "post /api/lots/{id}": ("unknown_lot", "known_number"),
    "post /api/sheets": ("known_sheet", "sheet_faults"),
    "post /api/time_zone": ("unknown_time_zone",),
    "post /api/sheets/{sheet}/withdraw": ("unknown_sheet", "withdrawn_sheet"),
    "get /api/sheets/{digest}/jobs": ("unknown_sheet",),
    "get /api/methods/{digest}/yaml": ("unknown_method", "not_found"),
    "get /api/methods/{digest}": ("unknown_method",),
    "put /api/methods/{digest}": ("unknown_method", "wrong_digest", "too_large", "broken_request"),
    "get /api/drawings/{sha256}": ("not_found",),
    "put /api/drawings/{sha256}": ("not_found", "wrong_digest", "too_large"),
    "post /api/jobs": ("unknown_method", "unknown_person"),
    "get /api/jobs/{job}/entries": ("unknown_job",),
    "post /api/jobs/{job}/entries": (
        "unknown_job",
        "unknown_kind",
        "use_file_route",
        "broken_body",
        "unknown_person",
        "too_long",
    ),
    "get /api/jobs/{job}/asides": ("unknown_job",),
    "post /api/jobs/{job}/file": (
        "unknown_job",
        "being_filed",
        "already_filed",
        "incomplete",
        "broken_body",
        "not_sealed",
    ),
    "post /api/jobs/{job}/addendum": (
        "unknown_job",
        "being_filed",
        "not_filed",
        "nothing_late",
        "incomplete",
        "broken_body",
        "not_sealed",
    ),
    "get /api/jobs/{job}/report.pdf": ("unknown_job", "not_set"),
    "get /api/filed": ("unknown_dossier",),
    "get /api/filed/{dossier}/dossier": ("unknown_dossier",),
    "get /api/filed/{dossier}/report": ("unknown_dossier", "not_found"),
    "post /api/papers": (
        "broken_request",
        "wrong_type",
        "too_large",
        "unknown_job",
        "unknown_method",
        "not_a_pdf",
    ),
    "delete /api/papers/{paper}": ("not_found",),
    "post /api/jobs/{job}/reading_files": (
        "wrong_type",
        "too_large",
        "broken_request",
        "unknown_job",
        "unknown_run",
    ),
    "post /api/reading_files/{file}/look": (
        "not_found",
        "unknown_run",
        "not_a_table",
        "wrong_mapping",
        "wrong_time",
    ),
    "post /api/reading_files/{file}/take": (
        "not_found",
        "unknown_run",
        "not_a_table",
        "wrong_mapping",
        "wrong_time",
    ),
    "get /api/reading_files/{file}": ("not_found",),
    "post /api/jobs/{job}/logger_keys": ("unknown_job", "unknown_run"),
    "delete /api/logger_keys/{key}": ("not_found",),
    "get /api/jobs/{job}/verdicts": ("unknown_job",),
    "post /api/logger/readings": ("too_soon", "unknown_run", "too_large"),
    "get /api/papers/{sha256}": ("not_found",),
    "post /api/heat/zones": ("zone_faults",),
    "get /api/heat/zones/{digest}": ("unknown_zone",),
    "delete /api/heat/zones/{digest}": ("unknown_zone", "zone_in_use"),
    "post /api/heat/plans": ("unknown_zone",),
    "get /api/heat/plans/{digest}": ("unknown_plan",),
    "delete /api/heat/plans/{digest}": ("unknown_plan",),
    "get /api/heat/plans/{digest}/field": ("unknown_plan", "not_planned"),
    "get /api/jobs/{job}/heat_plans": ("unknown_job",),
    "post /api/jobs/{job}/heat_plans": (
        "unknown_job",
        "already_filed",
        "unknown_method",
        "unknown_zone",
        "unknown_plan",
        "not_planned",
    ),
    "delete /api/jobs/{job}/heat_plans/{method}/{zone}": ("unknown_job", "already_filed", "not_found"),
    "get /api/heat/responses/{sha256}": ("not_found",),
    "post /api/handin": ("broken_handin", "too_large"),
    "post /api/sync": (*ZIPPED, "broken_card"),
    "post /api/reconcile": ZIPPED,
    "options /api/photos": (),
    "post /api/photos": (
        "wrong_tus_version",
        "foreign_job",
        "wrong_type",
        "too_large",
        "not_a_photo",
        "broken_request",
    ),
    "head /api/photos/{upload}": TUS,
    "patch /api/photos/{upload}": (
        *TUS,
        "wrong_type",
        "wrong_offset",
        "busy_upload",
        "too_large",
        "wrong_digest",
        "not_a_photo",
        "too_many_pixels",
        "broken_request",
    ),
    "get /api/photos/{sha256}": ("not_found",),
    "get /api/thumbs/{sha256}": ("not_found",),
    "put /api/thumbs/{sha256}": ("wrong_digest", "not_a_photo", "too_many_pixels", "too_large"),
}


def say_refusals(document: dict[str, Any]) -> dict[str, Any]:
    """The document with `x-refusals` at every operation: [{code, status}], by status."""
    for path, item in document["paths"].items():
        for method in METHODS:
            if method in item:
                item[method]["x-refusals"] = _refusals(f"{method} {path}", item[method])
    return document


def _refusals(name: str, operation: Mapping[str, Any]) -> list[dict[str, object]]:
    content = operation.get("requestBody", {}).get("content", {})
    body = JSON_BODY if "application/json" in content and name not in OWN_BODY else ()
    query = (
        ("broken_request",) if any(one["in"] == "query" for one in operation.get("parameters", ())) else ()
    )
    codes = {*DOOR.get(operation["x-callers"], ()), *body, *query, *OWN.get(name, ())}
    return [
        {"code": code, "status": int(STATUS_OF[code])}
        for code in sorted(codes, key=lambda code: (STATUS_OF[code], code))
    ]


# These read their bytes themselves, which may be zipped.
OWN_BODY = ("post /api/sync", "post /api/reconcile", "put /api/methods/{digest}")
