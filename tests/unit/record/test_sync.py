"""A sync: what a device hears, what it does not hear twice, and how both know that they agree."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import pytest

from bayleaf.canonical.digest import set_digest, value_digest
from bayleaf.domain.entries import read_entry
from bayleaf.domain.fold import fold
from bayleaf.ports import NIL
from bayleaf.usecases.fates import Brought, DeviceClock
from bayleaf.usecases.sync import SyncRequest, sync
from harness.record import TICK, Record, Writer

NOTE: dict[str, Any] = {"text": "seen", "method": "", "digest": "", "step": "", "about": []}


@pytest.fixture
def pim(record: Record) -> Writer:
    return record.phone(record.person("Pim Reed", "photographer"), "photographer")


@pytest.fixture
def job(record: Record, mara: Writer, pim: Writer) -> str:
    return record.job(mara.person, pim.person)


def of(answer: dict[str, Any], job: str) -> dict[str, Any]:
    """The part of the answer about one job."""
    found: dict[str, Any] = next(one for one in answer["jobs"] if one["job"] == job)
    return found


def test_a_new_phone_hears_its_jobs_whole(record: Record, mara: Writer, job: str) -> None:
    answer = record.sync(mara, {}, log="")
    assert answer["new_jobs"] == [job]
    assert [json.loads(one["text"])["kind"] for one in of(answer, job)["entries"]] == [
        "open",
        "assign",
        "assign",
    ]
    assert (of(answer, job)["cursor"], of(answer, job)["more"]) == (3, False)
    assert answer["log"] == record.name()


def test_what_a_device_brought_does_not_come_back(
    record: Record, mara: Writer, pim: Writer, job: str
) -> None:
    answer = record.sync(mara, {job: 3}, texts=[mara.write(job)], heads=[mara.head(job)])
    assert (of(answer, job)["entries"], of(answer, job)["cursor"]) == ([], 4)
    heard = of(record.sync(pim, {job: 3}), job)["entries"]
    assert [json.loads(one["text"])["device"] for one in heard] == [mara.device]


def test_what_was_set_aside_is_answered_with_the_aside_itself(record: Record, mara: Writer, job: str) -> None:
    answer = record.sync(mara, {job: 3}, texts=[mara.write(job)])
    assert [json.loads(one["text"])["kind"] for one in of(answer, job)["entries"]] == ["aside"]
    assert of(answer, job)["cursor"] == 5


def test_at_most_two_thousand_entries_come_at_once(
    record: Record, mara: Writer, pim: Writer, job: str
) -> None:
    texts = [mara.write(job) for _ in range(2_100)]
    record.bring(mara, texts, [mara.head(job)])
    first = of(record.sync(pim, {job: 0}), job)
    assert (len(first["entries"]), first["more"], first["cursor"]) == (2_000, True, 2_000)
    second = of(record.sync(pim, {job: first["cursor"]}), job)
    assert (len(second["entries"]), second["more"], second["cursor"]) == (103, False, 2_103)


def test_digests_come_only_where_nothing_moved(record: Record, mara: Writer, job: str) -> None:
    text = mara.write(job, "note", NOTE)
    moved = record.sync(mara, {job: 3}, texts=[text], heads=[mara.head(job)])
    assert "set_digest" not in of(moved, job)
    still = of(record.sync(mara, {job: 4}), job)
    with record.office.log.reading() as log:
        entries = [read_entry(entry.text) for entry in log.after(job, 0, 100)]
    assert still["set_digest"] == set_digest(entry.hash for entry in entries)
    assert still["state_digest"] == value_digest(fold({}, entries))


def test_no_state_digest_where_a_method_that_an_entry_names_is_missing(
    record: Record, mara: Writer, job: str
) -> None:
    record.bring(mara, [mara.write(job)], [mara.head(job)])
    still = of(record.sync(mara, {job: 4}), job)
    assert "set_digest" in still
    assert "state_digest" not in still


def test_no_state_digest_where_a_pinned_method_is_missing(record: Record, mara: Writer, job: str) -> None:
    record.write(job, "pin", {"methods": ["c" * 64], "over": []})
    still = of(record.sync(mara, {job: 4}), job)
    assert "set_digest" in still
    assert "state_digest" not in still


def test_every_chain_stands_in_the_answer_with_its_signed_head(
    record: Record, mara: Writer, job: str
) -> None:
    answer = record.sync(mara, {job: 3}, texts=[mara.write(job), mara.write(job)], heads=[mara.head(job)])
    heads = {head["device"]: head for head in of(answer, job)["heads"]}
    mine = heads[mara.device]
    assert (mine["seq"], mine["count"], mine["hash"]) == (2, 2, mara.lasts[job])
    assert mine["signature"] == mara.head(job).signature or len(mine["signature"]) == 128
    server = next(head for device, head in heads.items() if device != mara.device)
    with record.office.log.reading() as log:
        own = log.own_device()
    text = f"bayleaf-head-1\n{job}\n{server['device']}\n{server['seq']}\n{server['hash']}"
    assert record.office.keys.verifies(own.public_key, text, server["signature"])


def test_the_cards_of_the_authors_come_along(record: Record, mara: Writer, pim: Writer, job: str) -> None:
    record.bring(mara, [mara.write(job)], [mara.head(job)])
    cards = [json.loads(card["card"]) for card in record.sync(pim, {job: 0})["cards"]]
    assert {card["device"] for card in cards} >= {mara.device}
    assert any(card["person"] == NIL for card in cards), "the server's own"


def test_a_job_that_is_no_longer_the_devices_is_gone(record: Record, mara: Writer, job: str) -> None:
    with record.office.log.reading() as log:
        assigned = log.after(job, 1, 1)[0].hash
    record.write(job, "assign", {"person": mara.person, "on": False, "over": [assigned]})
    record.clock.turn_s(1)
    answer = record.sync(mara, {job: 3})
    assert (answer["gone_jobs"], answer["jobs"]) == ([job], [])


def test_a_filed_job_stays_for_thirty_days(record: Record, mara: Writer, job: str) -> None:
    with record.office.log.writing() as log:
        row = log.job(job)
        assert row is not None
        log.put_job(replace(row, filed_ms=record.clock.now_ms()))
    record.clock.turn_s(29 * 24 * 3600)
    answer = record.sync(mara, {job: 3})
    assert (answer["filed_jobs"], answer["gone_jobs"]) == ([job], [])
    record.clock.turn_s(2 * 24 * 3600)
    assert record.sync(mara, {job: 3})["gone_jobs"] == [job]


def test_a_shared_phone_holds_every_job(record: Record, job: str) -> None:
    shared = record.phone(NIL)
    assert record.sync(shared, {})["new_jobs"] == [job]
    other = record.person("Oskar Teal", "technician")
    text = shared.write(job, by=other, auth="pin", as_=["technician"])
    assert record.said(shared, [text], [shared.head(job)]) == ["taken"]


def test_an_older_protocol_is_heard_and_told_to_update(record: Record, mara: Writer, job: str) -> None:
    brought = Brought([mara.write(job)], [mara.head(job)])
    request = SyncRequest(0, record.name(), {job: 3}, brought)
    answer = sync(record.office, mara.caller(), request)
    assert (answer["update"], [fate["fate"] for fate in answer["fates"]]) == (True, ["taken"])
    assert record.sync(mara, {job: 4})["update"] is False


def test_an_entry_travels_with_the_offset_of_its_authors_clock(
    record: Record, mara: Writer, pim: Writer, job: str
) -> None:
    """The phone's clock is 40 s slow, and was set back by 100 s more in the same page load."""
    text = mara.write(job)
    entry = json.loads(text)
    clock = DeviceClock(entry["load"], entry["at_ms"] + 20_000 - 100_000, entry["mono_ms"] + 20_000)
    record.clock.at_ms = entry["at_ms"] + 20_000 + 40_000
    brought = Brought([text], [mara.head(job)], clock=clock)
    sync(record.office, mara.caller(), SyncRequest(1, record.name(), {job: 3}, brought))
    heard = of(record.sync(pim, {job: 3}), job)["entries"][0]
    assert (heard["received_ms"], heard["offset_ms"]) == (record.clock.at_ms, 40_000)


