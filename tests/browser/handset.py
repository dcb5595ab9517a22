"""A phone of the tests: a Chromium with its own profile on disk, to be killed and opened again."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Protocol

from playwright.sync_api import BrowserContext, Page, Playwright

from harness.browser import ARGUMENTS

CLOCK = (Path(__file__).parent / "turned_clock.js").read_text(encoding="utf-8")
GONE_WITHIN_S = 10.0
FAKE_CAMERA = ("--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream")


@dataclass
class Chromium:
    """The driver, and the browser that it starts."""

    playwright: Playwright
    path: str


@dataclass
class Handset:
    """One device at one address. Its profile outlives its browser, as a phone's storage does."""

    chromium: Chromium
    profile: Path
    url: str
    more: Sequence[str] = ()
    faults: list[str] = field(default_factory=list)
    wall_ms: int = 0
    context: BrowserContext | None = None
    _page: Page | None = None

    @property
    def page(self) -> Page:
        assert self._page is not None, "the browser is closed"
        return self._page

    def open(self, path: str = "", *, offline: bool = False, scheme: str = "light") -> Page:
        """Start the browser and go to its address; `wall_ms` is how wrong its wall clock goes."""
        self.context = self.chromium.playwright.chromium.launch_persistent_context(
            self.profile,
            executable_path=self.chromium.path,
            args=[*ARGUMENTS, *self.more],
            viewport={"width": 390, "height": 844},
            color_scheme="dark" if scheme == "dark" else "light",
            offline=offline,
            accept_downloads=True,
        )
        self.context.add_init_script(CLOCK)
        self._turn_at_load()
        page = self.context.pages[0]
        self.watch(page)
        page.goto(self.url + path)
        return page

    def watch(self, page: Page) -> None:
        """Take this page as the one in hand; what it throws is a fault of the test."""
        self._page = page
        page.set_default_timeout(15_000)
        page.on("pageerror", lambda error: self.faults.append(str(error)))

    def offline(self, off: bool = True) -> None:
        """Pull the network, once the app is on the phone; or give it back."""
        assert self.context is not None
        if off:
            self.page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        self.context.set_offline(off)

    def turn(self, *, wall_ms: int = 0, mono_ms: int = 0, hidden: bool | None = None) -> None:
        """Move the page's clocks by this much, and hide or show it."""
        self.wall_ms += wall_ms
        self.page.evaluate(
            """([wall_ms, mono_ms, hidden]) => {
              turnedClock.wall_ms += wall_ms
              turnedClock.mono_ms += mono_ms
              if (hidden === null) return
              turnedClock.hidden = hidden
              document.dispatchEvent(new Event('visibilitychange'))
            }""",
            [wall_ms, mono_ms, hidden],
        )
        self._turn_at_load()

    def pass_time(self, ms: int) -> None:
        """Let this much time go by on both clocks, a second at a time as far as the page can see."""
        self.turn(wall_ms=ms, mono_ms=ms)

    def _turn_at_load(self) -> None:
        assert self.context is not None
        self.context.add_init_script(f"turnedClock.wall_ms = {self.wall_ms}")

    def reload(self) -> None:
        self.page.reload()

    def kill(self) -> None:
        """End the browser's processes without a goodbye; what is not on disk is gone."""
        assert self.context is not None
        own = self._processes()
        assert own, "no browser of this profile runs"
        with self.context.expect_event("close"):
            for pid in own:
                _end(pid)
        until = time.monotonic() + GONE_WITHIN_S
        while self._processes() and time.monotonic() < until:
            time.sleep(0.02)
        self.context = self._page = None

    def close(self) -> None:
        if self.context is not None:
            self.context.close()
        self.context = self._page = None

    def tell(self) -> None:
        """What it shows, into the report of a test that failed."""
        if self._page is not None:
            print(f"--- {self._page.url}\n{self._page.locator('body').inner_text()}")

    def _processes(self) -> list[int]:
        """The pids of the browser that was started with this profile; no other has its path."""
        mark = f"--user-data-dir={self.profile}".encode()
        return [int(one.name) for one in Path("/proc").iterdir() if one.name.isdigit() and _is(one, mark)]


class OpenHandset(Protocol):
    """Makes a phone for an address; `more` goes to its browser."""

    def __call__(self, url: str, *more: str) -> Handset: ...


def _is(process: Path, mark: bytes) -> bool:
    try:
        return mark in (process / "cmdline").read_bytes().split(b"\0")
    except OSError:
        return False  # it ended meanwhile


def _end(pid: int) -> None:
    try:
        os.kill(pid, signal.SIGKILL)
    except ProcessLookupError:
        return  # its children go with the first
