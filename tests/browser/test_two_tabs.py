"""Two tabs of one phone that write at once."""

from __future__ import annotations

from collections import Counter

from playwright.sync_api import Page, expect

from bayleaf import demo_plan as plan
from browser import phone_hand as hand
from browser.demo_server import DemoServer
from browser.handset import OpenHandset

NOTES_EACH = 50
# Both tabs press the same keys of the same screens; nothing of ours is called from outside.
WRITE_NOTES = """async ([many, who]) => {
  const until = (find) => new Promise((resolve) => {
    const look = () => (find() ? resolve(find()) : setTimeout(look, 5))
    look()
  })
  const keys = () => [...document.querySelectorAll('button, a')]
  const key = (words) => keys().find((one) => one.innerText.trim() === words)
  const settled = () => document.querySelector('.frame:not([data-settling])')
  for (let n = 1; n <= many; n += 1) {
    await until(() => settled() && key('Note'))
    key('Note').click()
    const area = await until(() => settled() && document.querySelector('textarea'))
    area.value = `${who} ${n}`
    area.dispatchEvent(new Event('input', { bubbles: true }))
    await until(() => key('Record note'))
    key('Record note').click()
    await until(() => !document.querySelector('textarea'))
  }
}"""


def test_two_tabs_that_write_at_once_lose_nothing_and_fork_nothing(
    demo: DemoServer, handset: OpenHandset
) -> None:
    phone = handset(demo.phone("technician"))
    first = phone.open()
    hand.lead(first, f"Go on with {plan.ORDER}")
    hand.heading(first, "Book the van in")
    assert phone.context is not None
    second = phone.context.new_page()
    second.goto(first.url)
    hand.heading(second, "Book the van in")
    _write_both(first, second)
    entries = [one for one in hand.held(first)["entries"] if one["kind"] == "note"]
    texts = {one["body"]["text"] for one in entries}
    assert texts == {f"{who} {n}" for who in ("first", "second") for n in range(1, NOTES_EACH + 1)}
    numbers = Counter((one["device"], one["seq"]) for one in entries)
    assert set(numbers.values()) == {1}
    chain = sorted(entries, key=lambda one: int(one["seq"]))
    assert [one["prev"] for one in chain[1:]] == [one["hash"] for one in chain[:-1]]
    hand.all_sent(first)
    expect(first.get_by_text("two records with one number")).to_have_count(0)


def _write_both(first: Page, second: Page) -> None:
    """Start both, then wait for both."""
    for page, who in ((first, "first"), (second, "second")):
        page.evaluate(f"globalThis.written = ({WRITE_NOTES})([{NOTES_EACH}, '{who}'])" + "; 0")
    for page in (first, second):
        page.evaluate("globalThis.written")
