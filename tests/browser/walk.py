"""The job of the main walk, act by act: what the technician's screens lead through."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from bayleaf import demo_plan as plan
from browser import phone_hand as hand
from browser.handset import Handset

ORDER = "WALK-1"
SECOND = (plan.SECOND.name, plan.SECOND.pin)


def open_walk(page: Page) -> None:
    """From the list of jobs to the one next act of this one."""
    hand.tap(page, ORDER)


def book_in(page: Page) -> None:
    """Step 1: text, choice, reading, tick, a note, a photo in its slot and one without a slot."""
    hand.heading(page, "Book the van in")
    hand.tap(page, "Note", exact=True)
    hand.write(page, "The key of the sliding door is missing.", "Record note")
    hand.heading(page, "Book the van in")
    hand.lead(page, "Write")
    hand.write(page, "DEMO0000000000007", "Record text")
    hand.lead(page, "Choose")
    hand.tap(page, "Same", exact=True)
    hand.lead(page, "Enter reading")
    hand.reading(page, "48210", "48")
    hand.tap(page, "All keys in the job box")
    hand.tap(page, "Take photo")
    hand.photo(page)
    hand.tap(page, "More")
    hand.tap(page, "Photo without a slot")
    hand.tap(page, "Row of rivets", exact=True)
    page.get_by_label("What does it show?").fill("scratch on the sill")
    hand.lead(page, "Keep this photo")
    hand.heading(page, "Book the van in")
    hand.done(page)


def prove_dead(page: Page) -> None:
    """Step 3, until the signature: one point outside its limit becomes a deviation with its reason."""
    hand.lead(page, "Enter reading")
    hand.reading(page, "0.2", "0.2")
    hand.type_number(page, "7.5")
    hand.lead(page, "Record 7.5")
    hand.heading(page, "Outside the limits")
    hand.write(page, "The probe slipped off the stud.", "Record 7.5")
    hand.reading(page, "0.1-", "\u22120.1")
    hand.lead(page, "Take photo")
    hand.photo(page)


def strike_own(page: Page, what: str, why: str) -> None:
    """By 'my records', as the phone offers it."""
    hand.tap(page, re.compile(" on this phone"))
    hand.tap(page, "My records")
    hand.settle(page)
    page.get_by_role("link", name=re.compile(f"^Strike .*{what}")).first.click()
    hand.write(page, why, "Strike it")
    expect(page.get_by_role("heading", level=1, name="Strike")).to_have_count(0)


def sign_dead(page: Page) -> None:
    """Step 3 to its end: the mistake is measured again, and the second person signs by PIN."""
    hand.lead(page, "Enter reading")
    hand.reading(page, "0.3", "0.3")
    hand.lead(page, "Countersign")
    hand.sign(page, SECOND[0], "0000")
    expect(page.get_by_text("This PIN does not match")).to_be_visible()
    hand.sign(page, *SECOND)
    hand.done(page)


def put_on_stands(page: Page) -> None:
    """Step 4: readings of two asks; a photo that can follow."""
    for typed, said in (("1.5", "1.5"), ("0.5", "0.5")):
        hand.lead(page, "Enter reading")
        hand.reading(page, typed, said)
    hand.done(page)


def take_rivets_out(page: Page) -> None:
    """Step 5: the same act at every position of a group; a piece lost and found, a hole damaged."""
    hand.lead(page, "Count rivets")
    _one_group(page, ("H1", "H2", "H3", "H4"))
    hand.lead(page, "To P1")
    _one_group(page, ("P1", "P2"))
    hand.lead(page, "Back to the step")
    hand.lead(page, "Enter reading")
    hand.reading(page, "2", "2")
    hand.done(page)


TAKING_OUT = ("mandrel out", "head drilled", "head off", "shank out")


def _one_group(page: Page, positions: tuple[str, ...]) -> None:
    """The map goes to the next position by itself after each act."""
    for state in TAKING_OUT:
        for position in positions:
            next_act = page.get_by_role("button", name=f"{position}: {state}", exact=True)
            next_act.wait_for()
            if (position, state) == ("H2", "mandrel out"):
                _lose_and_find(page)
            hand.settle(page)
            next_act.click()


def _lose_and_find(page: Page) -> None:
    hand.tap(page, "Damaged hole", exact=True)
    hand.tap(page, "Piece lost inside")
    page.get_by_role("dialog").get_by_role("button", name="Mandrel lost inside").click()
    hand.tap(page, "Mandrel found")
    page.get_by_role("dialog").get_by_role("button", name="Later").click()


def account(page: Page) -> None:
    """Step 6: worked out from the rivets, a photo, and the second person's count."""
    hand.lead(page, "Work it out")
    hand.lead(page, "Record the result")
    hand.lead(page, "Take photo")
    hand.photo(page, "Row of rivets")
    hand.lead(page, "Countersign")
    hand.sign(page, *SECOND)
    hand.done(page)


