"""The removal, offline, tap by tap as the screens lead: from booking in to the header's rivets."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from bayleaf import demo_plan as plan
from browser import phone_hand as hand
from browser import removal_acts as removal
from browser.card_hand import WAYS, CardHand, countersign_by
from browser.demo_server import DemoServer
from browser.frame_demo import ORDER, make_frame_demo
from browser.handset import Handset, OpenHandset
from browser.paper import frame_paper
from browser.run_hand import heat_run

HELD_AND_TOO_NEAR, MOVED_AND_MISCOUNTED = 2, 2
HEADER_RIVETS, STATES = 7, 4


@pytest.fixture
def demo(tmp_path: Path) -> Iterator[DemoServer]:
    """A demo of the frame half alone."""
    server = DemoServer(tmp_path, words=("demo",))
    make_frame_demo(server.data)
    server.start()
    yield server
    server.stop()


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


def test_the_removal_is_led_offline_from_booking_in_to_the_first_group_of_rivets(
    demo: DemoServer, handset: OpenHandset, tmp_path: Path
) -> None:
    phone = handset(demo.phone("technician"))
    page = phone.open()
    hand.tap(page, ORDER)
    hand.heading(page, "Book the vehicle in")
    phone.offline()
    mara = technician(phone, tmp_path / "pictures")
    mara.work(lambda _act, step: step == "rem-19")
    hand.heading(page, "Take out the post group")
    assert "rem-05 : " in mara.acts  # held, and passed by a deviation with the office's name under it
    kinds = [one["kind"] for one in hand.held(page)["entries"]]
    assert kinds.count("deviation") == HELD_AND_TOO_NEAR
    assert kinds.count("strike") == MOVED_AND_MISCOUNTED
    assert kinds.count("later") == 1
    assert kinds.count("tally") == HEADER_RIVETS * STATES
