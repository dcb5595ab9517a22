"""Moment 12. Gap g5 was typed 35 for 3.5 and countersigned; next day it is struck and read again.

The countersign covered the struck reading, so it asks for a new one and says why.
"""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from bayleaf import demo_plan as plan
from bayleaf.demo_scenario.cast import MARA
from bayleaf.demo_scenario.deeds import Answer, Step
from bayleaf.demo_scenario.fitting import GAPS, STEPS
from browser import phone_hand as hand
from browser.begun_demo import ORDER, Begin, script_before
from browser.handset import OpenHandset

DAY_MS = 24 * 3_600_000
SECOND = (plan.SECOND.name, plan.SECOND.pin)
ALL_BUT_G5 = tuple(Answer("gap", gap, f"g{number}") for number, gap in enumerate(GAPS, 1) if number != 5)
MEASURED = Step(
    "fit-06",
    "5 09:15",
    MARA,
    {"step": STEPS},
    minutes=20,
    instead={"gap": ALL_BUT_G5, "fit": (), "fits": ()},
    ticked=False,
)


def test_a_countersign_of_a_struck_reading_is_asked_anew_and_says_why(
    begin: Begin, handset: OpenHandset
) -> None:
    shop = begin(script_before("fit-06", MEASURED), "5 09:36")
    phone = handset(shop.phone("technician"))
    page = phone.open()
    hand.tap(page, f"Go on with {ORDER}")
    hand.look_around(page, "Measure gap and step")
    phone.offline()

    slip(page)
    expect(page.get_by_text(re.compile("^signed"))).to_be_visible()
    phone.pass_time(DAY_MS)
    page.reload()
    hand.look_around(page, "Held")

    hand.tap(page, re.compile("^Change: Gap"))
    hand.tap(page, re.compile("^Strike .*35.0"))
    hand.write(page, "A digit slipped: 3.5 was meant.", "Strike it")
    hand.lead(page, "Enter reading")
    hand.reading(page, "3.5", "3.5")
    hand.lead(page, "Work it out")
    hand.lead(page, "Record")
    says_why(page)

    hand.lead(page, "Countersign")
    hand.sign(page, *SECOND)
    hand.done(page)
    phone.offline(False)
    hand.all_sent(page)


def slip(page: Page) -> None:
    """The key for the point did not take: asked twice, and recorded all the same, then signed."""
    hand.lead(page, "Enter reading")
    hand.type_number(page, "35")
    hand.lead(page, "Record 35.0")
    expect(page.get_by_text("Usually between 0.5 mm and 15.0 mm. Is this right?")).to_be_visible()
    hand.lead(page, "Yes, record 35.0")
    hand.write(page, "The gauge shows it.", "Record 35.0")
    hand.lead(page, "Work it out")
    hand.write(page, "The gauge shows it.", "Record the result")
    hand.lead(page, "Countersign")
    hand.sign(page, *SECOND)


def says_why(page: Page) -> None:
    """What the signature saw, and what stands there now."""
    expect(page.get_by_text("It has to be signed anew.").first).to_be_visible()
    expect(page.get_by_text(re.compile(r"It saw .*35.0\smm")).first).to_be_visible()
    expect(page.get_by_text(re.compile(r"now .*3.5\smm|now struck")).first).to_be_visible()
