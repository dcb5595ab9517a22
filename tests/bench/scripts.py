"""How much JavaScript a new phone fetches until the first step of its card can be ticked, gzipped.

What the page itself asks for, from wherever it comes. The service worker's copy of all files, for starts
without a network, is counted apart: nobody waits for it. A KB here is 1,000 bytes.
"""

from __future__ import annotations

import gzip
from dataclasses import dataclass, field

from playwright.sync_api import BrowserContext, Page, Response

from bench.a_phone import BUILT, demo_phone, stale_build
from bench.figures import Figure
from browser.phone_hand import lead, reading, settle, tap, write

ALLOWED_KB = 90.0
KB = 1_000


@dataclass
class Fetched:
    """The scripts of a page by name, in the order of their coming, and the gzipped size of each."""

    responses: list[Response] = field(default_factory=list)

    def note(self, response: Response) -> None:
        if response.request.resource_type == "script":
            self.responses.append(response)

    def sizes(self) -> dict[str, int]:
        return {_name(one): len(gzip.compress(one.body(), 6, mtime=0)) for one in self.responses}


def measure() -> Figure:
    """Of the demo's first step: until a tick of it can be given, and until its plain 'Done' is there."""
    with demo_phone(lambda _: None) as (browser, origin):
        first, plain = _until_first_tick(browser, origin)
    total_kb, plain_kb = sum(first.values()) / KB, sum(plain.values()) / KB
    return Figure(
        name="JavaScript until the first step can be ticked",
        measured=f"{total_kb:.1f} KB gzipped in {len(first)} files",
        floor=f"{ALLOWED_KB:.0f} KB are allowed",
        ratio=total_kb / ALLOWED_KB,
        allowed=1.0,
        remarks=(
            ", ".join(f"{name} {size / KB:.1f}" for name, size in first.items()),
            f"until its questions are answered too, and its plain 'Done' is there: {plain_kb:.1f} KB",
            f"apart from these: what the service worker keeps for offline starts, {_built_kb():.1f} KB",
            *stale_build(),
        ),
    )


def _until_first_tick(browser: BrowserContext, origin: str) -> tuple[dict[str, int], dict[str, int]]:
    fetched, page = Fetched(), browser.pages[0]
    page.on("response", fetched.note)
    page.goto(origin)
    lead(page, "Go on with")
    settle(page)
    page.locator("#check-keys:not([aria-disabled=true])").wait_for()
    page.wait_for_load_state("networkidle")
    first = fetched.sizes()
    _answer(page)
    page.locator(".key-main", has_text="Done").wait_for()
    page.wait_for_load_state("networkidle")
    return first, fetched.sizes()


def _answer(page: Page) -> None:
    """What the demo's first step asks for, but the photo, which may follow."""
    lead(page, "Write")
    write(page, "DEMO0000000000001", "Record")
    tap(page, "Choose")
    tap(page, "Same", exact=True)
    lead(page, "Enter reading")
    reading(page, "12", "12")
    tap(page, "All keys in the job box")


def _built_kb() -> float:
    scripts = BUILT.parent.rglob("*.js")
    return sum(len(gzip.compress(script.read_bytes(), 6, mtime=0)) for script in scripts) / KB


def _name(response: Response) -> str:
    return response.url.rsplit("/", 1)[-1]
