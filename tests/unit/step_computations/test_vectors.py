"""Every shared vector of a step's computation, on the server's side."""

import json
from pathlib import Path
from typing import Any

import pytest

from bayleaf.step_computations import BOOK, Answer, Unanswerable, answer, question_of

VECTORS = Path(__file__).parents[2] / "vectors" / "computations"
MEMBERS = {"about", "source", "inputs"}
ANSWERED = {"values", "verdict"}
MAY = {"lines", "said", "groups", "places", "settings", "facts", "damaged", "asked_at_ms", "log"}


def _loaded(path: Path) -> dict[str, Any]:
    vector: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    told = set(vector) - MEMBERS
    assert set(vector) >= MEMBERS, path.name
    assert told - MAY in (ANSWERED, {"refused"}), f"{path.name}: {sorted(told)}"
    return vector


CASES = {
    f"{path.parent.name}/{path.stem}": (path.parent.name, _loaded(path))
    for path in sorted(VECTORS.glob("*/*.json"))
}


def test_every_computation_has_vectors_and_no_folder_is_another() -> None:
    assert {name for name, _ in CASES.values()} == set(BOOK)


@pytest.mark.parametrize("name", CASES)
def test_the_server_says_what_the_vector_says(name: str) -> None:
    computation, vector = CASES[name]
    question = question_of(computation, vector)
    if "refused" in vector:
        with pytest.raises(Unanswerable) as refused:
            answer(question)
        assert {"field": refused.value.field, "code": refused.value.code} == vector["refused"]
        return
    found = answer(question)
    assert _values(found) == vector["values"]
    assert found.verdict == vector["verdict"]
    if "lines" in vector:
        assert [line.code for line in found.lines] == vector["lines"]
    if "said" in vector:
        assert [[line.code, *line.at, *(one.value for one in line.values)] for line in found.lines] == vector[
            "said"
        ]


def _values(found: Answer) -> list[dict[str, Any]]:
    return [
        {"name": one.name, "value": one.value, "unit": one.unit, "decimals": one.decimals}
        for one in found.values
    ]
