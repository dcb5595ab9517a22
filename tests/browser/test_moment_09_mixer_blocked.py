"""Moment 9. Two thirds into the bead the mixer sets; a new one is on after five minutes.

The open time still counts from the first gram; at minute 33 the card warns, at 35 a rivet is marked late.
"""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import expect

from bayleaf.demo_scenario.cast import MARA
from bayleaf.demo_scenario.deeds import Step
from browser import fitting_acts as fitting
from browser import phone_hand as hand
from browser.begun_demo import ORDER, Begin, script_before
from browser.card_hand import WAYS, CardHand, rivets
from browser.handset import OpenHandset
from browser.paper import frame_paper

REHEARSED = Step("fit-11", "5 13:20", MARA, {"rehearsal": 15}, minutes=30)
OPEN_S, WARNED_AT_S = 35 * 60, 33 * 60


def test_a_new_mixer_restarts_nothing_and_a_late_rivet_is_marked(
    begin: Begin, handset: OpenHandset, tmp_path: Path
) -> None:
    shop = begin(script_before("fit-19", other={"fit-11": REHEARSED}), "6 09:38")
    phone = handset(shop.phone("technician"))
    page = phone.open()
    hand.tap(page, f"Go on with {ORDER}")
    hand.look_around(page, "Lay the bead")
    phone.offline()
    ways = {**WAYS, "Enter lot": fitting.lot, "Count rivets": rivets}
    on = CardHand(phone, frame_paper(), fitting.answers(), tmp_path / "pictures", ways)
    on.first["fit-19"] = fitting.mixer_sets
    on.work(until=lambda _, step: step == "fit-24")

    warns = page.locator(".run-band.due-band")
    expect(page.locator(".run-band strong")).to_contain_text("Set the foot group")
    phone.pass_time((left_s(on) - (OPEN_S - WARNED_AT_S) - 45) * 1000)
    expect(warns).to_have_count(0)
    phone.pass_time(45_000)
    expect(warns).to_contain_text(re.compile(r"Set the foot group: only (2:00|1:\d\d) left"))

    on.after_rivet["F5: set"] = lambda one: one.phone.pass_time((left_s(one) + 5) * 1000)
    on.work(until=lambda act, _: act.key == "Enter reading")
    late = page.locator(".run-band").filter(
        has_text=re.compile(r"One set after the open time: F6 at minute 3[5-9]")
    )
    expect(late).to_contain_text("A new mixer restarts nothing.")


def left_s(on: CardHand) -> int:
    """By the band above the act."""
    found = re.search(r"(\d+):(\d\d)", on.page.locator(".run-band strong").first.inner_text())
    assert found is not None
    return int(found[1]) * 60 + int(found[2])
