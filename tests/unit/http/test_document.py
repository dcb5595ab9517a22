"""The OpenAPI document states every API route, and requests made from it never find a fault of the server."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from typing import Any

import pytest
import schemathesis
from flask.testing import FlaskClient
from hypothesis import HealthCheck, given, settings
from hypothesis.errors import Unsatisfiable
from hypothesis.strategies import SearchStrategy
from schemathesis import GenerationMode
from schemathesis.config import SchemathesisConfig

from harness.server import Bench, bench

EXAMPLES = 15
ANY_TEXT = {"type": "string", "minLength": 1}
schemathesis.serializer.alias("application/offset+octet-stream", "application/octet-stream")
schemathesis.serializer.alias("application/pdf", "application/octet-stream")
LOGINS: dict[str, Callable[[Bench], FlaskClient]] = {
    "the office": lambda served: served.office(),
    "a technician's phone": lambda served: served.phone("technician").client,
}
COOKIES = ("bayleaf_office", "bayleaf_device")
bounded = settings(
    max_examples=EXAMPLES,
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=list(HealthCheck),
)


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    made = bench(tmp_path_factory.mktemp("document") / "data")
    made.job("technician")
    yield made
    made.close()


@pytest.fixture(scope="module")
def documented(served: Bench) -> Any:
    config = SchemathesisConfig.discover()
    return schemathesis.openapi.from_wsgi("/api/openapi.json", served.app, config=config)


def cookies_of(client: FlaskClient) -> dict[str, str]:
    held = {name: client.get_cookie(name) for name in COOKIES}
    return {name: cookie.value for name, cookie in held.items() if cookie is not None}


@pytest.fixture(scope="module")
def logins(served: Bench) -> dict[str, dict[str, str]]:
    return {who: cookies_of(sign_in(served)) for who, sign_in in LOGINS.items()}


def test_no_request_made_from_the_document_finds_a_fault(
    served: Bench, documented: Any, logins: dict[str, dict[str, str]], subtests: pytest.Subtests
) -> None:
    """Well-formed and malformed requests alike, as each caller."""
    (row,) = served.office().get("/api/jobs").get_json()["jobs"]
    known = {"job": row["job"], "person": row["assigned"][0], "digest": row["methods"][0]["digest"]}
    operations = [found.ok() for found in documented.get_all_operations()]
    for operation in operations:
        for mode in _modes(served.client().get("/api/openapi.json").get_json(), operation):
            with subtests.test(operation=operation.label, mode=mode.value):
                _try(operation.as_strategy(generation_mode=mode), logins, _of(operation.path, known))


def _try(cases: SearchStrategy[Any], logins: dict[str, dict[str, str]], known: dict[str, str]) -> None:
    """The office names what is there, so that its requests reach past 'unknown'."""

    @bounded
    @given(case=cases)
    def tried(case: Any) -> None:
        for cookies in logins.values():
            case.path_parameters |= known if "bayleaf_office" in cookies else {}
            if not case.path.endswith("/logout"):  # the next request still needs its login
                judge(case, case.call(cookies=cookies))

    with suppress(Unsatisfiable):  # an operation without parameters cannot be malformed
        tried()


def _modes(document: Any, operation: Any) -> tuple[GenerationMode, ...]:
    """Without the malformed where any text is well formed: the search for one that is not takes seconds."""
    path = document["paths"][operation.path]
    stated = path[operation.method]
    parameters = [*path.get("parameters", []), *stated.get("parameters", [])]
    json_body = "application/json" in stated.get("requestBody", {}).get("content", {})
    any_text = parameters and all(one["schema"] == ANY_TEXT for one in parameters)
    return (GenerationMode.POSITIVE,) if any_text and not json_body else tuple(GenerationMode)


def _of(path: str, known: dict[str, str]) -> dict[str, str]:
    return {name: value for name, value in known.items() if f"{{{name}}}" in path}


def judge(case: Any, answer: Any) -> None:
    """Never a fault of the server, and every refusal in the one shape."""
    assert answer.status_code < 500, (case.as_curl_command(), answer.text)
    if answer.status_code >= 400 and case.method != "HEAD":
        assert {"code", "message", "field"} <= answer.json().keys()


def test_the_document_is_openapi_3_1_and_states_every_api_route(served: Bench) -> None:
    document = served.client().get("/api/openapi.json").get_json()
    assert document["openapi"].startswith("3.1")
    stated = [
        f"{method} {path}"
        for path, operations in document["paths"].items()
        for method in operations
        if method != "parameters"
    ]
    views = [
        endpoint
        for endpoint, view in served.app.view_functions.items()
        if hasattr(view, "callers") and not endpoint.startswith("front_end")
    ]
    assert len(stated) == len(views)
