"""Ways off a card's straight line: put a step off, type again, strike where it is seen, move a photo."""

from __future__ import annotations

import re

from playwright.sync_api import Browser, Page, expect

from browser import office_hand as office
from browser import phone_hand as hand
from browser import walk
from browser.demo_server import DemoServer
from browser.handset import OpenHandset


def opened_card(desk: Browser, demo: DemoServer, handset: OpenHandset) -> Page:
    """A fresh job of the practice method on the technician's phone."""
    office.open_new_job(office.office_page(desk, demo), walk.ORDER)
    page = handset(demo.phone("technician")).open()
    walk.open_walk(page)
    hand.heading(page, "Book the van in")
    return page


def test_a_card_is_left_and_mended_where_it_is_seen(
    desk: Browser, demo: DemoServer, handset: OpenHandset
) -> None:
    page = opened_card(desk, demo, handset)

    _put_off_and_take_up(page)
    _type_again(page)
    _strike_from_the_step(page)
    _move_a_photo(page)


def _put_off_and_take_up(page: Page) -> None:
    """With nothing else free it stays the next act, and says that it was put off."""
    hand.tap(page, "More", exact=True)
    hand.tap(page, "Do it later")
    hand.write(page, "The keys are with the driver until noon.", "Put it off")
    expect(page.get_by_text(re.compile("Put off by"))).to_be_visible()
    hand.tap(page, "All steps", exact=True)
    hand.tap(page, re.compile("Put off, 1"))
    expect(page.get_by_text("The keys are with the driver until noon.")).to_be_visible()
    hand.lead(page, "To the next act")
    hand.tap(page, "Take it up again")
    expect(page.get_by_text(re.compile("Put off by"))).to_have_count(0)


def _type_again(page: Page) -> None:
    hand.lead(page, "Write")
    hand.write(page, "DEMO0000000000006", "Record text")
    hand.tap(page, re.compile("^Change: VIN read"))
    hand.tap(page, re.compile("^Type again: DEMO0000000000006"))
    hand.write(page, "DEMO0000000000007", "Record text")
    expect(page.get_by_text("DEMO0000000000007")).to_be_visible()
    expect(page.get_by_text("DEMO0000000000006")).to_have_count(0)


def _strike_from_the_step(page: Page) -> None:
    """The check is open again, and the struck record stays readable among my records."""
    hand.tap(page, "All keys in the job box", exact=True)
    hand.tap(page, re.compile("^Change: All keys"))
    hand.tap(page, re.compile("^Strike done"))
    hand.write(page, "One key is missing.", "Strike it")
    hand.heading(page, "Book the van in")
    expect(page.locator("#check-keys")).to_be_visible()


def _move_a_photo(page: Page) -> None:
    """Kept without a slot, then moved into the one that it shows."""
    hand.tap(page, "More", exact=True)
    hand.tap(page, "Photo without a slot")
    hand.tap(page, "Bracket", exact=True)
    page.get_by_label("What does it show?").fill("left rear corner")
    hand.lead(page, "Keep this photo")
    hand.heading(page, "Book the van in")
    hand.tap(page, "More", exact=True)
    hand.tap(page, "Photo without a slot")
    hand.tap(page, "Move", exact=True)
    hand.heading(page, "Which slot does it belong to?")
    hand.tap(page, re.compile("^Left rear corner from 1 m"))
    hand.heading(page, "Book the van in")
    expect(page.get_by_role("link", name="Another photo")).to_be_visible()
    kept = [one for one in hand.held(page)["entries"] if one["kind"] in {"photo", "strike"}]
    old, new, struck = (one for one in kept[-3:])
    assert (old["body"]["slot"], new["body"]["slot"]) == ("", "damage")
    assert old["body"]["sha256"] == new["body"]["sha256"]
    assert struck["body"]["target"] == old["hash"]
