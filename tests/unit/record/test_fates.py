"""Taken or set aside: that each fate is decided by its own rule. What is refused: test_refused_texts.py."""

from __future__ import annotations

import json
from typing import Any

import pytest

from bayleaf.door_ports import DeviceState
from bayleaf.ports import NIL
from bayleaf.usecases.begin_store import begin_store
from harness.record import TICK, Record, Writer


def test_signed_entries_of_an_assigned_technician_are_taken(record: Record, mara: Writer, job: str) -> None:
    texts = [mara.write(job) for _ in range(3)]
    assert record.said(mara, texts, [mara.head(job)]) == ["taken"] * 3
    assert record.kinds(job) == ["open", "assign", "tick", "tick", "tick"]


def test_the_same_entries_again_are_taken_again_and_kept_once(record: Record, mara: Writer, job: str) -> None:
    texts = [mara.write(job), mara.write(job)]
    for _ in range(2):
        assert record.said(mara, [*texts, *texts], [mara.head(job)]) == ["taken"] * 4
    assert record.numbers(job) == [1, 2, 3, 4]


def test_an_unsigned_entry_is_set_aside_by_an_entry_of_the_server(
    record: Record, mara: Writer, job: str
) -> None:
    assert record.said(mara, [mara.write(job)]) == ["unsigned"]
    assert record.kinds(job)[-2:] == ["tick", "aside"]


def test_a_later_head_admits_what_was_unsigned(record: Record, mara: Writer, job: str) -> None:
    first, second = mara.write(job), mara.write(job)
    record.bring(mara, [first])
    assert record.said(mara, [second], [mara.head(job)]) == ["taken"]
    assert record.kinds(job)[-4:] == ["tick", "aside", "tick", "admit"]
    assert record.said(mara, [first]) == ["taken"]


def test_an_entry_whose_admission_was_struck_is_set_aside_again(record: Record, mara: Writer) -> None:
    job = record.job()
    text = mara.write(job)
    record.bring(mara, [text], [mara.head(job)])
    admission = record.write(job, "admit", {"hashes": [mara.lasts[job]], "reason": "seen"})
    assert record.said(mara, [text]) == ["taken"]
    record.write(job, "strike", {"target": admission, "reason": "not ours after all"})
    assert record.said(mara, [text]) == ["foreign_job"]
    record.write(job, "admit", {"hashes": [mara.lasts[job]], "reason": "ours it is"})
    assert record.said(mara, [text]) == ["taken"]


def test_the_server_does_not_admit_again_what_the_office_took_back(
    record: Record, mara: Writer, job: str
) -> None:
    text = mara.write(job)
    record.bring(mara, [text])
    record.bring(mara, [], [mara.head(job)])
    with record.office.log.reading() as log:
        admission = log.after(job, 0, 100)[-1]
    record.write(job, "strike", {"target": admission.hash, "reason": "not this one"})
    begin_store(record.office)
    assert record.kinds(job)[-2:] == ["admit", "strike"]
    assert record.said(mara, [text]) == ["unsigned"]


def test_a_strike_that_may_not_strike_takes_no_admission_back(record: Record, mara: Writer, job: str) -> None:
    text = mara.write(job)
    record.bring(mara, [text])
    record.bring(mara, [], [mara.head(job)])
    with record.office.log.reading() as log:
        admission = log.after(job, 0, 100)[-1].hash
    strike = mara.write(job, "strike", {"target": admission, "reason": "mine"})
    assert record.said(mara, [strike], [mara.head(job)]) == ["taken"]
    assert record.said(mara, [text]) == ["taken"]


def test_a_head_alone_admits_what_was_unsigned(record: Record, mara: Writer, job: str) -> None:
    record.bring(mara, [mara.write(job)])
    record.bring(mara, [], [mara.head(job)])
    assert record.kinds(job)[-1] == "admit"


def test_an_entry_behind_a_signed_one_needs_no_head_of_its_own(
    record: Record, mara: Writer, job: str
) -> None:
    first, second = mara.write(job), mara.write(job)
    assert record.said(mara, [second], [mara.head(job)]) == ["taken"]
    assert record.said(mara, [first]) == ["taken"]


def test_a_head_with_a_wrong_signature_covers_nothing(record: Record, mara: Writer, job: str) -> None:
    stranger = Writer(mara.device, mara.person, mara.roles)
    stranger.chains = mara.chains
    assert record.said(mara, [mara.write(job)], [stranger.head(job)]) == ["unsigned"]


def test_a_head_covers_nothing_beyond_a_gap(record: Record, mara: Writer, job: str) -> None:
    first, _, third = mara.write(job), mara.write(job), mara.write(job)
    assert record.said(mara, [first, third], [mara.head(job)]) == ["unsigned", "taken"]


def test_when_the_gap_is_filled_all_before_it_is_admitted(record: Record, mara: Writer, job: str) -> None:
    first, second, third = mara.write(job), mara.write(job), mara.write(job)
    record.bring(mara, [first, third], [mara.head(job)])
    assert record.said(mara, [second]) == ["taken"]
    assert record.said(mara, [first]) == ["taken"]


def test_both_ends_of_a_fork_are_taken(record: Record, mara: Writer, job: str) -> None:
    restored = Writer(mara.device, mara.person, mara.roles, mara.key)
    one, other = mara.write(job), restored.write(job, mono_ms=5)
    assert record.said(mara, [one], [mara.head(job)]) == ["taken"]
    assert record.said(mara, [other], [restored.head(job)]) == ["taken"]
    answer = record.sync(mara, {job: 0})
    heads = [head["hash"] for head in answer["jobs"][0]["heads"] if head["device"] == mara.device]
    assert sorted(heads) == sorted([mara.lasts[job], restored.lasts[job]])


