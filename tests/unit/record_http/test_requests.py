"""Bad requests get their 4xx, bad entries their fate in a 200, and nothing is stored half."""

from __future__ import annotations

import gzip
import hashlib
import json
import tracemalloc
from dataclasses import asdict
from typing import Any

import pytest

from bayleaf.canonical.form import dumps
from harness.at_work import Shop
from harness.record import TICK
from harness.server import error_of

CLOCK = {"load": "00000000-0000-4000-8000-0000000010ad", "at_ms": 1, "mono_ms": 1}


def asked(shop: Shop, *texts: str, **other: Any) -> dict[str, Any]:
    """What a phone would send."""
    chains = shop.writer.chains.get(shop.job)
    heads = [asdict(shop.writer.head(shop.job))] if chains else []
    return {
        "protocol": 1, "log": "", "cursors": {}, "entries": list(texts), "heads": heads, "cards": [],
        "clock": CLOCK, "holds": {"entries": len(texts), "photos": 0}, "reports": [], **other,
    }  # fmt: skip


def stored(shop: Shop) -> tuple[int, int]:
    """How many entries and refused texts the job has."""
    with shop.server.parts.office.log.reading() as log:
        return len(log.hashes(shop.job)), len(log.refused_of(shop.job))


def test_a_push_is_taken_gzipped_both_ways(shop: Shop) -> None:
    body = gzip.compress(json.dumps(asked(shop, *[shop.writer.write(shop.job) for _ in range(20)])).encode())
    headers = {"Content-Encoding": "gzip", "Accept-Encoding": "gzip"}
    answer = shop.phone.client.post("/api/sync", data=body, headers=headers, content_type="application/json")
    assert (answer.status_code, answer.headers["Content-Encoding"]) == (200, "gzip")
    found = json.loads(gzip.decompress(answer.data))
    assert {fate["fate"] for fate in found["fates"]} == {"taken"}
    assert (found["protocol"], found["fold"]) == (1, 2)
    assert stored(shop) == (24, 0)
    assert found["bundle"] == shop.phone.client.get("/api/bundle").get_json()["version"]


@pytest.mark.parametrize(
    ("body", "headers", "status", "code"),
    [
        (b"{", {}, 400, "unreadable_json"),
        (b'{"protocol": NaN}', {}, 400, "broken_request"),
        (b"\xff\xfe", {}, 400, "unreadable_json"),
        (b"[" * 100_000, {}, 400, "unreadable_json"),
        (b"[]", {}, 400, "broken_request"),
        (b"{}", {}, 400, "broken_request"),
        (b"{}", {"Content-Encoding": "br"}, 415, "wrong_encoding"),
        (b"{}", {"Content-Encoding": "gzip"}, 400, "unreadable_json"),
        (gzip.compress(b"{}" * 50, mtime=0)[:-9], {"Content-Encoding": "gzip"}, 400, "unreadable_json"),
        (gzip.compress(b" " * 9_000_000, mtime=0), {"Content-Encoding": "gzip"}, 413, "too_large"),
        (b" " * 8_000_001, {}, 413, "too_large"),
        (b"{}", {"Host": "elsewhere.example"}, 421, "wrong_host"),
        (b"{}", {"Content-Type": "text/plain"}, 415, "not_json_type"),
    ],
    ids=lambda one: one[:12].hex() if isinstance(one, bytes) else str(one),
)
def test_what_is_no_request_gets_a_4xx(
    shop: Shop, body: bytes, headers: dict[str, str], status: int, code: str
) -> None:
    before = stored(shop)
    host = headers.get("Host")
    named: dict[str, Any] = {"environ_overrides": {"HTTP_HOST": host}} if host else {}
    media = headers.get("Content-Type", "application/json")
    answer = shop.phone.client.post("/api/sync", data=body, headers=headers, content_type=media, **named)
    assert error_of(answer) == (status, code)
    assert answer.get_json()["message"].endswith(".")
    assert stored(shop) == before


