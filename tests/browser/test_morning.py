"""The first look of the day comes by itself to a card that lay open through the night."""

from __future__ import annotations

from browser import phone_hand as hand
from browser.begun_demo import ORDER, Begin, script_before
from browser.handset import OpenHandset

DAY_MS = 24 * 60 * 60_000
NEXT_ACT = "Take off glass, lamp, seal and trim"


def test_the_first_look_comes_when_the_day_turns_without_a_reload(begin: Begin, handset: OpenHandset) -> None:
    shop = begin(script_before("rem-10"), "1 12:30")
    phone = handset(shop.phone("technician"))
    page = phone.open()
    hand.tap(page, ORDER)
    hand.look_around(page, NEXT_ACT)

    phone.turn(wall_ms=DAY_MS, mono_ms=DAY_MS, hidden=False)

    hand.heading(page, "Is it still so?")
    hand.say_still_so(page)
    hand.heading(page, NEXT_ACT)