def place_pads(page: Page) -> None:
    """Step 7: a lot and a reading."""
    hand.lead(page, "Enter lot")
    page.get_by_label("Lot number").fill("L-2231")
    page.get_by_label("Expires on").fill("2031-05-31")
    hand.lead(page, "Record lot")
    hand.lead(page, "Enter reading")
    hand.reading(page, "0.20", "0.20")
    hand.tap(page, "Take photo")
    hand.photo(page, "Pads")
    hand.done(page)


def clear_to_switch_on(page: Page) -> None:
    """Step 8: a text, a tick, and a signature at the van."""
    hand.lead(page, "Write")
    hand.write(page, "Mara Ilves", "Record text")
    hand.tap(page, "Phone on its charger")
    hand.lead(page, "Countersign")
    hand.sign(page, *SECOND)
    hand.done(page)


def read_sensors(page: Page, a: str, b: str, m: str) -> None:
    """All three, one after another, as one moment."""
    hand.tap(page, "Enter readings")
    for degrees in (a, b, m):
        hand.reading(page, degrees, degrees)
    expect(page.get_by_role("group", name="Keypad")).to_have_count(0)


def switch_on(page: Page) -> None:
    """Step 9: the run begins."""
    hand.lead(page, "Open the heat run")
    hand.lead(page, "Switch on")
    expect(page.get_by_role("timer")).to_be_visible()


def soak(phone: Handset) -> None:
    """Readings inside the limits until the soak is long enough; the clock is turned, not waited for."""
    page = phone.page
    phone.pass_time(55_000)
    read_sensors(page, "130", "141", "150")
    for _ in range(2):
        phone.pass_time(48_000)
        read_sensors(page, "131", "142", "152")


def part_joint(page: Page) -> None:
    """Step 10, with the pads still on."""
    hand.lead(page, "Enter reading")
    hand.reading(page, "310", "310")
    hand.lead(page, "Choose")
    hand.tap(page, "Soft and even", exact=True)
    hand.done(page)


def release_and_cool(phone: Handset) -> None:
    """Each pad turned down and lifted, off, and cold at last."""
    page = phone.page
    for pad in ("U1", "U2"):
        hand.tap(page, f"Pad {pad} turned down")
        hand.lead(page, f"Pad {pad} lifted")
    hand.lead(page, "Switched off")
    phone.pass_time(30 * 60_000)
    hand.lead(page, "Cold")


def look_and_close(page: Page) -> None:
    """Step 12 but for the signature, which another device has to give."""
    hand.lead(page, "Take photo")
    hand.photo(page)
    hand.lead(page, "Choose")
    hand.tap(page, "Clear", exact=True)
    hand.lead(page, "Work it out")
    hand.lead(page, "Record the result")
    hand.tap(page, "Flange covered and dated")


def not_applicable(page: Page) -> None:
    """Step 11, with its reason."""
    hand.heading(page, "Make the place for the part ready")
    hand.tap(page, "More", exact=True)
    hand.tap(page, "Not applicable")
    hand.write(page, "The part goes straight onto the next van.", "Record not applicable")
