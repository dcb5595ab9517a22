"""Canonical form by property: what it writes it reads back, and it reads nothing else."""

import contextlib
import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bayleaf.canonical.form import MAX_SAFE, NotCanonical, dumps, parse_strict

TEXTS = st.text(st.characters(exclude_characters="\0", exclude_categories=["Cs"]), max_size=20)
KEYS = st.text(st.characters(max_codepoint=127, min_codepoint=1), max_size=8)
LEAVES = st.booleans() | st.integers(-MAX_SAFE, MAX_SAFE) | TEXTS
VALUES: st.SearchStrategy[Any] = st.recursive(
    LEAVES,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(KEYS, inner, max_size=4),
    max_leaves=12,
)
OBJECTS = st.dictionaries(KEYS, VALUES, max_size=5)


@given(OBJECTS)
def test_what_is_written_is_read_back_the_same(value: dict[str, Any]) -> None:
    assert parse_strict(dumps(value)) == value


@given(OBJECTS)
def test_any_other_spelling_of_it_is_refused(value: dict[str, Any]) -> None:
    text = json.dumps(value, ensure_ascii=True, indent=1)
    if text == dumps(value):
        return
    with pytest.raises(NotCanonical, match=r"canonical|surrogate"):
        parse_strict(text)


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused_and_nothing_else_happens(text: str) -> None:
    with contextlib.suppress(NotCanonical):
        assert dumps(parse_strict(text)) == text


def test_a_refusal_names_the_field() -> None:
    with pytest.raises(NotCanonical) as refusal:
        parse_strict('{"body":{"points":[[1,2.5]]}}')
    assert refusal.value.field == "body.points.0.1"
    assert "body.points.0.1" in refusal.value.message
