"""Every fold vector, as written, reversed, doubled and shuffled: the same bytes, and what must hold holds."""

import random
from typing import Any

import pytest

from bayleaf.canonical.form import dumps
from bayleaf.domain.entries import Entry, check_envelope, check_hash, entry_of
from bayleaf.domain.findings import CODES
from bayleaf.domain.fold import fold
from bayleaf.domain.kinds import is_kind
from bayleaf.domain.method import methods_of
from bayleaf.wire.entries import judge_body
from vectors import author, methods
from vectors.files import vectors_in
from vectors.scene import at_pointer

VECTORS = vectors_in("fold", {"about", "methods", "entries", "expect", "state"})


def _entries(vector: dict[str, Any]) -> list[Entry]:
    for parsed in vector["entries"]:
        check_hash(parsed)
        check_envelope(parsed)
    return [entry_of(parsed) for parsed in vector["entries"]]


def _orders(name: str, entries: list[Entry]) -> list[list[Entry]]:
    shuffled = entries * 2
    random.Random(name).shuffle(shuffled)
    return [entries, entries[::-1], entries + entries, shuffled]


@pytest.mark.parametrize("name", VECTORS)
def test_state_is_the_vectors_in_any_order(name: str) -> None:
    vector = VECTORS[name]
    held = methods_of(methods.documents(vector["methods"]))
    for entries in _orders(name, _entries(vector)):
        assert dumps(fold(held, entries)) == dumps(vector["state"])


@pytest.mark.parametrize("name", VECTORS)
def test_what_must_hold_holds(name: str) -> None:
    vector = VECTORS[name]
    assert vector["expect"], "a vector says what must hold"
    found = {pointer: at_pointer(vector["state"], pointer) for pointer in vector["expect"]}
    assert found == vector["expect"]


def test_the_files_are_those_that_the_scenes_write() -> None:
    written = {behaviour.name: author.text_of(behaviour) for behaviour in author.behaviours()}
    stored = {name: (author.FOLDER / f"{name}.json").read_text(encoding="utf-8") for name in VECTORS}
    assert stored == written


def test_there_are_at_least_eighty_behaviours_each_with_its_own_sentence() -> None:
    assert len(VECTORS) >= 80
    assert len({vector["about"] for vector in VECTORS.values()}) == len(VECTORS)


def test_every_code_of_finding_stands_in_what_some_vector_must_hold() -> None:
    expected = {
        finding["code"] for vector in VECTORS.values() for finding in vector["expect"].get("/findings", [])
    }
    assert expected == set(CODES)


@pytest.mark.parametrize("name", VECTORS)
def test_every_body_is_one_that_the_server_takes(name: str) -> None:
    unknown = [
        field
        for entry in VECTORS[name]["entries"]
        if is_kind(entry["kind"])
        for field in judge_body(entry["kind"], entry["body"])
    ]
    assert set(unknown) <= {"body.mood"}
