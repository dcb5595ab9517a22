"""Bodies by kind: what each allows, in which words it says no, and what only a newer program would know."""

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
from bayleaf.wire.shapes import faults_of, quick_check

H, K, U = "a" * 64, "b" * 64, "00000000-0000-4000-8000-000000000001"
STEP: dict[str, Any] = {"method": "spine", "digest": H, "step": "look"}
POINTS = [[0, 20], [1000, 21]]

SOUND: list[tuple[str, dict[str, Any]]] = [
    (
        "open",
        {"order": "1", "vin": "", "vehicle": "", "part": "", "side": "none", "invented": True, "over": []},
    ),
    ("assign", {"person": U, "on": True, "over": [H, K]}),
    ("place", {"place": "", "over": []}),
    ("pin", {"methods": [K, H], "over": []}),
    ("close", {"reason": "", "over": []}),
    ("reopen", {"reason": "more", "over": [H]}),
    (
        "file",
        {"heads": [{"device": U, "seq": 1, "hash": H}, {"device": U, "seq": 1, "hash": K}], "reason": ""},
    ),
    ("aside", {"hashes": [H], "code": "unsigned"}),
    ("admit", {"hashes": [H], "reason": "seen"}),
    ("accept", {"code": "open_ask", "at": ["spine", "look", "", "p1"], "hashes": [H], "reason": "fine"}),
    ("accept", {"code": "deviation", "at": [], "hashes": [H], "reason": "fine"}),
    ("send_back", {"hashes": [H], "remark": ""}),
    ("tick", {**STEP, "ask": "", "value": "done", "reason": "", "over": []}),
    ("tick", {**STEP, "ask": "a", "value": "not_applicable", "reason": "no pad", "over": []}),
    ("text", {**STEP, "ask": "a", "point": "", "value": "", "over": []}),
    ("choice", {**STEP, "ask": "a", "point": "", "option": "b", "over": []}),
    ("reading", {**STEP, "ask": "a", "point": "p", "value": -5, "unit": "mm", "decimals": 2, "over": []}),
    (
        "reading",
        {"run": H, "sensor": "m", "unit": "C", "decimals": 0, "points": POINTS, "run_doubt": False,
         "typed_time": True},
    ),
    (
        "photo",
        {"sha256": H, "bytes": 9, "type": "image/png", "width": 1, "height": 1, "thumb": K, "method": "",
         "digest": "", "step": "", "slot": ""},
    ),
    (
        "photo",
        {"sha256": H, "bytes": 9, "type": "image/jpeg", "width": 1, "height": 1, "thumb": K, **STEP,
         "slot": "seen", "position": "H1", "caption": "left"},
    ),
    ("tally", {"position": "H1", "generation": 0, "state": "in_place"}),
    ("tally", {"position": "H1", "generation": 0, "mark": "lost", "piece": "shank", "lost": ""}),
    ("tally", {"position": "H1", "generation": 0, "mark": "found", "piece": "", "lost": H}),
    ("tally", {"position": "H1", "generation": 1, "mark": "damaged_hole", "piece": "", "lost": ""}),
    ("lot", {**STEP, "ask": "a", "material": "glue", "lot": "L 1", "expires_ms": 0}),
    (
        "heat",
        {**STEP, "act": "on", "ask": "a", "zone": "upper", "purpose": "cure", "pads": ["U2", "U1"],
         "plan": ""},
    ),
    (
        "heat",
        {"act": "lift", "run": H, "pad": "U1", "run_ms": 5, "run_doubt": False, "typed_time": False,
         "text": ""},
    ),
    (
        "heat",
        {"act": "abort", "run": H, "pad": "", "run_ms": 5, "run_doubt": True, "typed_time": False,
         "text": ""},
    ),
    ("note", {"text": "x", "method": "", "digest": "", "step": "", "about": []}),
    (
        "deviation",
        {"text": "x", "method": "spine", "digest": H, "step": "", "about": [H], "passes_hold": False},
    ),
    ("countersign", {**STEP, "ask": "", "saw": [H]}),
    ("strike", {"target": H, "reason": "wrong rivet"}),
    (
        "result",
        {**STEP, "ask": "a", "point": "", "computation": "tally_reconciliation", "model": "tally-1",
         "inputs": [H], "values": [{"name": "owed_head", "value": 1, "unit": "pieces", "decimals": 0}],
         "verdict": "inside", "over": []},
    ),
    ("clock", {"what": "set_back", "jump_ms": -9}),
    ("heard", {"run": H, "moment": "soaked", "silent_s": 4}),
]  # fmt: skip

