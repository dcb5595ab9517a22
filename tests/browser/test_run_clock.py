"""The figure of a heat run after kills, set clocks and sleep: right to a second, or marked."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, Request, expect

from bayleaf import demo_plan as plan
from browser import mishaps
from browser import phone_hand as hand
from browser.demo_server import DemoServer
from browser.handset import Chromium, Handset, OpenHandset

RAMP_S = 60
HOUR_MS = 3_600_000
# A figure is whole seconds and is redrawn each second: read in the moment in which it changes.
NEXT_FIGURE = """() => new Promise((resolve) => {
  const timer = () => document.querySelector('[role=timer]')
  const read = () => timer()?.textContent ?? ''
  const before = read()
  const seen = new MutationObserver(() => {
    if (read() === before || read() === '') return
    seen.disconnect()
    resolve([read(), turnedClock.real(), timer().ariaLabel.includes('overdue')])
  })
  seen.observe(document.body, { subtree: true, childList: true, characterData: true })
})"""


@dataclass
class Run:
    """A run that is on, and when it was switched on by the clock that nobody turned."""

    phone: Handset
    on_real_ms: int

    def is_right(self, slept_ms: int = 0, heard_within_ms: float = 0) -> bool:
        """Whether the remaining time shown is true to a second, and to how long the server's word took."""
        shown_s, true_s = self.figures(slept_ms)
        return abs(shown_s - true_s) <= 1.0 + heard_within_ms / 1000

    def figures(self, slept_ms: int = 0) -> tuple[float, float]:
        text, real_ms, overdue = self.phone.page.evaluate(NEXT_FIGURE)
        shown_s = seconds_of(text) * (-1 if overdue else 1)
        return shown_s, RAMP_S - (real_ms + slept_ms - self.on_real_ms) / 1000


def seconds_of(text: str) -> float:
    """'1:04' as seconds; '1 h 02' as seconds, too."""
    if "h" in text:
        hours, minutes = text.replace("\u202f", " ").replace("\u00a0", " ").split("h")
        return int(hours) * 3600.0 + int(minutes) * 60.0
    minutes, seconds = text.split(":")
    return int(minutes) * 60.0 + int(seconds)


@pytest.fixture(scope="module")
def ready(chromium: Chromium, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The data of a demo whose hold points are passed by deviation: a run can be switched on at once."""
    server = DemoServer(tmp_path_factory.mktemp("clock"))
    server.start()
    phone = Handset(chromium, server.folder / "profile", server.phone("second"))
    page = phone.open()
    hand.lead(page, f"Go on with {plan.ORDER}")
    hand.heading(page, "Book the van in")
    job = page.url.rstrip("/")
    for step in ("spn-02", "spn-03", "spn-06", "spn-08"):
        page.goto(f"{job}/step/spine/{step}/write/already_done")
        hand.write(page, "Begun before: for the test of the clock.", "Record deviation")
        expect(page.get_by_role("textbox")).to_have_count(0)
    for step in ("spn-03", "spn-06"):
        page.goto(f"{job}/step/spine/{step}/write/sign_deviation")
        hand.sign(page, plan.TECHNICIAN.name, plan.TECHNICIAN.pin)
        expect(page.get_by_label("PIN of")).to_have_count(0)
    hand.all_sent(page)
    phone.close()
    server.stop()
    return server.data


@pytest.fixture
def demo(ready: Path, tmp_path: Path) -> Iterator[DemoServer]:
    """A demo with those records."""
    server = DemoServer(tmp_path)
    shutil.copytree(ready, server.data)
    server.start()
    yield server
    server.kill()


@pytest.fixture
def run(demo: DemoServer, handset: OpenHandset) -> Run:
    """A run just switched on, by a new phone."""
    phone = handset(demo.phone("technician"))
    page = phone.open()
    hand.tap(page, plan.ORDER)
    hand.settle(page)
    job = page.url.split("/")[4]
    page.goto(f"{phone.url}job/{job}/step/spine/spn-09/ask/run")
    hand.tap(page, "Switch on")
    expect(page.get_by_role("timer")).to_be_visible()
    return Run(phone, _on_ms(phone))


def _on_ms(phone: Handset) -> int:
    """When the run on this page began: its id is the hash of its first entry."""
    entries: list[dict[str, Any]] = hand.held(phone.page)["entries"]
    (on,) = (one for one in entries if one["hash"] in phone.page.url)
    return int(on["at_ms"])


def test_a_kill_leaves_the_figure_right(run: Run) -> None:
    where = _path(run.phone)
    run.phone.kill()
    run.phone.open(where)
    assert run.is_right()


@pytest.mark.parametrize("step_ms", [HOUR_MS, -HOUR_MS], ids=["an hour on", "an hour back"])
def test_a_wall_clock_set_while_the_app_is_open_leaves_the_figure_right(run: Run, step_ms: int) -> None:
    run.phone.offline()
    run.phone.turn(wall_ms=step_ms)
    run.figures()
    assert run.is_right()
    mishaps.until(run.phone.page, lambda: clocks_set(run.phone) > 0)
    assert clocks_set(run.phone) == 1


def clocks_set(phone: Handset) -> int:
    """How often the phone has written down that its clock was set."""
    return [one["kind"] for one in hand.held(phone.page)["entries"]].count("clock")


def test_twenty_minutes_of_sleep_while_hidden_leave_the_figure_right(run: Run) -> None:
    run.phone.offline()
    run.phone.turn(hidden=True)
    run.phone.turn(wall_ms=20 * 60_000)
    run.phone.turn(hidden=False)
    run.figures()
    assert run.is_right(slept_ms=20 * 60_000)


@pytest.mark.parametrize("step_ms", [HOUR_MS, -HOUR_MS], ids=["an hour on", "an hour back"])
def test_a_kill_with_a_set_clock_is_marked_as_doubtful_and_right_after_the_next_sync(
    run: Run, step_ms: int
) -> None:
    where = _path(run.phone)
    trips: list[float] = []
    _time_syncs(run.phone.page, trips)
    hand.all_sent(run.phone.page)
    hand.sync_now(run.phone.page)
    run.phone.page.evaluate("navigator.serviceWorker.ready.then(() => true)")  # opened offline below
    run.phone.kill()
    run.phone.wall_ms = step_ms
    page = run.phone.open(where, offline=True)
    expect(page.get_by_text("Check the clock")).to_be_visible()
    _time_syncs(page, trips)
    run.phone.offline(off=False)
    expect(page.get_by_text("Check the clock")).to_have_count(0, timeout=30_000)
    assert run.is_right(heard_within_ms=max(trips)), (run.figures(), trips)


def _time_syncs(page: Page, trips: list[float]) -> None:
    """How long syncs are under way: on a busy machine the server's word is off by half of that."""

    def time_it(request: Request) -> None:
        if request.url.endswith("/api/sync"):
            trips.append(request.timing["responseEnd"])

    page.on("requestfinished", time_it)


def _path(phone: Handset) -> str:
    return phone.page.url.split("/", 3)[3]
