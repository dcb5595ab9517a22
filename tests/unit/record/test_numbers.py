"""Numbers without gaps in the order of commits, whoever appends at the same time."""

from __future__ import annotations

import multiprocessing
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from harness.appending import ROUNDS, append_from_another_process
from harness.record import Record, Writer, record_on_disk


def test_processes_that_append_at_once_leave_no_gap(tmp_path: Path) -> None:
    record = record_on_disk(tmp_path)
    job = record.job()
    spawning = multiprocessing.get_context("spawn")
    path = str(tmp_path / "bayleaf.sqlite3")
    others = [spawning.Process(target=append_from_another_process, args=(path, job, who)) for who in range(3)]
    for other in others:
        other.start()
    for other in others:
        other.join(60)
        assert other.exitcode == 0
    appended = 3 * sum(turn % 3 + 1 for turn in range(ROUNDS))
    assert record.numbers(job) == list(range(1, appended + 2))


def test_phones_and_office_that_write_at_once_leave_no_gap_and_no_fork(tmp_path: Path) -> None:
    record = record_on_disk(tmp_path)
    phones = [record.phone(record.person(f"P{at}", "technician"), "technician") for at in range(3)]
    job = record.job(*[phone.person for phone in phones])

    with ThreadPoolExecutor(4) as pool:
        waiting = [pool.submit(_push, record, phone, job) for phone in phones]
        waiting.append(pool.submit(_move, record, job))
        for one in waiting:
            one.result()
    assert record.numbers(job) == list(range(1, 4 + 3 * ROUNDS + ROUNDS + 1))
    with record.office.log.reading() as log:
        own = log.own_device()
        server = [entry for entry in log.after(job, 0, 1000) if entry.device == own.id]
    assert [entry.seq for entry in server] == list(range(1, len(server) + 1))
    assert [entry.prev for entry in server[1:]] == [entry.hash for entry in server[:-1]]


def _push(record: Record, phone: Writer, job: str) -> None:
    for _ in range(ROUNDS):
        assert record.said(phone, [phone.write(job)], [phone.head(job)]) == ["taken"]


def _move(record: Record, job: str) -> None:
    for at in range(ROUNDS):
        record.write(job, "place", {"place": f"bay {at}", "over": []})