def test_nine_megabytes_from_ten_kilobytes_are_never_held(shop: Shop) -> None:
    body = gzip.compress(b" " * 200_000_000)
    assert len(body) < 250_000
    tracemalloc.start()
    answer = shop.phone.client.post(
        "/api/sync", data=body, headers={"Content-Encoding": "gzip"}, content_type="application/json"
    )
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert error_of(answer) == (413, "too_large")
    assert peak < 40_000_000


def test_nobody_syncs_without_a_login(shop: Shop) -> None:
    assert error_of(shop.server.client().post("/api/sync", json=asked(shop))) == (401, "no_login")


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"protocol": "1"}, "protocol"),
        ({"cursors": {"x": 1}}, "cursors.x.key"),
        ({"cursors": {"00000000-0000-4000-8000-000000000001": -1}}, "cursors"),
        ({"entries": [1]}, "entries[0]"),
        ({"heads": [{"job": "x"}]}, "heads[0].job"),
        ({"clock": {"load": "x", "at_ms": 1, "mono_ms": 1}}, "clock.load"),
    ],
)
def test_a_request_of_another_shape_names_the_field(shop: Shop, changed: dict[str, Any], field: str) -> None:
    answer = shop.phone.client.post("/api/sync", json=asked(shop, **changed))
    assert error_of(answer) == (400, "broken_request")
    assert answer.get_json()["field"].startswith(field)


def test_every_bad_entry_gets_its_fate_in_a_200(shop: Shop) -> None:
    text = shop.writer.write(shop.job)
    foreign = shop.writer.write("00000000-0000-4000-8000-00000000f00d")
    bad = {
        text.replace('{"as"', '{ "as"'): "not_canonical",
        text.replace('"seq":1', '"seq":3'): "wrong_hash",
        text.replace('"mono_ms":1000', '"mono_ms":9007199254740993'): "unsafe_number",
        text.replace('"reason":""', '"reason":"\\ud800"'): "lone_surrogate",
        text.replace('"reason":""', '"reason":"\ud800"'): "lone_surrogate",
        text.replace('"reason":""', '"reason":"\\u0000"'): "nul_character",
        text.replace('"seq":1', '"seq":1,"seq":1'): "duplicate_key",
        shop.writer.write(shop.job, body={**TICK, "value": 5}): "broken_body",
        foreign: "unknown_job",
        shop.writer.write(shop.job, "close", {"reason": "", "over": []}): "role",
        shop.writer.write(shop.job, "weld", {}): "not_yet_known",
    }
    answer = shop.phone.client.post("/api/sync", json=asked(shop, *bad))
    assert answer.status_code == 200
    fates = answer.get_json()["fates"]
    assert [fate["code"] for fate in fates] == list(bad.values())
    assert all(fate["message"].endswith(".") for fate in fates)
    assert stored(shop) == (4 + 4, 7)


def test_an_office_person_writes_any_kind(shop: Shop) -> None:
    office = shop.server.office()
    note = {"text": "look", "method": "", "digest": "", "step": "", "about": []}
    answer = office.post(f"/api/jobs/{shop.job}/entries", json={"kind": "note", "body": note})
    assert answer.status_code == 201
    pulled = office.get(f"/api/jobs/{shop.job}/entries?after=4").get_json()
    entry = json.loads(pulled["entries"][0]["text"])
    assert (entry["hash"], answer.get_json()["number"]) == (answer.get_json()["hash"], 5)
    assert (entry["by"], entry["as"]) == (shop.server.people["office"], ["office"])
    assert (pulled["cursor"], pulled["more"], pulled["photos_here"]) == (5, False, [])
    assert dumps(entry) == pulled["entries"][0]["text"]


@pytest.mark.parametrize(
    ("written", "status", "code", "field"),
    [
        ({"kind": "weld", "body": {}}, 400, "unknown_kind", "kind"),
        ({"kind": "note", "body": {"text": ""}}, 400, "broken_body", "body.text"),
        ({"kind": "strike", "body": {"target": "x", "reason": "y"}}, 400, "broken_body", "body.target"),
        ({"kind": "close", "body": {"reason": "", "over": [], "zoo": 1}}, 400, "broken_body", "body.zoo"),
        ({"kind": "close"}, 400, "broken_request", "body"),
    ],
)
def test_what_an_office_person_writes_wrong_is_refused_and_not_stored(
    shop: Shop, written: dict[str, Any], status: int, code: str, field: str
) -> None:
    answer = shop.server.office().post(f"/api/jobs/{shop.job}/entries", json=written)
    assert (*error_of(answer), answer.get_json()["field"]) == (status, code, field)
    assert stored(shop) == (4, 0)


