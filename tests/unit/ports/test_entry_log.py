"""The promise of the entry log, written once and asked of every adapter of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy.exc import IntegrityError

from bayleaf.adapters.database import open_engine
from bayleaf.adapters.memory_entry_log import MemoryEntryLog
from bayleaf.adapters.sql_entry_log import SqlEntryLog
from bayleaf.adapters.tables import metadata
from bayleaf.ports import (
    AsideMark,
    Chain,
    EntryLog,
    JobRow,
    LoggedEntry,
    RefusedText,
    ServerDevice,
    SignedHead,
    Span,
    WritesLog,
)

JOB, OTHER, DEVICE, PERSON = "job-1", "job-2", "device-1", "person-1"


def logged(name: str, seq: int = 1, *, prev: str = "0", job: str = JOB, signed: bool = True) -> LoggedEntry:
    return LoggedEntry(name, job, 0, DEVICE, seq, prev, "tick", f"text {name}", 5, None, DEVICE, signed)


def check_entry_log(log: EntryLog) -> None:
    """Numbers, order, marks, spans, heads, names; and nothing of a transaction that failed."""
    _check_numbers(log)
    _check_that_a_failed_transaction_leaves_nothing(log)
    _check_chains_and_heads(log)
    _check_marks(log)
    _check_who_is_on_it(log)
    _check_the_rest(log)
    _check_what_is_asked_over_all_jobs(log)


def _check_what_is_asked_over_all_jobs(log: EntryLog) -> None:
    lots = [
        logged(name, seq, job=job)._replace(kind="lot", text=f"of {lot}", received_ms=at_ms)
        for name, seq, job, lot, at_ms in (("l1", 5, JOB, "KL-77", 6), ("l2", 6, OTHER, "kl-78", 8))
    ]
    pin = logged("p1", 7)._replace(kind="pin", text="of digest-1")
    with log.writing() as writing:
        for entry in (*lots, pin):
            writing.append(entry.job, [entry])
    with log.reading() as reading:
        assert [one.hash for one in reading.of_lots("", 9)] == ["l2", "l1"]
        assert [one.hash for one in reading.of_lots("", 1)] == ["l2"]
        assert [one.hash for one in reading.of_lots("Kl-77", 9)] == ["l1"]
        assert reading.of_lots("%", 9) == []
        assert [one.hash for one in reading.pinning("digest-1", 9)] == ["p1"]
        assert reading.pinning("digest-2", 9) == []


def _check_numbers(log: EntryLog) -> None:
    with log.writing() as writing:
        writing.lock([OTHER, JOB])
        writing.put_job(JobRow(JOB, 7, shell=True, order="first", made_ms=1))  # noqa: S604  (a job, no shell)
        writing.put_job(JobRow(OTHER, 0, shell=False, made_ms=2))
        assert writing.append(JOB, [logged("a"), logged("b", 2, prev="a")]) == 1
        assert writing.append(JOB, [logged("c", 3, prev="b", signed=False)]) == 3
        assert writing.append(OTHER, [logged("d", job=OTHER)]) == 1
        assert writing.held(["a", "x"]) == {"a"}
        writing.put_job(JobRow(JOB, 0, shell=False, order="second", made_ms=1, filed_ms=9))
    with log.reading() as reading:
        assert reading.job(JOB) == JobRow(JOB, 3, shell=False, order="second", made_ms=1, filed_ms=9)
        assert [row.id for row in reading.jobs()] == [JOB, OTHER]
        assert [(one.number, one.hash) for one in reading.after(JOB, 1, 9)] == [(2, "b"), (3, "c")]
        assert [one.hash for one in reading.after(JOB, 0, 2)] == ["a", "b"]
        assert reading.after(JOB, 0, 1)[0] == logged("a")._replace(number=1)
        assert list(reading.hashes(JOB)) == ["a", "b", "c"]
        assert [one.hash for one in reading.by_hashes(JOB, ["c", "a", "d"])] == ["a", "c"]
        assert [one.hash for one in reading.of_kinds(JOB, {"tick"})] == ["a", "b", "c"]
        assert reading.of_kinds(JOB, {"tock"}) == []
        assert reading.job("nothing") is None


def _check_that_a_failed_transaction_leaves_nothing(log: EntryLog) -> None:
    with pytest.raises(ZeroDivisionError), log.writing() as writing:
        _write_and_fail(writing)
    with pytest.raises((ValueError, IntegrityError)), log.writing() as writing:
        writing.append(JOB, [logged("f", 4), logged("a", 5)])
    with log.reading() as reading:
        assert list(reading.hashes(JOB)) == ["a", "b", "c"]
        assert reading.held(["e", "f"]) == set()
        assert reading.job("job-3") is None


def _write_and_fail(writing: WritesLog) -> None:
    writing.append(JOB, [logged("e", 4)])
    writing.put_job(JobRow("job-3", 0, shell=False))
    raise ZeroDivisionError


def _check_chains_and_heads(log: EntryLog) -> None:
    heads = [SignedHead(JOB, DEVICE, seq, name, "s") for seq, name in ((1, "a"), (2, "b"))]
    with log.writing() as writing:
        writing.put_heads(heads, 5)
        writing.put_heads(heads[1:], 6)
        assert [one.hash for one in writing.unsigned(JOB, DEVICE)] == ["c"]
        assert writing.signed_after(JOB, DEVICE, ["a", "b"]) == {"a"}
        writing.sign(JOB, ["c"])
        assert writing.unsigned(JOB, DEVICE) == []
        writing.drop_heads(JOB, DEVICE, ["a"])
        assert writing.append(JOB, [logged("c2", 3, prev="b")]) == 4
    with log.reading() as reading:
        assert list(reading.heads(JOB)) == heads[1:]
        assert list(reading.chains(JOB)) == [Chain(DEVICE, 3, "c2", 4)]
        assert reading.tip(JOB, DEVICE) == (3, "c2")
        assert reading.tip(JOB, "nobody") is None


def _check_marks(log: EntryLog) -> None:
    with log.writing() as writing:
        writing.mark_admitted(JOB, ["z"])
        writing.mark_aside(JOB, ["a", "z"], "unsigned")
        assert list(writing.jobs_to_mend(["unsigned"])) == [JOB]
        assert list(writing.jobs_to_mend(["role"])) == []
        writing.mark_aside(JOB, ["a"], "role")
        writing.mark_admitted(JOB, ["a"])
    with log.reading() as reading:
        assert list(reading.asides(JOB)) == [
            AsideMark("a", "role", admitted=True),
            AsideMark("z", "unsigned", admitted=True),
        ]
        assert list(reading.jobs_to_mend(["unsigned", "role"])) == []
    with log.writing() as writing:
        writing.mark_admitted(JOB, ["a"], admitted=False)
        assert AsideMark("a", "role", admitted=False) in writing.asides(JOB)
        assert list(writing.jobs_to_mend(["role"])) == [JOB]
        writing.mark_admitted(JOB, ["a"])


def _check_who_is_on_it(log: EntryLog) -> None:
    with log.writing() as writing:
        writing.put_spans(JOB, [Span(PERSON, 10, 20)])
        writing.put_spans(OTHER, [Span(PERSON, 5, None), Span("person-2", 5, 6)])
    with log.reading() as reading:
        assert list(reading.jobs_of(PERSON, 20)) == [JOB, OTHER]
        assert list(reading.jobs_of(PERSON, 21)) == [OTHER]
        assert list(reading.spans(OTHER)) == [Span(PERSON, 5, None), Span("person-2", 5, 6)]


def _check_the_rest(log: EntryLog) -> None:
    one = RefusedText("h1", JOB, "raw", "not_json", "Not JSON.", "", DEVICE, 3)
    device = ServerDevice("server-1", "key", "pem", "card", "signature")
    with log.writing() as writing:
        writing.refuse([one, one])
        writing.refuse([replace(one, received_ms=9)])
        writing.name_photos(JOB, [("p", "t"), ("p", "t")])
        writing.name_photos(JOB, [("p", "t"), ("q", "t")])
        writing.begin_log("log-1", device, 1)
        writing.begin_log("log-2", replace(device, id="server-2"), 2)
        writing.note_clock(DEVICE, "load", 1, 2, 3)
        writing.note_clock(DEVICE, "load", 1, 2, 3)
        writing.settle(DEVICE, 4)
        writing.settle(DEVICE, 5)
    with log.reading() as reading:
        assert list(reading.refused_of(JOB)) == [one]
        assert reading.photos_named(JOB) == {("p", "t"), ("q", "t")}
        assert (reading.naming("t"), reading.naming("q"), reading.naming("x")) == ({JOB}, {JOB}, set())
        assert reading.log() == "log-2"
        assert reading.own_device().id == "server-2"
        assert set(reading.own_devices()) == {"server-1", "server-2"}
        assert (reading.settled_ms(DEVICE), reading.settled_ms("nobody")) == (5, 0)


def on_sqlite(folder: Path) -> EntryLog:
    engine = open_engine(f"sqlite:///{folder / 'log.sqlite3'}")
    metadata.create_all(engine)
    return SqlEntryLog(engine)


@pytest.mark.parametrize("make", [on_sqlite, lambda _: MemoryEntryLog()], ids=["sqlite", "memory"])
def test_every_entry_log_keeps_the_promise(make: Callable[[Path], EntryLog], tmp_path: Path) -> None:
    check_entry_log(make(tmp_path))