BROKEN: list[tuple[str, dict[str, Any], str, str]] = [
    ("tick", {"value": "not_applicable"}, "body.reason", "allowed is a reason"),
    ("tick", {"over": [K, H]}, "body.over", "out of order or doubled"),
    ("tick", {"over": [H, H]}, "body.over", "out of order or doubled"),
    ("tick", {"digest": "A" * 64}, "body.digest", "64 lower-case hex digits"),
    ("tick", {"step": ""}, "body.step", "1 to 64 of a-z"),
    ("tick", {"step": "look\n"}, "body.step", "1 to 64 of a-z"),
    ("assign", {"on": 1}, "body.on", "found 1, allowed is true or false"),
    ("reading", {"value": True}, "body.value", "found true, allowed is a whole number"),
    ("reading", {"value": "5"}, "body.value", 'found "5"'),
    ("reading", {"decimals": 4}, "body.decimals", "from 0 to 3"),
    ("pin", {"methods": [H, H]}, "body.methods", "an item twice"),
    ("strike", {"reason": ""}, "body.reason", "1 to 4000 characters"),
    ("strike", {"reason": "x" * 4001}, "body.reason", "found 4001 characters"),
    ("photo", {"step": "look"}, "body.method", "either all are given or none"),
    ("photo", {"type": "image/gif"}, "body.type", "image/jpeg, image/png"),
    ("photo", {"position": "a b"}, "body.position", "1 to 32 of"),
    ("note", {"text": ""}, "body.text", "found 0 characters"),
    ("file", {"heads": [{"device": U, "seq": 0, "hash": H}]}, "body.heads[0].seq", "found 0"),
    ("file", {"heads": [{"device": U, "seq": 2, "hash": H}] * 2}, "body.heads", "sorted by device"),
    ("lot", {"expires_ms": -1}, "body.expires_ms", "found -1"),
]


def sound(kind: str) -> dict[str, Any]:
    return dict(next(body for name, body in SOUND if name == kind))


@pytest.mark.parametrize(("kind", "body"), SOUND)
def test_a_sound_body_is_sound_by_both_checks(kind: str, body: dict[str, Any]) -> None:
    assert judge_body(kind, body) == []
    assert faults_of(shape_of(kind, body), body) == ([], [])


def test_every_kind_has_a_sound_body_here() -> None:
    assert {kind for kind, _ in SOUND} == set(KINDS) == set(SHAPES)


@pytest.mark.parametrize(("kind", "changed", "field", "said"), BROKEN)
def test_a_broken_body_names_the_field_and_what_is_allowed(
    kind: str, changed: dict[str, Any], field: str, said: str
) -> None:
    with pytest.raises(Malformed) as malformed:
        judge_body(kind, {**sound(kind), **changed})
    assert (malformed.value.code, malformed.value.field) == ("broken_body", field)
    assert said in malformed.value.message


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"mark": "lost", "piece": "", "lost": ""}, "body.piece"),
        ({"mark": "lost", "piece": "head", "lost": H}, "body.lost"),
        ({"mark": "found", "piece": "head", "lost": ""}, "body.lost"),
        ({"mark": "damaged_hole", "piece": "head", "lost": ""}, "body.piece"),
    ],
)
def test_a_rivet_mark_names_what_it_is_about(changed: dict[str, Any], field: str) -> None:
    with pytest.raises(Malformed) as malformed:
        judge_body("tally", {"position": "H1", "generation": 0, **changed})
    assert malformed.value.field == field


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"act": "lift", "pad": ""}, "body.pad"),
        ({"act": "off", "pad": "U1"}, "body.pad"),
        ({"act": "remark", "pad": "", "text": ""}, "body.text"),
        ({"act": "melt", "pad": ""}, "body.act"),
    ],
)
def test_a_heat_act_names_its_pad_and_a_remark_its_words(changed: dict[str, Any], field: str) -> None:
    act = {"run": H, "run_ms": 1, "run_doubt": False, "typed_time": False, "text": ""}
    with pytest.raises(Malformed) as malformed:
        judge_body("heat", {**act, **changed})
    assert malformed.value.field == field


@pytest.mark.parametrize("count", [0, 601])
def test_a_series_has_one_to_six_hundred_points(count: int) -> None:
    body = next(body for kind, body in SOUND if kind == "reading" and "run" in body)
    with pytest.raises(Malformed) as malformed:
        judge_body("reading", {**body, "points": [[0, 1]] * count})
    assert malformed.value.field == "body.points"


@pytest.mark.parametrize(("kind", "body"), SOUND)
def test_only_unknown_fields_are_no_fault_but_not_known_yet(kind: str, body: dict[str, Any]) -> None:
    assert judge_body(kind, {**body, "zoo": 1}) == ["body.zoo"]


def test_an_unknown_field_inside_a_list_is_not_known_yet_either() -> None:
    heads = [{"device": U, "seq": 1, "hash": H, "zoo": 1}]
    assert judge_body("file", {"heads": heads, "reason": ""}) == ["body.heads[0].zoo"]


@pytest.mark.parametrize(("kind", "body"), SOUND)
def test_a_missing_field_is_named_unless_it_has_a_default(kind: str, body: dict[str, Any]) -> None:
    for missing in body:
        less = {key: value for key, value in body.items() if key != missing}
        if missing in ("position", "caption") and kind == "photo":
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
