"""The small door of loggers: a key for one run, shown once, ended by the office; rows taken once."""

from __future__ import annotations

from typing import Any

import pytest
from werkzeug.test import TestResponse

from bayleaf.usecases.people import PersonChange, change_person
from harness.doors import NOON_MS
from harness.server import error_of
from unit.readings.shop import HotShop

ROWS = [{"run_s": 0, "readings": {"a": 20.4, "b": 20.5}}, {"run_s": 60, "readings": {"a": 131, "b": 128}}]


@pytest.fixture
def key(shop: HotShop) -> str:
    return made(shop)["key"]


def made(shop: HotShop) -> dict[str, str]:
    body = {"run": shop.run, "logger": "Logger 7"}
    answer = shop.office.post(f"/api/jobs/{shop.job}/logger_keys", json=body)
    assert answer.status_code == 201, answer.text
    told: dict[str, str] = answer.get_json()
    return told


def post(shop: HotShop, key: str, **body: Any) -> TestResponse:
    """From a client without any login."""
    shop.server.clock.turn_s(100)
    headers = {"Authorization": f"Bearer {key}"}
    return shop.server.client().post("/api/logger/readings", json=body, headers=headers)


def test_rows_become_readings_of_the_run_under_who_let_the_logger_in(shop: HotShop, key: str) -> None:
    answer = post(shop, key, rows=ROWS)
    assert answer.get_json() == {"taken": 4, "known": 0, "not_taken": []}
    assert shop.points() == {"a": [[0, 20], [60_000, 131]], "b": [[0, 21], [60_000, 128]]}
    entry = shop.entries("reading")[0]
    assert (entry.by, entry.body["typed_time"], entry.body["run_doubt"]) == (
        shop.server.people["office"], False, False,
    )  # fmt: skip
    (note,) = shop.entries("note")
    assert (note.body["about"], note.body["text"][:26]) == ([shop.run], "Logger Logger 7 was let in")


def test_the_same_rows_again_add_nothing(shop: HotShop, key: str) -> None:
    post(shop, key, rows=ROWS)
    assert post(shop, key, rows=ROWS).get_json() == {"taken": 0, "known": 4, "not_taken": []}
    assert len(shop.entries("reading")) == 2


def test_a_logger_whose_clock_is_wrong_is_put_right_by_what_it_says(shop: HotShop, key: str) -> None:
    behind_ms = 3_600_000
    clock_ms = NOON_MS + 100_000 - behind_ms
    rows = [{"at_ms": clock_ms - 40_000, "readings": {"a": 90}}]
    post(shop, key, rows=rows, clock_ms=clock_ms)
    assert shop.points() == {"a": [[60_000, 90]]}
    assert shop.entries("reading")[0].body["run_doubt"] is False


def test_without_its_clock_the_times_are_in_doubt(shop: HotShop, key: str) -> None:
    post(shop, key, rows=[{"at_ms": NOON_MS + 50_000, "readings": {"a": 90}}])
    assert shop.points() == {"a": [[50_000, 90]]}
    assert shop.entries("reading")[0].body["run_doubt"] is True


def test_what_cannot_be_taken_is_told_by_row_and_reason_and_the_rest_is_taken(
    shop: HotShop, key: str
) -> None:
    rows = [
        {"run_s": -5, "readings": {"a": 20}},
        {"run_s": 10, "readings": {"a": "OL", "b": 21, "z": 20}},
        {"run_s": 4000, "readings": {"a": 22}},
    ]
    told = post(shop, key, rows=rows).get_json()
    assert told["taken"] == 1
    assert [(one["row"], one["sensor"]) for one in told["not_taken"]] == [
        (1, ""),
        (2, "a"),
        (2, "z"),
        (3, ""),
    ]
    reasons = [one["reason"] for one in told["not_taken"]]
    assert reasons[:3] == ["5 s before switch-on", "no figure", "no sensor of this zone; it has a, b, m"]
    assert reasons[3].startswith("3900 s from now")


def test_a_logger_that_calls_too_often_is_told_when_to_come_again(shop: HotShop, key: str) -> None:
    post(shop, key, rows=ROWS)
    headers = {"Authorization": f"Bearer {key}"}
    answer = shop.server.client().post("/api/logger/readings", json={"rows": ROWS}, headers=headers)
    assert error_of(answer) == (429, "too_soon")
    assert answer.headers["Retry-After"] == "10"


@pytest.mark.parametrize("headers", [{}, {"Authorization": "Bearer nobody"}, {"Authorization": "Basic YTpi"}])
def test_nobody_without_a_key_comes_in(shop: HotShop, headers: dict[str, str]) -> None:
    answer = shop.server.client().post("/api/logger/readings", json={"rows": ROWS}, headers=headers)
    assert error_of(answer) == (401, "no_login")


def test_a_key_opens_nothing_else(shop: HotShop, key: str) -> None:
    headers = {"Authorization": f"Bearer {key}"}
    for path in ("/api/jobs", f"/api/jobs/{shop.job}/entries", "/api/bundle"):
        assert error_of(shop.server.client().get(path, headers=headers)) == (401, "no_login")


def test_an_ended_key_writes_no_more_and_what_it_wrote_stays(shop: HotShop) -> None:
    told = made(shop)
    post(shop, told["key"], rows=ROWS)
    assert shop.office.delete(f"/api/logger_keys/{told['id']}").status_code == 204
    assert error_of(post(shop, told["key"], rows=ROWS)) == (401, "no_login")
    assert len(shop.entries("reading")) == 2


def test_a_key_ends_with_the_office_role_of_who_made_it(shop: HotShop, key: str) -> None:
    doors, office = shop.server.parts.doors, shop.server.people["office"]
    change_person(doors, office, PersonChange(roles=("technician",)), shop.server.clock.now_ms())
    assert error_of(post(shop, key, rows=ROWS)) == (401, "no_login")


def test_the_list_of_keys_never_shows_the_secret(shop: HotShop, key: str) -> None:
    post(shop, key, rows=ROWS)
    answer = shop.office.get(f"/api/jobs/{shop.job}/logger_keys")
    (row,) = answer.get_json()["keys"]
    assert (row["logger"], row["readings"], row["heard_ms"] > 0, row["ended_ms"]) == ("Logger 7", 4, True, 0)
    assert key not in answer.text


@pytest.mark.parametrize(
    "rows",
    [
        [],
        [{"readings": {"a": 1}}],
        [{"run_s": 1, "at_ms": 1, "readings": {"a": 1}}],
        [{"run_s": 1}],
        [{"run_s": 1, "readings": {"a": 1}}] * 601,
    ],
)
def test_a_post_that_is_none_is_refused(shop: HotShop, key: str, rows: list[Any]) -> None:
    assert error_of(post(shop, key, rows=rows)) == (400, "broken_request")
