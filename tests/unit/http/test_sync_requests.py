"""A sync that is no request is refused as one; what is wrong in an entry's text is that entry's fate."""

from __future__ import annotations

import json
from typing import Any

import pytest
from flask.testing import FlaskClient

from harness.server import Bench, error_of

ID = "00000000-0000-4000-8000-000000000000"
BEYOND = 2**63
CLOCK = {"load": ID, "at_ms": 1, "mono_ms": 1}
IN_ORDER: dict[str, Any] = {"protocol": 1, "log": "", "cursors": {}, "entries": [], "heads": [], "cards": []}


def sent(client: FlaskClient, path: str, body: object) -> Any:
    return client.post(path, data=json.dumps(body), content_type="application/json")


@pytest.mark.parametrize(
    "wrong",
    [
        {"clock": {**CLOCK, "at_ms": BEYOND}},
        {"clock": {**CLOCK, "mono_ms": -1}},
        {"holds": {"entries": BEYOND, "photos": 0}},
        {"cursors": {ID: BEYOND}},
        {"cursors": {"x": 1}},
        {"protocol": "1"},
        {"entries": [{}]},
        {"reports": [{"job": ID, "what": "set", "ours": "\ud800", "theirs": ""}]},
        {"cards": [{"card": "\ud800", "signature": ""}]},
        {"cards": [{"card": "\u0000", "signature": ""}]},
        {"heads": [{"job": ID, "device": ID, "seq": BEYOND, "hash": "0" * 64, "signature": "0" * 128}]},
    ],
)
def test_a_sync_that_is_none_is_refused(server: Bench, wrong: dict[str, Any]) -> None:
    answer = sent(server.phone("technician").client, "/api/sync", {**IN_ORDER, **wrong})
    status, _ = error_of(answer)
    assert status == 400


@pytest.mark.parametrize("text", ["\ud800", "\u0000", "", "{}", "[" * 70_000])
def test_what_is_wrong_in_an_entrys_text_is_its_fate_in_a_200(server: Bench, text: str) -> None:
    answer = sent(server.phone("technician").client, "/api/sync", {**IN_ORDER, "entries": [text]})
    assert answer.status_code == 200
    fate = answer.get_json()["fates"][0]
    assert fate["fate"] == "refused"
    assert fate["code"]
    assert fate["message"]


@pytest.mark.parametrize("after", ["-1", "9223372036854775808", "x", "1e3"])
def test_a_cursor_that_is_no_count_is_refused(server: Bench, after: str) -> None:
    answer = server.office().get(f"/api/jobs/{server.job()}/entries", query_string={"after": after})
    assert error_of(answer) == (400, "broken_request")


def test_a_broken_hand_in_is_refused(server: Bench) -> None:
    for rest in (b"", b"{}\n", b'{"device": "\\ud800"}\n', b"\xff\n", b"[" * 5000 + b"\n"):
        answer = server.office().post("/api/handin", data=b"bayleaf-handin-1\n" + rest)
        assert error_of(answer) == (400, "broken_handin")
