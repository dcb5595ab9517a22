"""A hand at a heat run: reads and acts when the run calls, by the temperatures of the demo's script.

The page's clock is turned from one call to the next; nobody waits twenty minutes for a ramp.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from playwright.sync_api import expect

from bayleaf.demo_scenario.heat_logs import MINUTE_MS, at_minute
from bayleaf.demo_scenario.heat_runs import RUNS
from bayleaf.domain.asks import Ask, HeatAsk
from browser import phone_hand as hand
from browser.card_hand import Act, CardHand, leaves

READ_EVERY_MIN = 4  # a minute under the gap in which the method lets the soak count
RAMP_MIN = 20
# The minutes of the script at which each pad is turned down and lifted, and the run is off and cold.
MINUTES = {
    "upper": {
        "Soaked": 38, "Workable": 39, "Switched off": 71, "Cold": 81,
        "Pad U1 turned down": 44, "Pad U2 turned down": 50, "Pad U1 lifted": 69, "Pad U2 lifted": 70,
    },
    "post": {
        "Soaked": 53, "Workable": 54, "Switched off": 85, "Cold": 96,
        "Pad L2 turned down": 60, "Pad L1 turned down": 68, "Pad L2 lifted": 83, "Pad L1 lifted": 84,
    },
}  # fmt: skip


@dataclass
class RunHand:
    """The run of one zone, at the minute to which the page's clock was turned."""

    on: CardHand
    zone: str
    minute: int = 0

    def go_on(self, *, to_its_end: bool) -> None:
        """Until the run leads on to a step, or is over."""
        while True:
            band = self.on.page.locator(".run-band")
            key = self.on.now().key
            if key == "To the next act":
                return self.on.lead(key)
            if band.count() and not to_its_end and not key.startswith(("Soaked", "Workable")):
                return self.back()
            self._act(key)

    def once(self) -> None:
        """What the run calls for now, and back to what was done meanwhile."""
        self._act(self.on.now().key)
        self.back()

    def back(self) -> None:
        """To the step that the run leads to."""
        about = self.on.page.locator(".stage").first.inner_text()
        hand.settle(self.on.page)
        self.on.page.locator(".run-band").first.click()
        expect(self.on.page.locator(".stage").first).not_to_have_text(about)

    def _act(self, key: str) -> None:
        if key == "Enter readings":
            self._turn_to(self.minute + READ_EVERY_MIN if self.minute else RAMP_MIN)
            return self._read()
        at_min = MINUTES[self.zone].get(key.replace(" turned off", " turned down"), 0)  # by a plan, off
        while self.minute + READ_EVERY_MIN < at_min:
            self._turn_to(self.minute + READ_EVERY_MIN)
            hand.tap(self.on.page, "Enter readings")
            self._read(lead=False)
        self._turn_to(max(self.minute, at_min))
        self.on.lead(key)
        expect(self.on.page.locator(".key-main").first).not_to_contain_text(key)
        return None

    def _turn_to(self, minute: int) -> None:
        self.on.phone.pass_time((minute - self.minute) * MINUTE_MS)
        self.minute = minute

    def _read(self, *, lead: bool = True) -> None:
        """Every sensor in the order in which the keypad asks."""
        if lead:
            self.on.lead("Enter readings")
        for sensor, corners in RUNS[self.zone].sensors.items():
            hand.heading(self.on.page, re.compile(f"^Sensor {sensor},"))
            hand.type_number(self.on.page, str(at_minute(corners, self.minute)))
            self.on.lead("Record")
            expect(self.on.page.get_by_role("heading", name=re.compile(f"^Sensor {sensor},"))).to_have_count(
                0
            )


def heat_run(on: CardHand, act: Act, ask: Ask) -> None:
    """Switched on where it begins, gone on with where another step continues it."""
    assert isinstance(ask, HeatAsk)
    on.lead("Open the heat run")
    leaves(on, act.heading)
    if on.now().key == "Switch on":
        on.lead("Switch on")
        expect(on.page.get_by_role("timer")).to_be_visible()
        on.runs[ask.zone] = RunHand(on, ask.zone)
    on.runs[ask.zone].go_on(to_its_end=ask.continues is not None)


def turned_down_meanwhile(zone: str) -> Callable[[CardHand], None]:
    """One of the two who wedge turns the first pad down when the run calls for it."""

    def turn_down(on: CardHand) -> None:
        hand.tap(on.page, re.compile("^The run calls: turn pad"))
        on.runs[zone].once()

    return turn_down
