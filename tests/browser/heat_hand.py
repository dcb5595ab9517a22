"""A hand at a heat run: readings of every sensor, remarks, and what the run's page says."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from playwright.sync_api import Page, expect

from browser import phone_hand as hand
from browser.handset import Handset

MINUTE_MS = 60_000


def switch_on(page: Page) -> None:
    """From the step that begins the run."""
    hand.lead(page, "Open the heat run")
    hand.lead(page, "Switch on")
    expect(page.get_by_role("timer")).to_be_visible()


def read(page: Page, *degrees: int) -> None:
    """Every sensor in the order in which the phone asks for them."""
    hand.tap(page, "Enter readings")
    for one in degrees:
        hand.reading(page, str(one), str(one))
    expect(page.get_by_role("group", name="Keypad")).to_have_count(0)


def read_at(page: Page, minute: str, *degrees: int) -> None:
    """What was pencilled: the first one with its minute, the others of the same moment."""
    hand.tap(page, "Enter readings")
    hand.settle(page)
    page.get_by_text("Happened earlier").click()
    page.get_by_label("Minutes after switch-on").fill(minute)
    for one in degrees:
        hand.reading(page, str(one), str(one))
    expect(page.get_by_role("group", name="Keypad")).to_have_count(0)


def remark(page: Page, key: str) -> None:
    """One of the remarks that are keys."""
    hand.tap(page, "Remark", exact=True)
    sheet = page.get_by_role("dialog")
    sheet.get_by_role("button", name=key, exact=True).click()
    expect(sheet).to_have_count(0)


def rounds(phone: Handset, every_min: float, readings: Iterable[tuple[int, ...]]) -> None:
    """Time goes by, and all are read; again and again."""
    for degrees in readings:
        phone.pass_time(int(every_min * MINUTE_MS))
        read(phone.page, *degrees)


def of_run(page: Page) -> list[dict[str, Any]]:
    """The entries of heat runs on this phone's disk: acts, and readings of sensors."""
    entries = hand.held(page)["entries"]
    return [one for one in entries if one["kind"] == "heat" or "sensor" in one["body"]]
