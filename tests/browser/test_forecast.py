"""A run of a planned zone, offline: a forecast whose band holds, the same after a kill, a lifted pad named.

The readings are those of a finer model, a little worse pressed on than planned, in which pad U2 lifts on the
way; it also says when the bond would have been workable.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from browser import heat_hand as heat
from browser import phone_hand as hand
from browser.begun_demo import ORDER, script_before
from browser.demo_server import DemoServer
from browser.handset import Handset, OpenHandset
from browser.planned_demo import make_planned_demo, upper_response

RUN: dict[str, Any] = json.loads(
    (Path(__file__).parents[1] / "vectors" / "live" / "upper_run.json").read_text("utf-8")
)
EVERY_MIN = 3
HEALTHY = 4  # rounds before the pad lifts
SAYS = re.compile(r"Workable in (\d+)\smin \((\d+)\W+(\d+)\)")


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[DemoServer]:
    """The job stands before its first heat run, whose zone is planned."""
    server = DemoServer(tmp_path, words=("demo",))
    make_planned_demo(server.data, script_before("rem-27"), "3 10:01")
    server.start()
    yield server
    server.kill()


def test_a_planned_run_is_forecast_offline_with_a_band_that_holds_and_a_lifted_pad_is_named(
    shop: DemoServer, handset: OpenHandset
) -> None:
    phone = handset(shop.phone("technician"))
    page = phone.open()
    hand.tap(page, f"Go on with {ORDER}")
    hand.lead(page, "Open the heat run")
    expect(page.get_by_role("img", name="The zone as planned, 565 by 220 mm")).to_be_visible()
    phone.offline()
    hand.lead(page, "Switch on")
    planned_min = round(upper_response()["answer"]["workable_s"] / 60)
    planned = re.compile(rf"Planned: workable after ({planned_min}|{planned_min + 1})\smin")
    expect(page.get_by_text(planned)).to_be_visible()

    heat.rounds(phone, EVERY_MIN, [degrees(k) for k in range(HEALTHY)])
    left, soonest, latest = says(page)
    truth_min = RUN["workable_s"] / 60 - HEALTHY * EVERY_MIN
    assert soonest <= truth_min <= latest
    assert left == pytest.approx(truth_min, rel=0.15, abs=1)

    page = reopened(phone)
    assert says(page) == pytest.approx((left, soonest, latest), abs=1)

    heat.rounds(phone, EVERY_MIN, [degrees(k) for k in range(HEALTHY, len(RUN["rounds"]))])
    named = page.get_by_text(f"Pad {RUN['lifts']['pad']} seems to lift")
    expect(named).to_be_visible()
    hand.heading(page, "Press pad U2 on again")
    hand.lead(page, "Pad U2 clamped on again")
    expect(named).to_have_count(0)
    (said,) = [one for one in heat.of_run(page) if one["body"].get("text") == "Pad clamped on again"]
    assert said["body"]["pad"] == RUN["lifts"]["pad"]


def degrees(number: int) -> tuple[int, ...]:
    """One round, in the order in which the phone asks for the sensors."""
    row: dict[str, int] = RUN["rounds"][number]["C"]
    assert RUN["rounds"][number]["at_s"] == (number + 1) * EVERY_MIN * 60
    return tuple(row[sensor] for sensor in ("a", "b", "c", "m", "n"))


def says(page: Page) -> tuple[float, float, float]:
    """Minutes left, and the band, as the run's page says them."""
    line = page.locator(".forecast-head")
    expect(line).to_have_text(SAYS)
    found = SAYS.search(line.inner_text())
    assert found is not None
    left, soonest, latest = (float(one) for one in found.groups())
    assert math.isfinite(latest)
    return left, soonest, latest


def reopened(phone: Handset) -> Page:
    """Killed in the run and opened again without the network: back at the run."""
    path = phone.page.url.removeprefix(phone.url)
    phone.kill()
    return phone.open(path, offline=True)
