"""The whole fitting, offline, tap by tap as the screens lead: from the morning check to the hand-over.

The job is begun by its script: the removal is done and at the office. `fitting_acts` tells what goes wrong.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from playwright.sync_api import expect

from browser import fitting_acts as fitting
from browser import phone_hand as hand
from browser.begun_demo import ORDER, Begin, script_before
from browser.card_hand import WAYS, Act, CardHand, rivets
from browser.handset import Handset, OpenHandset
from browser.heat_hand import MINUTE_MS
from browser.paper import frame_paper

HOUR_MS = 60 * MINUTE_MS
NIGHT_MS = 14 * HOUR_MS
FULL_CURE_MS = 240 * HOUR_MS
LATE = re.compile(r"F5 at minute 3[5-9] and F6 at minute 3[5-9]")  # 35 min, and what the machine takes to tap
FITTING_WAYS = {
    **WAYS,
    "Choose": fitting.choice,
    "Enter lot": fitting.lot,
    "Work it out": fitting.compute,
    "Countersign": fitting.sign,
    "Count rivets": rivets,
}


def test_the_fitting_is_led_from_the_morning_check_to_the_last_rivet(
    begin: Begin, handset: OpenHandset, tmp_path: Path
) -> None:
    shop = begin(script_before("fit-01", other=fitting.OTHERWISE), "5 07:25")
    on = opened(handset(shop.phone("technician")), tmp_path, "Check that the vehicle is as it was left")
    on.after_rivet["P5: hole checked"] = fitting.look_at_the_oval_hole
    on.first["fit-19"] = fitting.mixer_sets
    on.work(until=at("fit-24"))
    open_time_runs_out(on)
    on.work(until=at("fit-27"))
    hand_in(on)


def test_the_fitting_is_led_through_a_cold_night_to_the_hand_over(
    begin: Begin, handset: OpenHandset, tmp_path: Path
) -> None:
    shop = begin(script_before("fit-27", other=fitting.OTHERWISE), "6 11:00")
    on = opened(handset(shop.phone("technician")), tmp_path, "Cure")
    on.last["fit-27"] = cold_night
    on.first["fit-37"] = lambda one: one.phone.pass_time(FULL_CURE_MS)
    on.work(until=at("fit-28"))
    clamps_wait_at_their_hold(on)
    on.work(until=lambda act, _: act.heading == "Every step is done")
    hand_in(on)


def opened(phone: Handset, folder: Path, begins_with: str) -> CardHand:
    """The card in hand and the network gone, once the morning's conditions were looked at."""
    page = phone.open()
    hand.tap(page, f"Go on with {ORDER}")
    hand.look_around(page, begins_with)
    phone.offline()
    on = CardHand(phone, frame_paper(), fitting.answers(), folder / "pictures", FITTING_WAYS)
    on.held = fitting.pass_by_deviation
    return on


def hand_in(on: CardHand) -> None:
    on.phone.offline(False)
    hand.all_sent(on.page)


def at(wanted: str) -> Callable[[Act, str], bool]:
    return lambda _, step: step == wanted


def open_time_runs_out(on: CardHand) -> None:
    """Two minutes before its end the card warns; the last two rivets come too late, and are named."""
    left = fitting.open_time_left_min(on)
    on.phone.pass_time((left - 1) * MINUTE_MS)
    expect(on.page.locator(".run-band.due-band")).to_contain_text(re.compile("only 1:"))
    on.after_rivet["F4: set"] = lambda one: one.phone.pass_time(2 * MINUTE_MS)
    on.work(until=lambda act, step: step == "fit-24" and act.key == "Enter reading")
    late = on.page.locator(".run-band").filter(has_text="Two set after the open time")
    expect(late).to_contain_text(LATE)
    expect(late).to_contain_text("A new mixer restarts nothing.")


def cold_night(on: CardHand) -> None:
    """By the evening's 21 C the clamps come off in the morning; by the night's 12 C they do not."""
    evening = newest_progress(on)
    assert forecast_min(evening) == pytest.approx(handling_min(21.0), abs=2)
    on.phone.pass_time(NIGHT_MS)
    on.page.reload()
    hand.look_around(on.page, "Cure")
    fitting.type_again(on, "Lowest flange temperature", "12.0", fitting.COLD)
    on.work(until=lambda act, step: step == "fit-27" and act.key == "Done" and not act.waiting)
    warm_min = evening["elapsed"]  # what had passed when the flange was read at 21 C stays counted so
    left_of_it = 1 - warm_min / handling_min(21.0)
    expected = warm_min + left_of_it * handling_min(12.0)
    assert forecast_min(newest_progress(on)) == pytest.approx(expected, abs=3)


def clamps_wait_at_their_hold(on: CardHand) -> None:
    """Computed cure and blob are behind: held, until the next day shows both."""
    on.work(until=lambda act, step: step == "fit-28" and act.heading == "Held")
    expect(on.page.get_by_text(re.compile("Handling cure by the slowest .* is outside"))).to_be_visible()
    on.phone.pass_time(2 * NIGHT_MS)
    on.page.reload()
    hand.look_around(on.page, "Held")
    fitting.type_again(on, "Hardness of the sample blob", "78")
    on.says["fit-28"]["blob"] = 78  # type: ignore[index]
    on.work(until=at("fit-29"))


def handling_min(celsius: float) -> float:
    """Sixteen hours at 23 C by Arrhenius with 60 kJ/mol, as the invented sheet has it."""
    kelvin = celsius + 273.15
    return 16 * 60 * math.exp(60_000 / 8.314462618 * (1 / kelvin - 1 / 296.15))


def newest_progress(on: CardHand) -> Mapping[str, int]:
    """The figures of the newest computation of the cure on this phone."""
    results = [one for one in hand.held(on.page)["entries"] if one["kind"] == "result"]
    newest = max((one for one in results if one["body"]["ask"] == "progress"), key=lambda one: one["at_ms"])
    return {one["name"]: one["value"] for one in newest["body"]["values"]}


def forecast_min(progress: Mapping[str, int]) -> int:
    """From the first gram to handling cure: what has passed and what is left."""
    return progress["elapsed"] + progress["handling_left"]