def test_an_entry_of_the_office_over_64_kb_is_refused_and_not_stored(shop: Shop) -> None:
    about = [f"{number:064x}" for number in range(900)]
    step = {"method": "", "digest": "", "step": ""}
    body = {"text": "\U0001f527" * 4000, **step, "about": about, "passes_hold": False}
    answer = shop.server.office().post(
        f"/api/jobs/{shop.job}/entries", json={"kind": "deviation", "body": body}
    )
    assert error_of(answer) == (400, "too_long")
    assert stored(shop) == (4, 0)


def test_the_office_files_a_job_by_its_own_route_only(shop: Shop) -> None:
    written = {"kind": "file", "body": {"heads": [], "reason": "none"}}
    answer = shop.server.office().post(f"/api/jobs/{shop.job}/entries", json=written)
    assert (*error_of(answer), answer.get_json()["field"]) == (400, "use_file_route", "kind")
    assert stored(shop) == (4, 0)


def test_what_comes_after_filing_is_taken_and_counted_beside_the_dossier(shop: Shop) -> None:
    office = shop.server.office()
    filed = office.post(f"/api/jobs/{shop.job}/file", json={"reason": "as it stands"}).get_json()

    def row() -> dict[str, Any]:
        rows: list[dict[str, Any]] = office.get("/api/filed").get_json()["filed"]
        return next(one for one in rows if one["dossier"] == filed["dossier"])

    page = office.get(f"/api/jobs/{shop.job}/entries?after=0").get_json()["entries"]
    assert (row()["after_filing"], row()["file_hash"]) == (0, json.loads(page[-1]["text"])["hash"])
    late = asked(shop, shop.writer.write(shop.job))
    fates = shop.phone.client.post("/api/sync", json=late).get_json()["fates"]
    assert [fate["fate"] for fate in fates] == ["taken"]
    assert (row()["after_filing"], row()["sha256"]) == (1, filed["sha256"])


def test_a_job_that_is_not_there_has_no_entries(shop: Shop) -> None:
    office, path = shop.server.office(), "/api/jobs/00000000-0000-4000-8000-000000000001/entries"
    assert error_of(office.get(path)) == (404, "unknown_job")
    body = {"kind": "place", "body": {"place": "", "over": []}}
    assert error_of(office.post(path, json=body)) == (404, "unknown_job")


def test_reconcile_names_what_either_lacks(shop: Shop) -> None:
    shop.phone.client.post("/api/sync", json=asked(shop, shop.writer.write(shop.job)))
    hashes = [shop.writer.lasts[shop.job], "f" * 64]
    body = {"protocol": 1, "log": "", "job": shop.job, "hashes": hashes, "digest": "", "photos": []}
    found = shop.phone.client.post("/api/reconcile", json=body).get_json()
    assert found["missing_here"] == ["f" * 64]
    assert [json.loads(one["text"])["kind"] for one in found["entries"]] == [
        "open",
        "pin",
        "assign",
        "assign",
    ]
    assert (found["cursor"], found["methods_missing"], found["drawings_missing"]) == (5, [], [])


def test_a_method_that_the_server_lost_comes_back_by_its_hash(shop: Shop) -> None:
    digest = shop.server.method()
    client = shop.phone.client
    text = client.get(f"/api/methods/{digest}").data
    assert client.put(f"/api/methods/{digest}", data=text).status_code == 204
    assert error_of(client.put(f"/api/methods/{digest}", data=text[:-1])) == (422, "wrong_digest")
    stranger = b'{"form":1}'
    unpinned = hashlib.sha256(stranger).hexdigest()
    assert error_of(client.put(f"/api/methods/{unpinned}", data=stranger)) == (404, "unknown_method")
