"""The removal, offline, as the screens lead; then the photographer's part, then the office's filing."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from bayleaf import demo_plan as plan
from browser import filing_acts as filing
from browser import office_hand as office
from browser import phone_hand as hand
from browser import photographer_acts as photographer
from browser import removal_acts as removal
from browser.card_hand import WAYS, CardHand, countersign_by
from browser.demo_server import DemoServer
from browser.frame_demo import ORDER, make_frame_demo
from browser.handset import FAKE_CAMERA, Handset, OpenHandset
from browser.paper import frame_paper
from browser.run_hand import heat_run

TOO_NEAR, HOLDS_PASSED, SHANK_AND_SUM, MOVED_AND_MISCOUNTED = 1, 2, 2, 2
RIVETS, STATES, LOST_AND_FOUND = 22, 4, 2
ACCEPTED = 8


@pytest.fixture
def demo(tmp_path: Path) -> Iterator[DemoServer]:
    """A demo of the frame half alone."""
    server = DemoServer(tmp_path, words=("demo",))
    make_frame_demo(server.data)
    server.start()
    yield server
    server.kill()


def technician(phone: Handset, pictures: Path) -> CardHand:
    """Mara at her phone, with Oskar beside her, who signs by PIN."""
    oskar = countersign_by(plan.SECOND.name, plan.SECOND.pin)
    return CardHand(
        phone,
        frame_paper(),
        removal.answers(),
        pictures,
        {**WAYS, "Countersign": oskar, "Open the heat run": heat_run},
        held=removal.pass_by_deviation,
        first=dict(removal.FIRST),
        last=dict(removal.LAST),
        after_rivet=dict(removal.AFTER_RIVET),
        left=removal.LEFT_TO_PIM,
    )


def test_the_removal_is_led_offline_from_booking_in_to_its_close_and_filed_by_the_office(
    desk: Browser, demo: DemoServer, handset: OpenHandset, tmp_path: Path
) -> None:
    take_it_off(handset(demo.phone("technician")), handset(demo.phone("second")), tmp_path / "pictures")
    pim = handset(demo.phone("photographer"), *FAKE_CAMERA)
    photographer.take_what_is_left(pim, ORDER)
    pim.offline(False)
    hand.all_sent(pim.page)
    ada = office.office_page(desk, demo)
    office.open_job(ada, ORDER)
    office.sees(ada, "Time line", photographer.NOTE)
    filing.file_what_is_done(ada)
    assert_an_assessor_finds_it(filing.words_of(filing.opened_report(ada)))
    ada.context.close()


def take_it_off(phone: Handset, other: Handset, pictures: Path) -> None:
    """The technician's part, to the tick of the last step."""
    page = phone.open()
    hand.tap(page, ORDER)
    hand.heading(page, "Book the vehicle in")
    phone.offline()
    mara = technician(phone, pictures)
    mara.work(until=lambda act, step: step == "rem-41" and act.heading == "Held")
    assert (
        "rem-05 Have it signed: Agreed: on another phone" in mara.acts
    )  # held, and passed by a deviation with the office's name under it
    assert_recorded(hand.held(page)["entries"])
    sign_on_another_phone(phone, other)
    hand.done(page)
    hand.all_sent(page)


def sign_on_another_phone(phone: Handset, other: Handset) -> None:
    """Whether the body is fit to be bonded Oskar signs on his own phone, once it has heard of all."""
    phone.offline(False)
    hand.all_sent(phone.page)
    page = other.open()
    hand.tap(page, ORDER)
    hand.look_around(page, "Held")
    hand.lead(page, "Countersign")
    hand.lead(page, f"{plan.SECOND.name} signs")
    hand.heading(page, "Close the removal")
    hand.all_sent(page)
    hand.sync_now(phone.page)
    hand.heading(phone.page, "Close the removal")


def assert_recorded(entries: Sequence[Mapping[str, Any]]) -> None:
    """What the two of them did, act by act."""
    kinds = [one["kind"] for one in entries]
    assert kinds.count("deviation") == TOO_NEAR + HOLDS_PASSED + SHANK_AND_SUM
    assert kinds.count("strike") == MOVED_AND_MISCOUNTED
    assert kinds.count("later") == 1
    assert kinds.count("tally") == RIVETS * STATES + LOST_AND_FOUND
    heat = sorted((one for one in entries if one["kind"] == "heat"), key=lambda one: int(one["at_ms"]))
    acts = [(one["body"]["act"], one["body"].get("pad", "")) for one in heat]
    assert acts == [*acts_of_a_run("U1", "U2"), *acts_of_a_run("L2", "L1")]


def assert_an_assessor_finds_it(pages: Sequence[str]) -> None:
    """What was done, what is missing and why, what deviated and who agreed, which photo proves which step."""
    first, whole = pages[0], " ".join(pages)
    assert "41 of 79 steps done, 11 of 21 hold points passed, two heat runs, 33 photos." in first
    assert f"The reason written: {filing.REASON}" in first
    assert "No photo: one photo slot (rem-36 post)." in first
    for reason in (removal.TOO_NEAR, *(why for why, _ in removal.HELD.values())):
        assert reason in whole
    assert whole.count(f"{plan.OFFICE.name}, ") > whole.count(office.ACCEPTED) >= ACCEPTED
    by_pim = r"2[0-9-]+ [0-9:]+, Pim Reed, own phone, photographer's phone"
    for step, slot in photographer.PROVES:
        told = re.search(rf"{step}, page (\d+), {slot} {by_pim}", whole)
        assert told, step
        assert f"{step.split()[-1]} " in pages[int(told[1]) - 1]
    assert "All 66 pieces of the rivets taken out are accounted for." in whole


def acts_of_a_run(first: str, last: str) -> list[tuple[str, str]]:
    """Two pads, released in the method's order."""
    lifted = [("turn_down", first), ("turn_down", last), ("lift", first), ("lift", last)]
    return [("on", ""), ("soaked", ""), ("workable", ""), *lifted, ("off", ""), ("cold", "")]
