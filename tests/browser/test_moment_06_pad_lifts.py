"""Moment 6. U2 reaches setpoint at minute 4, sensor b stays 40 K under the plan.

The card says contact, not "wait longer"; the re-clamping is an entry of the run, and no soak minute is
counted before sensor b is at the minimum.
"""

from __future__ import annotations

import re

from playwright.sync_api import expect

from browser import heat_hand as heat
from browser import phone_hand as hand
from browser.begun_demo import ORDER, Begin, script_before
from browser.handset import OpenHandset

MINIMUM_C = 125


def test_a_lifting_pad_is_called_contact_and_no_soak_counts_before_its_sensor_is_at_the_minimum(
    begin: Begin, handset: OpenHandset
) -> None:
    shop = begin(script_before("rem-27"), "3 10:01")
    phone = handset(shop.phone("technician"))
    page = phone.open()
    hand.tap(page, f"Go on with {ORDER}")
    phone.offline()
    heat.switch_on(page)

    phone.pass_time(4 * heat.MINUTE_MS)
    heat.remark(page, "Pad U2 is at its setpoint")
    heat.read(page, 62, 20, 60, 80, 22)  # a, b, c, m, n
    hand.heading(page, "Press pad U2 on again")
    says = page.get_by_text("Contact: pad U2 is at its setpoint while sensor b is 40 K behind.")
    expect(says).to_contain_text("waiting does not help")

    hand.lead(page, "Pad U2 clamped on again")
    expect(says).to_have_count(0)
    (pressed,) = [one for one in heat.of_run(page) if one["body"].get("text") == "Pad clamped on again"]
    assert (pressed["body"]["act"], pressed["body"]["pad"]) == ("remark", "U2")

    heat.rounds(phone, 4, [(118, 90, 112, 130, 30), (140, MINIMUM_C - 1, 131, 150, 38)])
    heat.rounds(phone, 4, [(144, MINIMUM_C - 1, 134, 155, 42)])
    expect(page.get_by_text("The soak counts from the readings.")).to_be_visible()  # four minutes later, none
    heat.rounds(phone, 4, [(146, MINIMUM_C, 135, 157, 44)])
    expect(page.get_by_text("It counts up to the next readings.")).to_be_visible()
    heat.rounds(phone, 4, [(147, MINIMUM_C + 3, 136, 158, 45)])
    expect(page.get_by_text(re.compile(r"Soak 4\smin.*of\s15"))).to_be_visible()

    phone.offline(False)
    hand.all_sent(page)