def test_an_unknown_job_gets_a_shell_that_keeps_its_entries(record: Record, mara: Writer) -> None:
    job = record.ids.uuid()
    assert record.said(mara, [mara.write(job)], [mara.head(job)]) == ["unknown_job"]
    assert record.kinds(job) == ["tick", "aside"]
    assert record.sync(mara, {})["new_jobs"] == []


def test_a_job_that_is_not_the_devices_is_foreign(record: Record, mara: Writer) -> None:
    job = record.job()
    assert record.said(mara, [mara.write(job)], [mara.head(job)]) == ["foreign_job"]


def test_whoever_was_taken_off_the_job_since_the_last_sync_may_still_hand_in(
    record: Record, mara: Writer, job: str
) -> None:
    record.sync(mara, {})
    record.clock.turn_s(60)
    on = record.sync(mara, {job: 0})["jobs"][0]["entries"][1]["text"]
    record.clock.turn_s(60)
    record.write(job, "assign", {"person": mara.person, "on": False, "over": [json.loads(on)["hash"]]})
    record.clock.turn_s(60)
    assert record.said(mara, [mara.write(job)], [mara.head(job)]) == ["taken"]
    assert record.sync(mara, {job: 4})["gone_jobs"] == [job]
    record.clock.turn_s(60)
    assert record.said(mara, [mara.write(job)], [mara.head(job)]) == ["foreign_job"]


def test_a_revoked_device_is_set_aside_whoever_carries_it(record: Record, mara: Writer, job: str) -> None:
    oskar = record.phone(record.person("Oskar Teal", "technician"), "technician")
    record.office.devices.revoke(mara.device, record.clock.now_ms())
    found = record.office.devices.find(mara.device)
    assert found is not None
    assert found.state is DeviceState.REVOKED
    assert record.said(oskar, [mara.write(job)], [mara.head(job)]) == ["revoked_device"]


@pytest.mark.parametrize(
    ("envelope", "fate"),
    [
        ({"auth": "own", "by": "oskar"}, "wrong_person"),
        ({"auth": "pin", "by": "oskar"}, "taken"),
        ({"auth": "picked", "by": "oskar"}, "taken"),
        ({"auth": "pin", "by": "00000000-0000-4000-8000-00000000dead"}, "wrong_person"),
        ({"auth": "own", "by": NIL, "as_": []}, "wrong_person"),
    ],
)
def test_own_is_for_the_devices_own_person(
    record: Record, mara: Writer, job: str, envelope: dict[str, str], fate: str
) -> None:
    oskar = record.person("Oskar Teal", "technician")
    named: dict[str, Any] = {key: oskar if value == "oskar" else value for key, value in envelope.items()}
    assert record.said(mara, [mara.write(job, **named)], [mara.head(job)]) == [fate]


def test_nobody_may_write_that_a_clock_was_changed(record: Record, mara: Writer, job: str) -> None:
    body = {"what": "stepped", "jump_ms": -5000}
    text = mara.write(job, "clock", body, by=NIL, as_=[])
    assert record.said(mara, [text], [mara.head(job)]) == ["taken"]


def test_a_photographer_ticks_nothing(record: Record) -> None:
    pim = record.phone(record.person("Pim Reed", "photographer"), "photographer")
    job = record.job(pim.person)
    note = {"text": "seen", "method": "", "digest": "", "step": "", "about": []}
    texts = [pim.write(job), pim.write(job, "note", note)]
    assert record.said(pim, texts, [pim.head(job)]) == ["role", "taken"]


def test_a_technician_writes_no_kind_of_the_office(record: Record, mara: Writer, job: str) -> None:
    text = mara.write(job, "close", {"reason": "done", "over": []})
    assert record.said(mara, [text], [mara.head(job)]) == ["role"]


def test_a_role_that_was_lost_since_the_last_sync_still_counts(
    record: Record, mara: Writer, job: str
) -> None:
    record.sync(mara, {job: 2})
    record.clock.turn_s(60)
    record.office.people.set_roles(mara.person, [], [], record.clock.now_ms())
    record.clock.turn_s(60)
    texts = [mara.write(job) for _ in range(2)]
    answer = record.sync(mara, {job: 2}, texts=texts[:1], heads=[mara.head(job, 1)], holds_entries=2)
    assert [fate["fate"] for fate in answer["fates"]] == ["taken"]
    answer = record.sync(mara, {job: 3}, texts=texts[1:], heads=[mara.head(job)], holds_entries=1)
    assert [fate["fate"] for fate in answer["fates"]] == ["taken"], "a backlog is judged as one"
    record.clock.turn_s(60)
    assert record.said(mara, [mara.write(job)], [mara.head(job)]) == ["role"]


def test_a_role_that_was_never_held_cannot_be_claimed(record: Record, mara: Writer, job: str) -> None:
    text = mara.write(job, as_=["office", "technician"])
    assert record.said(mara, [text], [mara.head(job)]) == ["role"]


def test_an_unknown_kind_form_or_field_waits_for_a_newer_program(
    record: Record, mara: Writer, job: str
) -> None:
    texts = [
        mara.write(job, "weld", {"spot": 1}),
        mara.write(job, v=2),
        mara.write(job, body={**TICK, "mood": "good"}),
        mara.write(job, colour="red"),
    ]
    assert record.said(mara, texts, [mara.head(job)]) == ["not_yet_known"] * 4
    assert record.sync(mara, {job: 2})["jobs"][0]["cursor"] == 7
