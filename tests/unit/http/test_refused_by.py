"""The document says of every operation with which codes it can refuse."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from bayleaf.http.refused_by import METHODS, OWN
from harness.server import bench


@pytest.fixture(scope="module")
def document(tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[str, Any]]:
    served = bench(tmp_path_factory.mktemp("refused") / "data")
    yield served.client().get("/api/openapi.json").get_json()
    served.close()


def operations(document: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {
        f"{method} {path}": item[method]
        for path, item in document["paths"].items()
        for method in METHODS
        if method in item
    }


def test_every_operation_with_codes_of_its_own_is_a_route(document: dict[str, Any]) -> None:
    assert set(OWN) <= set(operations(document))


def test_an_operation_tells_its_doors_its_bodys_and_its_own_codes_by_status(document: dict[str, Any]) -> None:
    told = operations(document)["post /api/pair/codes"]["x-refusals"]
    assert [(one["status"], one["code"]) for one in told] == [
        (400, "broken_request"),
        (400, "nul_character"),
        (400, "unreadable_json"),
        (400, "unsafe_number"),
        (401, "no_login"),
        (403, "not_paired"),
        (403, "revoked_device"),
        (403, "wrong_door"),
        (404, "unknown_person"),
        (413, "too_large"),
        (415, "not_json_type"),
    ]


def test_what_everybody_may_ask_refuses_nobody_at_the_door(document: dict[str, Any]) -> None:
    assert operations(document)["get /api/health"]["x-refusals"] == []
