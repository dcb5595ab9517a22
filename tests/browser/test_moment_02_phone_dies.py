"""Moment 2. The phone dies at minute 31, in the soak.

A colleague's phone that had synced the start shows the same next act; the dead one comes back at minute 44
and is right without asking. Three readings pencilled on the pad box meanwhile are entered late and marked so.
"""

from __future__ import annotations

from dataclasses import dataclass

from playwright.sync_api import Page, expect

from bayleaf.demo_scenario.cast import MARA
from bayleaf.demo_scenario.deeds import Logged, Step, SwitchedOn
from browser import heat_hand as heat
from browser import mishaps
from browser import phone_hand as hand
from browser.begun_demo import ORDER, Begin, script_before
from browser.handset import Handset, OpenHandset
from browser.test_run_clock import NEXT_FIGURE, seconds_of

DIES_AT_MIN, BACK_AT_MIN = 31, 44
READ_BY_MIN = 35  # five minutes after the readings of minute 30
WITHIN_MS = 2000
SOAKING = Step(
    "rem-27",
    "3 10:02",
    MARA,
    minutes=1,
    instead={
        "run": (SwitchedOn("run", "upper"), Logged("upper", 0, 22), Logged("upper", 23, 30)),
        "display": (),
    },
    ticked=False,
)
PENCILLED = {"34": (162, 141, 133, 175, 48), "38": (164, 144, 136, 178, 52), "42": (165, 146, 137, 180, 56)}


@dataclass(frozen=True)
class Shown:
    """What a phone says of the run: what comes next, and when, by the clock that nobody turned."""

    act: str
    due_real_ms: float


def shown(phone: Handset) -> Shown:
    text, real_ms, overdue = phone.page.evaluate(NEXT_FIGURE)
    left_ms = 1000 * seconds_of(text) * (-1 if overdue else 1)
    return Shown(phone.page.locator("h1").inner_text(), real_ms + left_ms)


def test_a_dead_phone_comes_back_right_and_late_readings_are_marked(
    begin: Begin, handset: OpenHandset
) -> None:
    shop = begin(script_before("rem-27", SOAKING), "3 10:33")
    own, colleague = handset(shop.phone("technician")), handset(shop.phone("second"))
    for phone in (own, colleague):
        open_run(phone)
    agree(own, colleague)

    where = own.page.url.removeprefix(own.url)
    own.kill()
    slept_ms = (BACK_AT_MIN - DIES_AT_MIN) * heat.MINUTE_MS
    colleague.pass_time(slept_ms)
    own.wall_ms += slept_ms
    own.open(where, offline=True)
    hand.heading(own.page, "Read the sensors")
    agree(own, colleague)
    due_ms = on_ms(own.page) + READ_BY_MIN * heat.MINUTE_MS - slept_ms
    mishaps.until(own.page, lambda: abs(shown(own).due_real_ms - due_ms) <= WITHIN_MS)

    for minute, degrees in PENCILLED.items():
        heat.read_at(own.page, minute, *degrees)
    assert_marked(own.page)
    hand.heading(own.page, "Soaked")


def open_run(phone: Handset) -> None:
    page = phone.open()
    hand.lead(page, f"Go on with {ORDER}")  # not by the band that says what is due, if it has come
    hand.lead(page, "Open the heat run")
    expect(page.get_by_role("timer")).to_be_visible()
    phone.offline()


def agree(own: Handset, other: Handset) -> None:
    """Both say the same, once each has drawn its next second."""
    mishaps.until(own.page, lambda: same(shown(own), shown(other)))


def same(one: Shown, other: Shown) -> bool:
    return one.act == other.act and abs(one.due_real_ms - other.due_real_ms) <= WITHIN_MS


def on_ms(page: Page) -> int:
    """When the run was switched on: its id is the hash of its first entry."""
    (first,) = [one for one in heat.of_run(page) if one["body"].get("act") == "on"]
    return int(first["at_ms"])


def assert_marked(page: Page) -> None:
    """Every one of the fifteen has its typed minute, and says so."""
    late = [one["body"] for one in heat.of_run(page) if one["body"].get("typed_time")]
    at = sorted(minute for body in late for minute, _ in body["points"])
    assert at == sorted(int(minute) * heat.MINUTE_MS for minute in PENCILLED for _ in range(5))
    expect(page.get_by_text("time typed in late").first).to_be_visible()
