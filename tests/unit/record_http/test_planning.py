"""The thread that plans: one of several processes plans, another goes on with what it left, none in tests."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from bayleaf.heat.model import MODEL_ID
from bayleaf.heat_ports import HeatZone, NotPlanned, Planned
from bayleaf.planning import EXTENSION, Planning
from harness.server import Bench, bench

PATIENCE_S = 10
ZONE = HeatZone("a" * 64, "upper", "upper joint", "id: upper\n", invented=True, added_ms=1, by="p")


@dataclass
class Slow:
    """A planner that says when it has begun, and ends when it is let go or told to stop."""

    model: str = MODEL_ID
    begun: threading.Event = field(default_factory=threading.Event)
    let_go: threading.Event = field(default_factory=threading.Event)
    done: threading.Event = field(default_factory=threading.Event)
    breaks: bool = False

    def plan(self, text: str, told: Callable[[str, int], None], stop: Callable[[], bool]) -> Planned:
        self.begun.set()
        if self.breaks:
            self.done.set()
            raise OSError(f"no room for {text}")
        told("heating", 0)
        while not self.let_go.wait(0.01):
            if stop():
                raise NotPlanned("stopped", stopped=True)
        self.done.set()
        return Planned("Workable in 9 min.", "{}", "{}", b"set", b"field")


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Bench]:
    made = bench(tmp_path / "data")
    made.parts.office.heat.add_zone(ZONE)
    made.parts.office.heat.ask(ZONE.digest, MODEL_ID, 1)
    yield made
    made.close()


def process(server: Bench, folder: Path, planner: Slow) -> Planning:
    return Planning(server.parts, folder, planner, every_s=0.02)


def state(server: Bench) -> str:
    row = server.parts.office.heat.plan(ZONE.digest, MODEL_ID)
    return row.state if row else ""


def test_what_a_stopped_process_was_at_is_done_by_the_one_that_takes_over(
    server: Bench, tmp_path: Path
) -> None:
    slow, other = Slow(), Slow()
    first, second = process(server, tmp_path, slow), process(server, tmp_path, other)
    first.start()
    assert slow.begun.wait(PATIENCE_S)
    second.start()
    assert not other.begun.is_set()
    other.let_go.set()
    first.stop()
    assert other.done.wait(PATIENCE_S)
    second.stop()
    assert state(server) == "done"
    assert not [one for one in threading.enumerate() if one.name == "planning"]


def test_a_fault_of_the_planner_is_told_as_a_plan_that_failed(server: Bench, tmp_path: Path) -> None:
    broken = Slow(breaks=True)
    planning = process(server, tmp_path, broken)
    planning.start()
    assert broken.done.wait(PATIENCE_S)
    planning.stop()
    row = server.parts.office.heat.plan(ZONE.digest, MODEL_ID)
    assert row is not None
    assert row.state == "failed"
    assert "fault" in row.fault


def test_no_test_and_no_command_starts_it(server: Bench) -> None:
    assert EXTENSION not in server.app.extensions
    assert not [one for one in threading.enumerate() if one.name == "planning"]
