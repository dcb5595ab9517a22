"""What a server put back from a copy may have lost without its count being any the lower."""

from __future__ import annotations

import json
from typing import Any

from harness.record import Record

PHOTO: dict[str, Any] = {
    "sha256": "b" * 64, "bytes": 9, "type": "image/png", "width": 1, "height": 1, "thumb": "c" * 64,
    "method": "", "digest": "", "step": "", "slot": "", "position": "", "caption": "",
}  # fmt: skip


def test_a_sync_names_the_photos_whose_bytes_are_not_here(record: Record) -> None:
    mara = record.phone(record.person("Mara Ilves", "technician"), "technician")
    job = record.job(mara.person)
    record.bring(mara, [mara.write(job, "photo", PHOTO)], [mara.head(job)])
    answer = record.sync(mara, {job: 3})
    assert (answer["photos_missing"], answer["thumbs_missing"]) == (["b" * 64], ["c" * 64])


def test_a_phone_taken_off_a_job_is_told_how_far_its_chains_go_and_no_entry(record: Record) -> None:
    mara = record.phone(record.person("Mara Ilves", "technician"), "technician")
    job = record.job(mara.person)
    record.bring(mara, [mara.write(job), mara.write(job)], [mara.head(job)])
    on = json.loads(record.sync(mara, {job: 1})["jobs"][0]["entries"][0]["text"])["hash"]
    record.clock.turn_s(60)
    record.write(job, "assign", {"person": mara.person, "on": False, "over": [on]})
    record.clock.turn_s(60)
    answer = record.sync(mara, {job: 4})
    assert (answer["jobs"], answer["gone_jobs"]) == ([], [job])
    heads = {head["device"]: head for head in answer["gone_heads"][0]["heads"]}
    assert (heads[mara.device]["seq"], heads[mara.device]["count"]) == (2, 2)


def test_whoever_was_never_on_a_job_is_told_nothing_of_it(record: Record) -> None:
    mara = record.phone(record.person("Mara Ilves", "technician"), "technician")
    job = record.job()
    assert record.sync(mara, {job: 0})["gone_heads"] == [{"job": job, "heads": []}]
