"""A shop from its first start: set up by the office's screens, its phones let in by a typed code."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser import office_hand
from browser import phone_hand as hand
from browser.demo_server import DemoServer

METHODS = Path(__file__).parents[2] / "seed_data" / "methods"
TECHNICIAN = "Tess Ober"
ORDER = "SHOP-1"
SOON_MS = 15_000


def served(folder: Path) -> DemoServer:
    """`bayleaf serve` under the name of this machine."""
    return DemoServer(folder, words=("serve", "--name", "localhost"))


def phone_page(context: BrowserContext, url: str, faults: list[str]) -> Page:
    """A page of a phone; what it throws is kept for the test to look at."""
    page = context.new_page()
    page.set_default_timeout(SOON_MS)
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.goto(url)
    return page


def type_code(page: Page, code: str, name: str) -> None:
    """At the phone's door."""
    page.get_by_role("textbox", name="Code from the office").fill(code)
    page.get_by_role("textbox", name="What the office shall call this phone").fill(name)
    page.get_by_role("button", name="Pair this phone").click()


def check_digits(page: Page) -> str:
    """The four that the phone shows while it waits."""
    hand.heading(page, "Waiting for the office")
    label = page.get_by_role("img", name=re.compile("^Check digits")).get_attribute("aria-label")
    assert label is not None
    return "".join(re.findall(r"\d", label))


@dataclass
class Shop:
    """A server that serves a shop, and its office, signed in."""

    desk: Browser
    server: DemoServer
    office: Page
    faults: list[str] = field(default_factory=list)

    def phone(self) -> Page:
        """A phone that nobody has let in, at the app's own address."""
        context = self.desk.new_context(viewport={"width": 390, "height": 844}, accept_downloads=True)
        page = phone_page(context, self.server.url, self.faults)
        hand.heading(page, "Pair this phone")
        return page

    def paired_phone(self, name: str) -> Page:
        """A phone of the technician, let in by code and digits, with the job on it."""
        page = self.phone()
        type_code(page, self.make_code(), name)
        digits = check_digits(page)
        self.let_in(name, digits)
        expect(page.get_by_role("link", name=f"Go on with {ORDER}")).to_be_visible()
        return page

    def go(self, page: str) -> None:
        """A page of the office, as it stands now."""
        self.office.goto(f"{self.server.url}/office/{page}")
        expect(self.office.get_by_role("navigation", name="Office")).to_be_visible()

    def make_code(self) -> str:
        """For a phone of the technician; the page with the code stays open."""
        self.go("devices")
        self.office.get_by_role("button", name="Pair a phone").click()
        self.office.get_by_role("radio", name=TECHNICIAN).check()
        self.office.get_by_role("button", name="Make a code").click()
        label = self.office.get_by_role("img", name=re.compile("^Code ")).get_attribute("aria-label")
        assert label is not None
        return label.removeprefix("Code ")

    def let_in(self, name: str, digits: str) -> None:
        """Compare the digits and confirm; the page is asked for anew rather than waited for."""
        self.go("devices")
        waiting = self.office.get_by_role("listitem").filter(has_text=name)
        expect(waiting).to_contain_text(digits)
        waiting.get_by_role("button", name=f"Same digits: let {name} in").click()
        expect(waiting).to_have_count(0)


def open_shop(desk: Browser, server: DemoServer) -> Shop:
    """The very first day: the printed login, a person, a method, a job."""
    office = desk.new_context(viewport={"width": 1280, "height": 800}).new_page()
    office.set_default_timeout(SOON_MS)
    shop = Shop(desk, server, office)
    office.goto(f"{server.url}/office")
    office_hand.sign_in(office, *first_login(server))
    shop.go("people")
    _add_technician(office)
    shop.go("methods")
    _import_method(office)
    shop.go("new")
    _open_job(office)
    return shop


def first_login(server: DemoServer) -> tuple[str, str]:
    """Name and password as they were printed."""
    found = re.search(r"/office as '([^']+)', password (\S+)", server.said())
    assert found is not None, server.said()
    return found[1], found[2]


def _add_technician(office: Page) -> None:
    office.get_by_role("button", name="Add a person").click()
    sheet = office.get_by_role("dialog")
    sheet.get_by_role("textbox", name="Name", exact=True).fill(TECHNICIAN)
    sheet.get_by_role("checkbox", name="technician").check()
    sheet.get_by_role("textbox", name="PIN").fill("1234")
    sheet.get_by_role("button", name="Add", exact=True).click()
    expect(office.get_by_text(f"{TECHNICIAN} is saved.")).to_be_visible()


def _import_method(office: Page) -> None:
    files = [METHODS / "spine.yaml", METHODS / "bracket.svg"]
    office.get_by_label("Method file and drawings").set_input_files(files)
    office.get_by_role("button", name="Import", exact=True).click()
    expect(office.get_by_text(re.compile("is imported"))).to_be_visible()


def _open_job(office: Page) -> None:
    office.get_by_role("textbox", name="Order number").fill(ORDER)
    office.get_by_role("textbox", name="Part", exact=True).fill("invented bracket")
    for name in ("Take off a bracket half", TECHNICIAN):
        office.get_by_role("checkbox", name=name).check()
    office.get_by_role("button", name="Open the job").click()
    expect(office.get_by_role("region", name="Time line")).to_be_visible()
