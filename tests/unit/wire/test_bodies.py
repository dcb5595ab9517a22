"""Laws of all bodies: a field more, a field less, and that check, schema and document say the same.

What single bodies are refused for stands in tests/vectors/bodies.
"""

from __future__ import annotations

from typing import Any

import pytest
from apispec import APISpec
from apispec.ext.marshmallow import MarshmallowPlugin
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from bayleaf.domain.kinds import KINDS
from bayleaf.wire.bodies import SHAPES, shape_of
from bayleaf.wire.document import describe_entries
from bayleaf.wire.entries import Malformed, judge_body
from bayleaf.wire.shapes import quick_check
from vectors.files import vectors_in

H, K, U = "a" * 64, "b" * 64, "00000000-0000-4000-8000-000000000001"
MEMBERS = {"about", "kind", "body", "code", "field"}
BODIES = vectors_in("bodies", MEMBERS, MEMBERS | {"said"})
WITH_DEFAULT = {"photo": ("position", "caption"), "result": ("tables",), "note": ("mixer",)}
SOUND: list[tuple[str, dict[str, Any]]] = [
    (vector["kind"], vector["body"]) for vector in BODIES.values() if vector["code"] == ""
]


def test_every_kind_has_its_shape() -> None:
    assert set(SHAPES) == set(KINDS)


@pytest.mark.parametrize(("kind", "body"), SOUND)
def test_only_unknown_fields_are_no_fault_but_not_known_yet(kind: str, body: dict[str, Any]) -> None:
    assert judge_body(kind, {**body, "zoo": 1}) == ["body.zoo"]


@pytest.mark.parametrize(("kind", "body"), SOUND)
def test_a_missing_field_is_named_unless_it_has_a_default(kind: str, body: dict[str, Any]) -> None:
    for missing in body:
        less = {key: value for key, value in body.items() if key != missing}
        if missing in WITH_DEFAULT.get(kind, ()):
            assert judge_body(kind, less) == []
        elif missing not in ("run", "mark", "act"):  # these tell a kind's two shapes apart
            with pytest.raises(Malformed, match=missing):
                judge_body(kind, less)


anything: st.SearchStrategy[Any] = st.recursive(
    st.one_of(
        st.booleans(),
        st.integers(-(2**54), 2**54),
        st.sampled_from(["", H, K, U, "on", "done", "H1", "x" * 4001]),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(st.text(max_size=3), inner, max_size=3)
    ),
    max_leaves=5,
)


@given(data=st.data())
def test_the_quick_check_and_the_schema_say_the_same(data: st.DataObject) -> None:
    kind, body = data.draw(st.sampled_from(SOUND))
    changed = dict(body)
    for key in data.draw(st.lists(st.sampled_from(sorted(body)), max_size=2)):
        changed[key] = data.draw(anything)
    if data.draw(st.booleans()):
        changed.pop(data.draw(st.sampled_from(sorted(body))), None)
    if data.draw(st.booleans()):
        changed[data.draw(st.sampled_from(["zoo", "run", "mark", "over"]))] = data.draw(anything)
    shape = shape_of(kind, changed)
    assert quick_check(shape)(changed) == (not shape().validate(changed))


def test_the_document_describes_every_entry_and_agrees_with_the_schemas() -> None:
    spec = APISpec("x", "1", "3.1.0", plugins=[MarshmallowPlugin()])
    describe_entries(spec)
    document = {"components": {"schemas": spec.to_dict()["components"]["schemas"]}}
    for kind, body in SOUND:
        entry = {
            "v": 1, "job": U, "device": U, "seq": 1, "by": U, "auth": "own", "as": [],
            "at_ms": 1, "mono_ms": 1,
            "load": U, "kind": kind, "body": body, "prev": H, "hash": K,
        }  # fmt: skip
        validator = Draft202012Validator({"$ref": "#/components/schemas/Entry", **document})
        assert not list(validator.iter_errors(entry)), kind
        assert list(validator.iter_errors({**entry, "body": {**body, "zoo": 1}})), kind
