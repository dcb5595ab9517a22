"""The thread that calls: one of several processes sends, another takes over, and it stops when told."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path

import pytest

from bayleaf.adapters.memory_push import MemoryNotifier, MemorySettings, MemorySubscriptions
from bayleaf.http.parts import Parts
from bayleaf.push_ports import Calling, Subscription
from bayleaf.reminding import Reminder
from harness.server import Bench, bench

PATIENCE_S = 10


@dataclass
class HeardSubscriptions(MemorySubscriptions):
    """Says when a round has asked it."""

    asked: threading.Semaphore = field(default_factory=lambda: threading.Semaphore(0))
    breaks: bool = False

    def all(self) -> list[Subscription]:
        self.asked.release()
        if self.breaks:
            raise OSError("the store is away")
        return []


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Bench]:
    made = bench(tmp_path / "data")
    yield made
    made.close()


def process(server: Bench, data: Path) -> tuple[Reminder, HeardSubscriptions]:
    kept = HeardSubscriptions()
    calling = Calling(kept, MemorySettings(), MemoryNotifier())
    parts: Parts = replace(server.parts, calling=calling)
    return Reminder(parts, data, every_s=0.02), kept


def test_one_process_sends_and_the_other_takes_over(server: Bench, tmp_path: Path) -> None:
    first, firsts = process(server, tmp_path)
    second, seconds = process(server, tmp_path)
    first.start()
    assert firsts.asked.acquire(timeout=PATIENCE_S)
    second.start()
    assert all(firsts.asked.acquire(timeout=PATIENCE_S) for _ in range(3))
    assert not seconds.asked.acquire(blocking=False)
    first.stop()
    assert seconds.asked.acquire(timeout=PATIENCE_S)
    second.stop()
    assert not [one for one in threading.enumerate() if one.name == "reminder"]


def test_a_round_that_fails_is_followed_by_another(server: Bench, tmp_path: Path) -> None:
    reminder, kept = process(server, tmp_path)
    kept.breaks = True
    reminder.start()
    assert all(kept.asked.acquire(timeout=PATIENCE_S) for _ in range(3))
    reminder.stop()


def test_no_test_and_no_command_starts_it(server: Bench) -> None:
    assert "bayleaf_reminder" not in server.app.extensions
    assert not [one for one in threading.enumerate() if one.name == "reminder"]
