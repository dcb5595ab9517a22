"""What is no request is refused by code, field and a sentence; nothing is stored half."""

from __future__ import annotations

import pytest

from harness.server import Bench, error_of

UNREADABLE = {
    "no json": b"name=x",
    "half an object": b'{"name":',
    "not utf-8": b'{"name": "\xff"}',
    "lone surrogate": b'{"name": "\\ud800", "roles": []}',
    "not a number": b'{"name": NaN}',
    "nested too deep": b"[" * 100_000,
}


@pytest.mark.parametrize("raw", UNREADABLE.values(), ids=UNREADABLE)
def test_unreadable_json_is_told_so(server: Bench, raw: bytes) -> None:
    answer = server.office().post("/api/people", data=raw, content_type="application/json")
    assert error_of(answer) == (400, "unreadable_json")


@pytest.mark.parametrize(
    ("raw", "code"),
    [
        (b'{"name": "a\\u0000b", "roles": []}', "nul_character"),
        (b'{"name": 9007199254740992}', "unsafe_number"),
        (b'{"name": ' + b"9" * 5000 + b"}", "unsafe_number"),
        (b"[]", "broken_request"),
        (b'"text"', "broken_request"),
        (b"null", "broken_request"),
    ],
)
def test_json_that_no_store_could_keep_is_refused(server: Bench, raw: bytes, code: str) -> None:
    answer = server.office().post("/api/people", data=raw, content_type="application/json")
    assert error_of(answer) == (400, code)


def test_an_escaped_backslash_before_u0000_is_only_text(server: Bench) -> None:
    body = {"name": "a \\u0000 b", "roles": []}
    assert server.office().post("/api/people", json=body).status_code == 201


@pytest.mark.parametrize(
    ("body", "field"),
    [
        ({}, "name"),
        ({"name": "", "roles": []}, "name"),
        ({"name": " x", "roles": []}, "name"),
        ({"name": "x" * 101, "roles": []}, "name"),
        ({"name": "a\nb", "roles": []}, "name"),
        ({"name": "a\u202eb", "roles": []}, "name"),
        ({"name": "x", "roles": ["king"]}, "roles[0]"),
        ({"name": "x", "roles": "technician"}, "roles"),
        ({"name": "x", "roles": [], "qualifications": ["ok", "Not Ok"]}, "qualifications[1]"),
        ({"name": "x", "roles": [], "colour": "red"}, "colour"),
        ({"name": 3, "roles": []}, "name"),
        ({"name": None, "roles": []}, "name"),
    ],
)
def test_a_broken_field_is_named(server: Bench, body: dict[str, object], field: str) -> None:
    answer = server.office().post("/api/people", json=body)
    assert error_of(answer) == (400, "broken_request")
    assert answer.get_json()["field"] == field
    assert field in answer.get_json()["message"]


def test_another_content_type_is_refused_so_that_no_form_can_post(server: Bench) -> None:
    answer = server.office().post("/api/people", data=b"{}", content_type="text/plain")
    assert error_of(answer) == (415, "not_json_type")


def test_a_body_over_the_bound_is_refused(server: Bench) -> None:
    answer = server.office().post("/api/people", json={"name": "x" * 1_100_000, "roles": []})
    assert error_of(answer) == (413, "too_large")


def test_an_unknown_path_and_another_method_are_told_in_json(server: Bench) -> None:
    assert error_of(server.client().get("/api/nothing")) == (404, "not_found")
    assert error_of(server.client().post("/api/nothing")) == (404, "not_found")
    answer = server.client().delete("/api/people")
    assert error_of(answer) == (405, "wrong_method")
    assert set(answer.headers["Allow"].replace(" ", "").split(",")) >= {"GET", "POST"}
