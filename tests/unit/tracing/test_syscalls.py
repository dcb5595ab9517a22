"""A trace of system calls is read in the order in which the calls took effect."""

from __future__ import annotations

import pytest

from bench.syscalls import calls, fault_of

WAL = "/data/bayleaf.sqlite3-wal"
WRITE = f'11 pwrite64(5<{WAL}>, "row"..., 4096, 24) = 4096'
SYNC = f"11 fdatasync(5<{WAL}>) = 0"
ANSWER = '11 sendto(7<socket:[99]>, "HTTP/1.1 200 OK\\r\\n"..., 300, 0, NULL, 0) = 300'
SYNC_BEGINS = f"11 fdatasync(5<{WAL}> <unfinished ...>"
SYNC_ENDS = "11 <... fdatasync resumed>) = 0"
ANSWER_BEGINS = '12 sendto(7<socket:[99]>, "HTTP/1.1 200 OK\\r\\n"..., 300, 0, NULL, 0 <unfinished ...>'
ANSWER_ENDS = "12 <... sendto resumed>) = 300"


def fault(*trace: str) -> str:
    return fault_of(list(calls(trace)), "-wal")


def test_an_answer_after_the_sync_of_all_that_was_written_is_right() -> None:
    assert fault(WRITE, SYNC, ANSWER) == ""


@pytest.mark.parametrize(
    ("trace", "said"),
    [
        ([WRITE, ANSWER, SYNC], f"the answer was sent before the fsync of {WAL}"),
        ([WRITE, SYNC, WRITE, ANSWER], f"the answer was sent before the fsync of {WAL}"),
        ([WRITE, SYNC.replace("= 0", "= -1 EIO"), ANSWER], f"the answer was sent before the fsync of {WAL}"),
        ([SYNC, ANSWER], "no file with -wal in its path was written before the answer"),
        ([WRITE, SYNC], "no answer was sent"),
    ],
)
def test_any_other_order_is_a_fault(trace: list[str], said: str) -> None:
    assert fault(*trace) == said


def test_a_sync_counts_when_it_returned() -> None:
    assert fault(WRITE, SYNC_BEGINS, SYNC_ENDS, ANSWER) == ""
    assert fault(WRITE, SYNC_BEGINS, ANSWER, SYNC_ENDS).startswith("the answer was sent before")


def test_an_answer_counts_when_it_began() -> None:
    assert fault(WRITE, ANSWER_BEGINS, SYNC, ANSWER_ENDS).startswith("the answer was sent before")
