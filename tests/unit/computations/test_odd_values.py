"""Whatever stands in a field, the answer is a document: finite figures, or a refusal that can be mended."""

import json
from typing import Any

import pytest

from bayleaf.computations import BONDING, FASTENING, DocumentRefused, answer_text, refused_document
from reference.cases import Case, cases_of

BOOKS = {"fastening": FASTENING, "bonding": BONDING}
ODD: list[Any] = [-1, 0, 5e-324, 1e308, "4", None, [], {}, True]


def first_of_each() -> list[Case]:
    """One answered case a computation."""
    found: dict[str, Case] = {}
    for case in cases_of("fastening") + cases_of("bonding"):
        if case.expected.get("refused") is not True:
            found.setdefault(case.computation, case)
    return list(found.values())


def answer(case: Case, inputs: dict[str, Any]) -> dict[str, Any]:
    computation = BOOKS[case.command][case.computation]
    try:
        return answer_text(computation, json.dumps(inputs))
    except DocumentRefused as refused:
        return refused_document(computation, refused)


@pytest.mark.parametrize("case", first_of_each(), ids=lambda case: case.computation)
def test_an_odd_value_in_any_field_is_answered_or_refused_and_never_breaks(case: Case) -> None:
    for field in case.inputs:
        for odd in ODD:
            answered = answer(case, {**case.inputs, field: odd})
            json.dumps(answered, allow_nan=False)
            if answered["result"].get("refused"):
                assert answered["result"]["found"]
                assert answered["result"]["allowed"]


@pytest.mark.parametrize("case", first_of_each(), ids=lambda case: case.computation)
def test_a_field_that_is_wanting_is_named_or_has_its_default(case: Case) -> None:
    computation = BOOKS[case.command][case.computation]
    wanted = {*computation.asks, *(name for names in computation.one_of for name in names)}
    for field in wanted & set(case.inputs):
        result = answer(case, {name: one for name, one in case.inputs.items() if name != field})["result"]
        assert result.get("refused") is True or field in computation.defaults(), field
        if field in computation.asks:
            assert result["field"] == field
