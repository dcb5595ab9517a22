"""A hand on the phone: taps as the screens lead, and reads what they say."""

from __future__ import annotations

import json
import re
import time
from typing import Any

from playwright.sync_api import Locator, Page, expect

SENT_WITHIN_S = 120.0  # a busy machine sends photo after photo; what is awaited is what the disk says
SYNCS_AT_MOST = 4
# A tap joins the round that runs; where that was answered already, the next comes with the beat, within 20 s.
ANSWERED_WITHIN_MS = 40_000
READ_ENTRIES = """async () => {
  const name = localStorage.getItem('store_name') ?? 'bayleaf'
  const db = await new Promise((resolve, reject) => {
    const asked = indexedDB.open(name)
    asked.onsuccess = () => resolve(asked.result)
    asked.onerror = () => reject(asked.error)
  })
  const all = (table) => new Promise((resolve, reject) => {
    const asked = db.transaction(table).objectStore(table).getAll()
    asked.onsuccess = () => resolve(asked.result)
    asked.onerror = () => reject(asked.error)
  })
  const [entries, outbox, photos] = [await all('entries'), await all('outbox'), await all('photos')]
  db.close()
  const here = photos.filter(({ where }) => where === 'phone').length
  return { entries: entries.map(({ text }) => text), unsent: outbox.length + here }
}"""


def settle(page: Page) -> None:
    """Until the screen takes taps: after each act it is deaf for a moment, as gloves bounce."""
    page.locator(".frame:not([data-settling])").wait_for()


def key(page: Page, name: str | re.Pattern[str], *, exact: bool = False) -> Locator:
    """A key of the screen, whether it acts or leads on."""
    button = page.get_by_role("button", name=name, exact=exact)
    return button.or_(page.get_by_role("link", name=name, exact=exact)).first


def tap(page: Page, name: str | re.Pattern[str], *, exact: bool = False) -> None:
    settle(page)
    key(page, name, exact=exact).click()


def main_key(page: Page) -> Locator:
    """The one main key of the screen."""
    return page.locator(".key-main, .key-waiting").filter(visible=True).first


def lead(page: Page, words: str) -> None:
    """Tap the one main key of the screen, which has to say this."""
    settle(page)
    main = main_key(page)
    expect(main).to_contain_text(words)
    main.click()


def heading(page: Page, words: str | re.Pattern[str]) -> None:
    """The screen is about this."""
    expect(page.get_by_role("heading", level=1, name=words)).to_be_visible()


def write(page: Page, words: str, record: str) -> None:
    """Type into the one field and press the key that records it."""
    settle(page)
    page.get_by_role("textbox").first.fill(words)
    tap(page, record)


def type_number(page: Page, typed: str) -> None:
    """On the keypad, key by key."""
    settle(page)
    pad = page.get_by_role("group", name="Keypad")
    for sign in typed:
        name = {"-": "Change sign", ".": "Point"}.get(sign, sign)
        pad.get_by_role("button", name=name, exact=True).click()


def reading(page: Page, typed: str, said: str) -> None:
    """A number by keypad; the key says it back with its unit. Until the screen is about something else."""
    settle(page)
    about = page.locator("h1").first.inner_text()
    type_number(page, typed)
    lead(page, f"Record {said}")
    expect(page.locator("h1").first).not_to_have_text(about)


def photo(page: Page, which: str = "Bracket") -> None:
    """A demo photo, kept."""
    tap(page, which, exact=True)
    lead(page, "Keep this photo")
    expect(page.locator("img.preview")).to_have_count(0)


def look_around(page: Page, before: str | re.Pattern[str]) -> None:
    """The first look of the day, if the card asks for it: each condition holds. Until the act is there."""
    asks = page.get_by_role("heading", level=1, name="Is it still so?")
    act = page.get_by_role("heading", level=1, name=before)
    expect(asks.or_(act).first).to_be_visible()
    if not asks.count():
        return
    say_still_so(page)
    expect(act).to_be_visible()


