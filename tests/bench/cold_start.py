"""How long an offline start of the phone takes until its next key can be pressed, at a quarter of the speed.

A card of 2,000 entries and 300 photos lies on the phone, the service worker has its files. Each start is a
page of its own in a browser that goes on running (the launch of a browser is not ours), from its navigation
until the key 'Done' stands there and takes taps. The floor is a start of the phone's manifest from the same
service worker: a page without our scripts.
"""

from __future__ import annotations

from statistics import median

from playwright.sync_api import BrowserContext, Page

from bench.a_phone import demo_phone, stale_build
from bench.figures import Figure, spread_ms
from bench.long_card import ENTRIES, PHOTOS, make_photo_card
from bench.shown import SLOWER, open_long_card

STARTS, WARM_UP, ALLOWED_MS = 5, 1, 1_500.0
USABLE = """() => {
  const keys = [...document.querySelectorAll('.key-main')]
  const there = keys.some(({ textContent }) => textContent.startsWith('Done'))
  return there && document.querySelector('.frame:not([data-settling])') ? performance.now() : 0
}"""


def measure() -> Figure:
    """The median of the starts over 1.5 s."""
    with demo_phone(make_photo_card) as (browser, origin):
        ours, bare = _timed(browser, origin)
    return Figure(
        name=f"offline start, {ENTRIES} entries and {PHOTOS} photos, {SLOWER}x CPU throttle",
        measured=spread_ms(ours),
        floor=f"{ALLOWED_MS:.0f} ms are allowed; a page without scripts takes {spread_ms(bare)}",
        ratio=median(ours) / ALLOWED_MS,
        allowed=1.0,
        remarks=(f"the quickest of both: {min(ours) / min(bare):.1f} such pages", *stale_build()),
    )


def _timed(browser: BrowserContext, origin: str) -> tuple[list[float], list[float]]:
    first = browser.new_page()
    open_long_card(first, origin)
    card = first.url
    first.evaluate("async () => { await navigator.serviceWorker.ready }")
    first.reload()  # the next page is the service worker's
    first.get_by_role("button", name="Done", exact=True).wait_for()
    first.wait_for_load_state("networkidle")
    first.close()
    browser.set_offline(True)
    ours, bare = [], []
    for _ in range(WARM_UP + STARTS):
        ours.append(_started(browser.new_page(), card))
        bare.append(_shown(browser.new_page(), f"{origin}manifest.webmanifest"))
    return ours[WARM_UP:], bare[WARM_UP:]


def _started(page: Page, url: str) -> float:
    _slow(page)
    page.goto(url, wait_until="commit")
    usable_ms = float(page.wait_for_function(USABLE, polling="raf").json_value())
    page.close()
    return usable_ms


def _shown(page: Page, url: str) -> float:
    _slow(page)
    page.goto(url)
    shown_ms = float(page.evaluate("performance.timing.loadEventEnd - performance.timing.navigationStart"))
    page.close()
    return shown_ms


def _slow(page: Page) -> None:
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
