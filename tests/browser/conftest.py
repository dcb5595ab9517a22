"""Browsers and servers for the tests of this folder; what is missing fails with the line that mends it."""

from __future__ import annotations

from collections.abc import Generator, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect, sync_playwright

import bayleaf
from bayleaf.demo_scenario import Scenario
from browser.begun_demo import Begin, make_begun_demo
from browser.demo_server import DemoServer
from browser.handset import Chromium, Handset, OpenHandset
from harness.browser import ARGUMENTS, find_browser

FRONT_END = Path(bayleaf.__file__).parent / "front_end" / "index.html"
WITHIN_MS = 15_000  # a machine with many tests at once is slow; what is awaited is always an event
BUILD = "the front end is not built: run `python tests/run.py`, or `npm run build` in web/"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Everything here plays a browser; the walks come first, for the longest begun last is waited for."""
    here = [item for item in items if Path(__file__).parent in item.path.parents]
    for item in here:
        item.add_marker(pytest.mark.browser)
    walks = [item for item in here if item.path.stem.endswith("_walk")]
    items[:] = [*walks, *(item for item in items if item not in walks)]


FAILED = pytest.StashKey[bool]()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(
    item: pytest.Item,
) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Remember a failure, so that the phones can be asked what they showed."""
    report = yield
    if report.failed:
        item.stash[FAILED] = True
    return report


@pytest.fixture(scope="session")
def chromium() -> Iterator[Chromium]:
    """A Chromium that starts, and a front end for it to show."""
    assert FRONT_END.is_file(), BUILD
    path = find_browser(lambda _line: None)
    expect.set_options(timeout=WITHIN_MS)
    with sync_playwright() as playwright:
        yield Chromium(playwright, path)


@pytest.fixture(scope="session")
def desk(chromium: Chromium) -> Iterator[Browser]:
    """One browser for all that needs no profile of its own: each test makes contexts in it."""
    browser = chromium.playwright.chromium.launch(executable_path=chromium.path, args=ARGUMENTS)
    yield browser
    browser.close()


@pytest.fixture
def demo(tmp_path: Path) -> Iterator[DemoServer]:
    """A demo of its own, running."""
    server = DemoServer(tmp_path)
    server.start()
    yield server
    server.kill()  # nobody comes back to it, and a goodbye takes as long as a start


@pytest.fixture
def begin(tmp_path: Path) -> Iterator[Begin]:
    """Makes a demo whose one job was begun by its script, and runs it."""
    server = DemoServer(tmp_path, words=("demo",))

    def start(scenario: Scenario, at: str) -> DemoServer:
        make_begun_demo(server.data, scenario, at)
        server.start()
        return server

    yield start
    server.kill()


@pytest.fixture
def handset(chromium: Chromium, tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[OpenHandset]:
    """Makes phones by address; each fails its test for what its pages threw."""
    made: list[Handset] = []

    def make(url: str, *more: str) -> Handset:
        made.append(Handset(chromium, tmp_path / f"profile-{len(made)}", url, more))
        return made[-1]

    yield make
    for one in made:
        if request.node.stash.get(FAILED, False):
            one.tell()
        one.close()
    assert [fault for one in made for fault in one.faults] == []
