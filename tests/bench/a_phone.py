"""A phone for a measurement: a browser whose storage is on real disk, and the front end that it is shown."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from playwright.sync_api import BrowserContext, Playwright, sync_playwright

from browser.demo_server import DemoServer
from harness.browser import ARGUMENTS, find_browser

ROOT = Path(__file__).parents[2]
BUILT = ROOT / "server" / "bayleaf" / "front_end" / "index.html"
MEND = "npm run build in web/"


@contextmanager
def demo_phone(
    prepare: Callable[[Path], None], words: tuple[str, ...] = ("demo", "--practice")
) -> Iterator[tuple[BrowserContext, str]]:
    """The technician's phone of a demo of its own, and its address; `prepare` may fill the demo before.

    In a private window IndexedDB would only be in memory: this one has a profile on disk.
    """
    chromium = find_browser(lambda _: None)
    with TemporaryDirectory() as folder, sync_playwright() as playwright:
        demo = DemoServer(Path(folder), words=words)
        prepare(demo.data)
        demo.start()
        try:
            browser = _browser(playwright, chromium, Path(folder) / "profile")
            yield browser, demo.phone("technician")
            browser.close()
        finally:
            demo.stop()


def _browser(playwright: Playwright, chromium: str, profile: Path) -> BrowserContext:
    browser = playwright.chromium.launch_persistent_context(
        profile, executable_path=chromium, args=ARGUMENTS, viewport={"width": 390, "height": 844}
    )
    browser.set_default_timeout(60_000)
    return browser


def stale_build() -> tuple[str, ...]:
    """A remark if the built front end is older than its sources."""
    if not BUILT.is_file():
        raise RuntimeError(f"the front end is not built: {MEND}")
    newest = max(path.stat().st_mtime for path in (ROOT / "web" / "src").rglob("*.ts*"))
    old = BUILT.stat().st_mtime < newest
    return (f"NOTE: the built front end is older than its sources: {MEND}",) if old else ()
