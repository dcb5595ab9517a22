"""How long from a tap until a computation's answer is drawn, for every computation of the shipped frame job.

In the built app, offline, at a quarter of this machine's speed, on the whole job played to its end:
the longest way that a computation's inputs are looked up. The floor is a bare key that changes its own words.
"""

from __future__ import annotations

import json
from pathlib import Path
from statistics import median

from playwright.sync_api import BrowserContext, Page

from bench.a_phone import demo_phone, stale_build
from bench.figures import Figure, spread_ms
from bench.shown import PROBE, SLOWER
from browser.begun_demo import ORDER, make_begun_demo, script_before
from browser.phone_hand import key, settle
from harness.played import frame_methods, played_fitting

ROUNDS, WARM_UP, ALLOWED_MS = 5, 1, 100.0
BARE = "bare key"
LAST_STEP, THEN = "fit-38", "20 08:00"
# Outside the app, where no screen draws over it; the app's router takes it as one of its own links.
LINK = """path => {
  document.querySelector('#bench-link')?.remove()
  const link = document.createElement('a')
  link.id = 'bench-link'
  link.href = path
  link.textContent = 'go'
  link.style = 'position: fixed; inset: 0 auto auto 0; z-index: 9999; width: 60px; height: 60px'
  document.body.append(link)
}"""
ANSWER = "!!document.querySelector('.compute-answer')"

Times = dict[str, list[float]]


def measure() -> Figure:
    """The median of the slowest computation over 100 ms."""
    with demo_phone(_whole_job, ("demo",)) as (browser, origin):
        times = _timed(browser, origin)
    bare = times.pop(BARE)
    worst = max(times, key=lambda name: median(times[name]))
    return Figure(
        name=f"tap to answer of {len(times)} computations at {SLOWER}x CPU throttle",
        measured=f"{worst}: {spread_ms(times[worst])}",
        floor=f"{ALLOWED_MS:.0f} ms are allowed; a bare key takes {spread_ms(bare)}",
        ratio=median(times[worst]) / ALLOWED_MS,
        allowed=1.0,
        remarks=(*(f"{name}: {spread_ms(one)}" for name, one in times.items()), *stale_build()),
    )


def _whole_job(data: Path) -> None:
    make_begun_demo(data, script_before(LAST_STEP), THEN)


def asks() -> list[tuple[str, str, str, str]]:
    """(method, step, ask, name) of every computation that the whole job recorded, in its order."""
    methods = {method.id: method for method in frame_methods().values()}
    found = []
    for entry in played_fitting().upto(LAST_STEP).entries:
        if entry.kind == "result":
            method, step, ask = (entry.body[name] for name in ("method", "step", "ask"))
            told = methods[method].step(step)
            named = told.ask(ask) if told is not None else None
            found.append((method, step, ask, named.name if named is not None else ""))
    return list(dict.fromkeys(found))


def _timed(browser: BrowserContext, origin: str) -> Times:
    browser.add_init_script(PROBE)
    page = browser.pages[0]
    page.goto(origin)
    key(page, f"Go on with {ORDER}").click()
    page.wait_for_url("**/job/**")
    page.locator(".folio-step .num").wait_for()  # its methods are on the phone
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.reload()  # by the app's own files from here on
    page.locator(".folio-step .num").wait_for()
    job = page.url.split("/job/")[1].split("/")[0]
    browser.set_offline(True)
    tools = browser.new_cdp_session(page)
    tools.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    times: Times = {}
    for _ in range(WARM_UP + ROUNDS):
        for method, step, ask, name in asks():
            path = f"/job/{job}/step/{method}/{step}/ask/{ask}"
            times.setdefault(f"{step} {ask}", []).append(_tap(page, path, name))
        times.setdefault(BARE, []).append(_bare(page))
    return {name: one[WARM_UP:] for name, one in times.items()}


def _tap(page: Page, path: str, name: str) -> float:
    """From wherever the last one left the page."""
    settle(page)
    page.evaluate(LINK, path)
    heading = json.dumps(name[:1].upper() + name[1:])
    answered = f"document.querySelector('h1')?.textContent === {heading} && {ANSWER}"
    took_ms = _shown(page, "#bench-link", answered)
    page.evaluate("document.querySelector('#bench-link').remove()")
    return took_ms


def _bare(page: Page) -> float:
    page.evaluate("bareKey()")
    took_ms = _shown(page, "#bare-key", "document.querySelector('#bare-key')?.textContent === 'shown'")
    page.evaluate("document.querySelector('#bare-key').remove()")
    return took_ms


def _shown(page: Page, target: str, wanted: str) -> float:
    page.evaluate(f"() => {{ shown.tap_ms = 0; shown.wanted = () => {wanted} }}")
    before = page.evaluate("shown.times.length")
    page.locator(target).click()
    page.wait_for_function("before => shown.times.length > before", arg=before)
    return float(page.evaluate("shown.times.at(-1)"))
