"""Texts that are refused: under which code, that they are kept raw, and that they block nothing else."""

from __future__ import annotations

import json

import pytest

from bayleaf.canonical.digest import entry_hash
from bayleaf.canonical.form import dumps
from harness.record import TICK, Record, Writer


def test_a_body_with_an_unknown_field_and_another_fault_is_refused(
    record: Record, mara: Writer, job: str
) -> None:
    fate = record.bring(mara, [mara.write(job, body={**TICK, "mood": "good", "value": "maybe"})])[0]
    assert (fate.code, fate.field) == ("broken_body", "body.value")
    assert fate.message == 'body.value: found "maybe", allowed is one of: done, not_applicable.'


def test_a_refused_text_is_kept_raw_and_has_no_number(record: Record, mara: Writer, job: str) -> None:
    text = mara.write(job).replace('"value":"done"', '"value":"gone"')
    fate = record.bring(mara, [text])[0]
    assert (fate.fate, fate.code, fate.field) == ("refused", "wrong_hash", "hash")
    with record.office.log.reading() as log:
        assert [(kept.text, kept.code) for kept in log.refused_of(job)] == [(text, "wrong_hash")]
    assert record.numbers(job) == [1, 2]


def test_what_follows_a_refused_entry_is_covered_by_its_own_head(
    record: Record, mara: Writer, job: str
) -> None:
    first = mara.write(job)
    broken = mara.write(job, body={**TICK, "value": 7})
    third = mara.write(job)
    heads = [mara.head(job, 1), mara.head(job)]
    assert record.said(mara, [first, broken, third], heads) == ["taken", "broken_body", "taken"]


def _spelled(text: str, old: str, new: str) -> str:
    assert old in text
    return text.replace(old, new)


@pytest.mark.parametrize(
    ("code", "respelled"),
    [
        ("not_canonical", ('{"as"', '{ "as"')),
        ("wrong_hash", ('"seq":1', '"seq":2')),
        ("unsafe_number", ('"mono_ms":1000', '"mono_ms":9007199254740993')),
        ("unsafe_number", ('"mono_ms":1000', '"mono_ms":1000.5')),
        ("lone_surrogate", ('"reason":""', '"reason":"\\ud800"')),
        ("nul_character", ('"reason":""', '"reason":"\\u0000"')),
        ("duplicate_key", ('"seq":1', '"seq":1,"seq":1')),
        ("not_json", ('"seq":1', '"seq":')),
        ("lone_surrogate", ('"reason":""', '"reason":"\ud800"')),
    ],
)
def test_what_is_no_entry_is_refused_under_its_code(
    record: Record, mara: Writer, job: str, code: str, respelled: tuple[str, str]
) -> None:
    fate = record.bring(mara, [_spelled(mara.write(job), *respelled)])[0]
    assert (str(fate.fate), fate.code) == ("refused", code)
    assert fate.message
    with record.office.log.reading() as log:
        assert len(log.refused_of(job)) == 1


def test_a_text_over_64_kb_is_refused_and_kept_up_to_there(record: Record, mara: Writer, job: str) -> None:
    note = {"text": "x" * 70_000, "method": "", "digest": "", "step": "", "about": []}
    fate = record.bring(mara, [mara.write(job, "note", note)])[0]
    assert fate.code == "too_long"
    with record.office.log.reading() as log:
        assert [len(kept.text) for kept in log.refused_of(job)] == [65_536]


def test_an_entry_without_its_hash_or_members_is_refused(record: Record, mara: Writer, job: str) -> None:
    whole = json.loads(mara.write(job))
    bare = {key: value for key, value in whole.items() if key not in ("hash", "load")}
    texts = [dumps(bare), dumps({**bare, "hash": entry_hash(bare)})]
    fates = record.bring(mara, texts)
    assert [(fate.code, fate.field) for fate in fates] == [
        ("wrong_hash", "hash"),
        ("broken_envelope", "load"),
    ]


def test_no_refusal_blocks_what_is_brought_beside_it(record: Record, mara: Writer, job: str) -> None:
    texts = ["", "[]", mara.write(job), "null", mara.write(job), '{"a":1}']
    fates = [str(fate.fate) for fate in record.bring(mara, texts, [mara.head(job)])]
    assert fates == ["refused", "refused", "taken", "refused", "taken", "refused"]
