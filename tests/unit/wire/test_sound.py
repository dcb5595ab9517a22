"""The quick way through says yes only where the thorough one does, whatever a text looks like."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bayleaf.canonical.digest import entry_hash
from bayleaf.canonical.form import dumps, parse_strict
from bayleaf.domain.entries import check_envelope, check_hash
from bayleaf.wire.bodies import shape_of
from bayleaf.wire.entries import read_entry
from bayleaf.wire.shapes import faults_of
from bayleaf.wire.sound import sound_entry
from harness.record import TICK, Writer

JOB = "00000000-0000-4000-8000-000000000001"


def entry(**other: Any) -> str:
    writer = Writer(
        "00000000-0000-4000-8000-000000000002", "00000000-0000-4000-8000-000000000003", ("technician",)
    )
    return writer.write(JOB, **other)


def thoroughly_sound(text: str) -> bool:
    """By canonical form, hash, envelope and schema, one after the other."""
    try:
        parsed = parse_strict(text)
        check_hash(parsed)
        check_envelope(parsed)
    except ValueError:
        return False
    if parsed["v"] != 1 or parsed["kind"] != "tick":
        return False
    return len(parsed) == 14 and faults_of(shape_of("tick", parsed["body"]), parsed["body"]) == ([], [])


def test_what_was_read_once_is_read_quickly_then() -> None:
    text = entry(mono_ms=77)
    assert read_entry(text).parsed == sound_entry(text) == json.loads(text)


@pytest.mark.parametrize(
    "text",
    [
        entry().replace('"seq":1', '"seq":1.0'),
        entry().replace('"seq":1', '"seq":true'),
        entry().replace('"mono_ms":1000', '"mono_ms":9007199254740992'),
        entry(mono_ms=-1),
        entry(v=2),
        entry(kind="weld"),
        entry(prev="x"),
        entry(by="x"),
        entry(as_=["z", "a"]),
        entry(as_=[["z"]]),
        entry(body={**TICK, "reason": "\u0001 \U0001f527 ok"}).replace("\U0001f527", "\\ud83d\\udd27"),
        entry(body={**TICK, "zoo": 1}),
        entry(extra=1),
        "",
        "{}",
        "[1,2,3,4,5,6,7,8,9,10,11,12,13,14]",
        "[" * 90_000,
        entry() + " ",
        " " + entry(),
    ],
)
def test_what_is_not_sound_gets_no_quick_yes(text: str) -> None:
    read_entry(entry())
    assert not thoroughly_sound(text)
    assert sound_entry(text) is None


@pytest.mark.parametrize("found", [1, None, [], {}, "x", "0" * 64, True])
def test_a_hash_of_any_other_kind_gets_no_quick_yes(found: Any) -> None:
    read_entry(entry())
    members = {**json.loads(entry()), "hash": found}
    assert sound_entry(json.dumps(members, sort_keys=True, separators=(",", ":"))) is None


@given(
    reason=st.text(max_size=9),
    name=st.sampled_from(["seq", "at_ms", "v", "kind", "as", "by", "body", "zoo"]),
    found=st.one_of(
        st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=3), st.just([]), st.just({})
    ),
    changes=st.booleans(),
)
def test_both_ways_agree(reason: str, name: str, found: Any, changes: bool) -> None:
    read_entry(entry())
    members = json.loads(entry())
    members["body"]["reason"] = reason
    if changes:
        members[name] = found
    del members["hash"]
    try:
        members["hash"] = entry_hash(members)
        text = dumps(members)
    except ValueError:
        text = json.dumps(members, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    if sound_entry(text) is not None:
        assert thoroughly_sound(text)
