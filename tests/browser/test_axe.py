"""Every screen, light and dark, on small phones and usual ones: nothing is hard to read, hit or reach."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from bayleaf import demo_plan as plan
from browser import office_hand, seen, shop
from browser import phone_hand as hand
from browser.demo_server import DemoServer
from browser.handset import CLOCK

STEP = "step/spine/spn"
SHORT_HEAT = Path(__file__).with_name("short_heat.yaml")
HEAT_ORDER = "HEAT-1"
OpenPage = Callable[[str], Page]


@pytest.fixture(scope="module")
def demo_shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[DemoServer]:
    """One demo for all of this file."""
    server = DemoServer(tmp_path_factory.mktemp("seen"))
    server.start()
    yield server
    server.kill()


@pytest.fixture
def opened(desk: Browser) -> Iterator[OpenPage]:
    """Pages that a script of the test may be added to; their clocks can be turned."""
    made: list[BrowserContext] = []
    faults: list[str] = []

    def make(url: str) -> Page:
        made.append(desk.new_context(bypass_csp=True, service_workers="block"))
        made[-1].add_init_script(CLOCK)
        return shop.phone_page(made[-1], url, faults)

    yield make
    for context in made:
        context.close()
    assert faults == []


@dataclass
class Look:
    """What was found on the pages that were looked at."""

    page: Page
    rules: dict[str, list[str]] = field(default_factory=dict)
    wide: dict[str, list[str]] = field(default_factory=dict)
    small: dict[str, list[str]] = field(default_factory=dict)

    def at(self, name: str, *, thumbs: bool = True) -> None:
        """The page as it stands."""
        if thumbs:
            self.small[name] = seen.too_small(self.page)
        self.wide[name] = seen.too_wide(self.page)
        self.rules[name] = seen.rules_broken(self.page)

    def nothing(self) -> None:
        """Each kind by itself, so that a failure names the page and what is on it."""
        for found in (self.rules, self.wide, self.small):
            assert {name: faults for name, faults in found.items() if faults} == {}


def test_the_pages_of_a_card(demo_shop: DemoServer, opened: OpenPage) -> None:
    page = opened(demo_shop.phone("technician"))
    look = Look(page)
    hand.heading(page, re.compile("open job"))
    look.at("my jobs")
    hand.tap(page, plan.ORDER)
    hand.heading(page, "Book the van in")
    card = page.url.removeprefix(demo_shop.phone("technician"))
    hand.tap(page, "Note", exact=True)
    hand.write(page, "The key of the sliding door is missing.", "Record note")
    hand.heading(page, "Book the van in")
    for name, path in {
        "next act": "",
        "held step": f"/{STEP}-10",
        "warned step": f"/{STEP}-09",
        "all steps": "/steps",
        "text": f"/{STEP}-01/ask/vin_read",
        "choice": f"/{STEP}-01/ask/vin_compared",
        "reading": f"/{STEP}-03/ask/voltage",
        "photo": f"/{STEP}-01/ask/damage",
        "countersign": f"/{STEP}-03/ask/seen_dead",
        "rivets": f"/{STEP}-05/ask/header",
        "result": f"/{STEP}-06/ask/accounted",
        "lot": f"/{STEP}-07/ask/cleaner",
        "before switch-on": f"/{STEP}-09/ask/run",
        "deviation": f"/{STEP}-01/write/deviation",
        "not applicable": f"/{STEP}-01/write/not_applicable",
        "wanted photos": "/wanted",
    }.items():
        walk_to(page, f"/{card}{path}")
        look.at(name)
    look.nothing()


def test_the_pages_of_the_phone_itself(demo_shop: DemoServer, opened: OpenPage) -> None:
    page = opened(demo_shop.phone("photographer"))
    look = Look(page)
    hand.heading(page, re.compile("open job"))
    for name, path in {
        "records": "/records",
        "hand-in": "/hand-in",
        "this phone": "/phone",
        "no page": "/nowhere",
    }.items():
        walk_to(page, path)
        look.at(name)
    hand.tap(page, re.compile("at the office|on this phone|Nothing recorded"))
    look.at("where the records are")
    page.get_by_role("dialog").get_by_role("button", name="Close").click()
    page.locator(".glance button").first.click()
    look.at("what holds here")
    look.nothing()


def test_the_pages_of_a_heat_run(demo_shop: DemoServer, opened: OpenPage) -> None:
    open_short_heat(opened(f"{demo_shop.url}/office"))
    page = opened(demo_shop.phone("second"))
    look = Look(page)
    hand.tap(page, HEAT_ORDER)
    hand.lead(page, "Open the heat run")
    hand.heading(page, "Before switch-on")
    look.at("before switch-on")
    hand.lead(page, "Switch on")
    expect(page.get_by_role("timer")).to_be_visible()
    look.at("run")
    page.evaluate("turnedClock.wall_ms += 70_000; turnedClock.mono_ms += 70_000")
    expect(page.locator(".phone.due")).to_be_visible()
    look.at("due")
    hand.tap(page, "Other acts")
    look.at("other acts")
    page.get_by_role("dialog").get_by_role("button", name="Close").click()
    hand.lead(page, "Enter readings")
    hand.heading(page, re.compile("Sensor a"))
    look.at("readings")
    look.nothing()


def test_the_phones_door(opened: OpenPage, tmp_path: Path) -> None:
    server = shop.served(tmp_path)
    server.start()
    page = opened(server.url)
    look = Look(page)
    hand.heading(page, "Pair this phone")
    look.at("pair")
    shop.type_code(page, "ABC", "")
    look.at("too short")
    shop.type_code(page, "ABCDEFGH", "bay 1")
    hand.heading(page, "This code is not known")
    look.at("not known")
    look.nothing()
    page.context.close()
    server.kill()


def test_the_demos_front_page(demo_shop: DemoServer, opened: OpenPage) -> None:
    page = opened(demo_shop.url)
    look = Look(page)
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    expect(page.get_by_text(plan.TECHNICIAN.name).first).to_be_visible()
    look.at("front")
    look.nothing()


def test_the_offices_pages(demo_shop: DemoServer, opened: OpenPage) -> None:
    page = opened(f"{demo_shop.url}/office")
    look = Look(page)
    expect(page.get_by_role("button", name="Sign in")).to_be_visible()
    look.at("sign in", thumbs=False)
    office_hand.sign_in(page, plan.OFFICE.name, plan.OFFICE_PASSWORD)
    for tab in ("Board", "Methods", "People", "Devices", "Hand-in", "Filed", "Office log"):
        page.get_by_role("navigation", name="Office").get_by_role("link", name=tab, exact=True).click()
        expect(page.get_by_text("Asking the office for this page.")).to_have_count(0)
        look.at(tab, thumbs=False)
        page.set_viewport_size({"width": 1280, "height": 800})
        look.rules[f"{tab}, wide"] = seen.rules_broken(page)
    page.goto(f"{demo_shop.url}/office/new")
    expect(page.get_by_role("checkbox", name=plan.TECHNICIAN.name)).to_be_visible()
    look.at("new job", thumbs=False)
    page.goto(f"{demo_shop.url}/office")
    office_hand.open_job(page)
    look.at("job", thumbs=False)
    page.set_viewport_size({"width": 1280, "height": 800})
    look.rules["job, wide"] = seen.rules_broken(page)
    page.goto(f"{demo_shop.url}/office/methods")
    page.get_by_role("link", name="Read Take off a bracket half").click()
    expect(page.get_by_text("Book the van in").first).to_be_visible()
    look.at("method", thumbs=False)
    look.nothing()


def test_the_looks_find_what_is_wrong(opened: OpenPage) -> None:
    page = opened("about:blank")
    page.set_content(
        """<html lang="en"><title>Wrong</title><main id="app"><h1>Wrong</h1>
        <p style="color: #999; background: #fff">too pale</p><input>
        <button style="width: 30px">x</button><p style="width: 400px">too wide</p></main></html>"""
    )
    look = Look(page)
    look.at("wrong")
    assert {found.split(" ")[1] for found in look.rules["wrong"]} == {"color-contrast", "label"}
    assert any("too wide" in found for found in look.wide["wrong"])
    assert any(found.startswith("x: 30 x") for found in look.small["wrong"])


def walk_to(page: Page, path: str) -> None:
    """Inside the app, as a link would."""
    page.evaluate(
        "(path) => { history.pushState({}, '', path); dispatchEvent(new PopStateEvent('popstate')) }", path
    )
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    hand.settle(page)


def open_short_heat(ada: Page) -> None:
    """A job whose one step is a heat run, for the second technician."""
    office_hand.sign_in(ada, plan.OFFICE.name, plan.OFFICE_PASSWORD)
    ada.get_by_role("link", name="Methods", exact=True).click()
    ada.get_by_label("Method file (YAML)").set_input_files(SHORT_HEAT)
    ada.get_by_role("button", name="Check and import").click()
    expect(ada.get_by_text(re.compile("is imported|was here already"))).to_be_visible()
    ada.get_by_role("link", name="Board", exact=True).click()
    ada.get_by_role("link", name="Open a job").first.click()
    ada.get_by_role("textbox", name="Order number").fill(HEAT_ORDER)
    ada.get_by_role("textbox", name="Part", exact=True).fill("invented strip")
    for name in ("Warm a strip", plan.SECOND.name):
        ada.get_by_role("checkbox", name=name).check()
    ada.get_by_role("button", name="Open the job").click()
    expect(ada.get_by_role("region", name="Time line")).to_be_visible()
