"""How long a tick takes from the tap until it is durable, against a bare strict put of the same row.

In the built app, on a card of 2,000 entries, offline, at a quarter of this machine's speed (DevTools slows
the page, not the browser's own processes). After each tick, when the screen rests, one bare put.
"""

from __future__ import annotations

from pathlib import Path
from statistics import median
from typing import Any

from playwright.sync_api import BrowserContext, Page

from bench.a_phone import demo_phone, stale_build
from bench.figures import Figure, spread_ms
from bench.long_card import ENTRIES, ORDER, make_long_card
from browser.phone_hand import READ_ENTRIES, key, settle

SLOWER, TICKS, WARM_UP, ALLOWED = 4, 30, 4, 3.0
PROBE = Path(__file__).with_name("tick_probe.js").read_text(encoding="utf-8")


Tick = dict[str, Any]


def measure() -> Figure:
    """The median of the ticks over the median of the puts."""
    with demo_phone(make_long_card) as (browser, origin):
        ticks, puts = _ticks_and_puts(browser, origin)
    taps = [tick["tap"] for tick in ticks]
    appends = [tick["append"] for tick in ticks]
    own = median(appends) / median(puts)
    return Figure(
        name=f"tick to durable on a card of {ENTRIES} entries at {SLOWER}x CPU throttle",
        measured=spread_ms(taps),
        floor=f"{spread_ms(puts)} for a bare strict put of the same row",
        ratio=median(taps) / median(puts),
        allowed=ALLOWED,
        remarks=(f"of it the store's own transaction: {spread_ms(appends)}, {own:.2f} times", *stale_build()),
    )


def _ticks_and_puts(browser: BrowserContext, origin: str) -> tuple[list[Tick], list[float]]:
    browser.add_init_script(PROBE)
    page = browser.pages[0]
    page.goto(origin)
    key(page, "Go on with").wait_for()
    page.wait_for_function(f"async () => (await ({READ_ENTRIES})()).entries.length > {ENTRIES}", polling=500)
    page.get_by_role("link", name=ORDER).first.click()
    page.get_by_role("button", name="Done", exact=True).wait_for()
    browser.set_offline(True)
    page.evaluate("() => { probe.tap_ms = 0; probe.ticks = [] }")
    browser.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    puts = [_tick_and_put(page) for _ in range(WARM_UP + TICKS)]
    ticks = page.evaluate("probe.ticks")
    assert len(ticks) == len(puts)
    assert {tick["durability"] for tick in ticks} == {"strict"}
    return ticks[WARM_UP:], puts[WARM_UP:]


def _tick_and_put(page: Page) -> float:
    settle(page)
    ticked = page.evaluate("probe.ticks.length")
    title = page.get_by_role("heading", level=1).inner_text()
    page.get_by_role("button", name="Done", exact=True).click()
    page.wait_for_function("before => probe.ticks.length > before", arg=ticked)
    page.wait_for_function("before => document.querySelector('h1')?.innerText !== before", arg=title)
    settle(page)
    return float(page.evaluate("new Promise(done => requestIdleCallback(() => done(barePut())))"))
