"""How long a tick takes from the tap until it is durable, against a bare strict put of the same row.

In the built app, on a card of 2,000 entries, offline, at a quarter of this machine's speed (DevTools slows
the page, not the browser's own processes). After each tick, when the screen rests, come two bare puts: one
while the page rests, and one that begins with a tap as the tick does.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from statistics import median

from playwright.sync_api import BrowserContext, Page

from bench.a_phone import demo_phone, stale_build
from bench.figures import Figure, spread_ms
from bench.long_card import ENTRIES, ORDER, make_long_card
from browser.phone_hand import READ_ENTRIES, key, settle

SLOWER, TICKS, WARM_UP, ALLOWED = 4, 30, 4, 3.0
PROBE = Path(__file__).with_name("tick_probe.js").read_text(encoding="utf-8")


@dataclass
class Times:
    """Milliseconds of each tick and of each bare put, in the order of their coming."""

    taps: list[float] = field(default_factory=list)
    appends: list[float] = field(default_factory=list)
    puts_on_tap: list[float] = field(default_factory=list)
    puts_at_rest: list[float] = field(default_factory=list)


def measure() -> Figure:
    """The median of the ticks over the median of the puts."""
    with demo_phone(make_long_card) as (browser, origin):
        times = _timed(browser, origin)
    tap_ms, own_ms, rest_ms = (median(one) for one in (times.taps, times.appends, times.puts_at_rest))
    return Figure(
        name=f"tap to durable on a card of {ENTRIES} entries at {SLOWER}x CPU throttle",
        measured=spread_ms(times.taps),
        floor=f"{spread_ms(times.puts_on_tap)} for a bare strict put of the same row on a tap",
        ratio=tap_ms / median(times.puts_on_tap),
        allowed=ALLOWED,
        remarks=(
            f"of it the store's own transaction: {spread_ms(times.appends)}",
            f"a bare put while the page rests: {spread_ms(times.puts_at_rest)}",
            f"against that: the tap {tap_ms / rest_ms:.1f} times, its transaction {own_ms / rest_ms:.1f}",
            *stale_build(),
        ),
    )


def _timed(browser: BrowserContext, origin: str) -> Times:
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
    times = Times()
    for _ in range(WARM_UP + TICKS):
        _tick(page)
        times.puts_at_rest.append(float(page.evaluate("putAtRest()")))
        times.puts_on_tap.append(_put_on_tap(page))
    ticks = page.evaluate("probe.ticks")
    assert len(ticks) == WARM_UP + TICKS
    assert {tick["durability"] for tick in ticks} == {"strict"}
    times.taps = [tick["tap"] for tick in ticks]
    times.appends = [tick["append"] for tick in ticks]
    return Times(*(one[WARM_UP:] for one in vars(times).values()))


def _tick(page: Page) -> None:
    """Until the next step stands there."""
    settle(page)
    ticked = page.evaluate("probe.ticks.length")
    title = page.get_by_role("heading", level=1).inner_text()
    page.get_by_role("button", name="Done", exact=True).click()
    page.wait_for_function("before => probe.ticks.length > before", arg=ticked)
    page.wait_for_function("before => document.querySelector('h1')?.innerText !== before", arg=title)
    settle(page)


def _put_on_tap(page: Page) -> float:
    page.evaluate("() => { globalThis.onTap = putOnTap() }")
    page.locator("#bare-put").click()
    return float(page.evaluate("onTap"))
