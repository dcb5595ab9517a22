"""One walk over every route in every role, with a foreign job, a revoked device, a used and an old code.

Two tables beside this file state each route; a route that states nothing fails the walk.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from bayleaf.usecases.pairing import CODE_MS
from harness.server import error_of
from harness.walk import TECHNICIANS_ORIGIN, Walk, walk
from unit.http.route_samples import NO_JOB, Stated
from unit.http.routes_of_the_office import OF_THE_OFFICE
from unit.http.routes_of_the_record import OF_THE_RECORD

CALLERS = ("nobody", "waiting", "technician", "photographer", "office", "revoked")

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
ROUTES: dict[str, Stated] = {**OF_THE_OFFICE, **OF_THE_RECORD}


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