def say_still_so(page: Page) -> None:
    """Of each condition that the morning's page asks about, and on from there."""
    rows = page.locator(".morning > li")
    expect(rows.first).to_be_visible()
    still = page.get_by_role("button", name="Still so")
    while left := still.count():
        settle(page)
        still.first.click()
        expect(still).to_have_count(left - 1)
    lead(page, "To the next act")
    expect(rows).to_have_count(0)


def sign(page: Page, name: str, pin: str) -> None:
    """Countersign by PIN of somebody else on this phone."""
    settle(page)
    page.get_by_role("button", name=name, exact=True).click()  # pressed already, where nobody else may
    page.get_by_label(f"PIN of {name}").fill(pin)
    tap(page, f"{name} signs")
    checking = page.get_by_text("Checking the PIN")
    expect(checking).to_have_count(0)


def done(page: Page) -> None:
    """The step's own tick; until the screen says so."""
    settle(page)
    number = page.locator(".folio-step .num").inner_text()
    lead(page, "Done")
    expect(page.locator(".strip").filter(has_text=re.compile(rf"\b{number} done"))).to_be_visible()


def pull_network(page: Page) -> None:
    """Once the app is on the phone: a page that was never drawn could not be fetched afterwards."""
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.context.set_offline(True)


def shop_network(page: Page, *, on: bool) -> None:
    """The demo's switch on the page of this phone, and back to where the phone was."""
    where = page.url
    page.goto(where.split("/", 3)[0] + "//" + where.split("/", 3)[2] + "/phone")
    switch, want = page.get_by_role("switch", name="Shop network"), "true" if on else "false"
    settle(page)
    until = time.monotonic() + SENT_WITHIN_S
    while switch.get_attribute("aria-checked") != want:  # what is stored shows a moment after the page
        assert time.monotonic() < until, "the switch does not turn"
        switch.click()
        page.wait_for_timeout(50)
    page.goto(where)


def held(page: Page) -> dict[str, Any]:
    """What is on this phone's disk: its entries, and how many of them the office has not acknowledged."""
    found = page.evaluate(READ_ENTRIES)
    return {"entries": [json.loads(text) for text in found["entries"]], "unsent": found["unsent"]}


def hashes(page: Page) -> list[str]:
    return sorted(str(entry["hash"]) for entry in held(page)["entries"])


def glance(page: Page, words: str) -> None:
    """The line at the top says where the records are."""
    expect(page.locator(".glance")).to_contain_text(words, timeout=30_000)


def sync_now(page: Page) -> Any:
    """By the phone's own key, as somebody does who does not want to wait for its beat; the answer to it."""
    settle(page)
    page.locator(".glance button").last.click()
    sheet = page.get_by_role("dialog")
    with page.expect_response("**/api/sync", timeout=ANSWERED_WITHIN_MS) as answering:
        sheet.get_by_role("button", name="Try now").click()
    page.keyboard.press("Escape")  # what the answer brings may have changed the screen, and closed the sheet
    expect(sheet).to_have_count(0)
    return answering.value.json()


def state_digests(page: Page) -> dict[str, tuple[str, str]]:
    """Set and state digest of each job as this phone is told them, which is once it has pulled all."""
    for _ in range(SYNCS_AT_MOST):
        told = {
            one["job"]: (one.get("set_digest"), one.get("state_digest")) for one in sync_now(page)["jobs"]
        }
        if all(all(digests) for digests in told.values()):
            return told
    raise AssertionError(f"no digest of every job after {SYNCS_AT_MOST} syncs: {told}")


def all_sent(page: Page) -> None:
    """Until the disk of this phone holds nothing that the office has not, and the phone says so."""
    until = time.monotonic() + SENT_WITHIN_S
    while held(page)["unsent"]:
        assert time.monotonic() < until, "records are still only on this phone"
        page.wait_for_timeout(50)
    glance(page, "All at the office")