def test_another_authors_offset_is_not_guessed(record: Record, mara: Writer, pim: Writer, job: str) -> None:
    clock = DeviceClock("00000000-0000-4000-8000-0000000010ad", 1, 1)
    brought = Brought([mara.write(job)], [mara.head(job)], clock=clock)
    sync(record.office, pim.caller(), SyncRequest(1, record.name(), {job: 3}, brought))
    assert "offset_ms" not in of(record.sync(mara, {job: 3}), job)["entries"][0]


def test_a_mismatch_report_reaches_the_offices_log(record: Record, mara: Writer, job: str) -> None:
    record.sync(mara, {job: 3}, reports=[(job, "The state digests differ.")])
    line = record.office.office_log.lines(10)[0]
    assert (line.job, line.device, line.text) == (job, mara.device, "The state digests differ.")


def test_what_becomes_known_is_admitted_at_the_next_start(
    record: Record, mara: Writer, job: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The newer program is played by a set of kinds that has one more."""
    from bayleaf.usecases.mend import mend_all
    from bayleaf.wire import bodies_phone, entries

    record.bring(mara, [mara.write(job, "weld", {**TICK})], [mara.head(job)])
    assert (mend_all(record.office), record.kinds(job)[-1]) == (0, "aside")
    monkeypatch.setattr(entries, "is_kind", lambda kind: kind == "weld")
    monkeypatch.setattr(entries, "shape_of", lambda _kind, _body: bodies_phone.TickBody)
    monkeypatch.setattr("bayleaf.usecases.judge.WRITES", {"office": set()})
    assert mend_all(record.office) == 1
    assert record.kinds(job)[-1] == "admit"
    assert mend_all(record.office) == 0


def test_what_a_request_hands_in_is_no_longer_held_by_the_phone(
    record: Record, mara: Writer, job: str
) -> None:
    texts = [mara.write(job) for _ in range(3)]
    record.sync(mara, {job: 2}, texts=texts[:2], heads=[mara.head(job, 2)], holds_entries=3, holds_photos=1)
    device = record.office.devices.find(mara.device)
    assert device is not None
    assert (device.holds_entries, device.holds_photos) == (1, 1)
