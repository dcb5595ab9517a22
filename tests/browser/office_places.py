"""Every page of the office, found by its own links, and the states that no link leads to."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Browser, FilePayload, Page, Route, expect

from bayleaf import demo_plan as plan
from browser import office_hand, readings_places
from browser.demo_server import DemoServer

LINKS = (
    """() => [...document.querySelectorAll('a[href^="/office"]')].map((link) => link.getAttribute('href'))"""
)
WAITING = "Asking the office for this page."
KINDS = re.compile(r"^(jobs|methods|heat)-.+")
OF_A_KIND = 5  # jobs, methods and heat zones look alike: the first few stand for all
SHORT_HEAT = Path(__file__).with_name("short_heat.yaml")
NOT_A_NUMBER = (b"soak_min_minutes: 1.5", b"soak_min_minutes: soon")


@dataclass(frozen=True)
class Place:
    """A page of the office as it stands; `page` is lent until the next one is asked for."""

    name: str
    page: Page


def places(desk: Browser, server: DemoServer) -> Iterator[Place]:
    """All of them, in one browser each for the door and for the inside."""
    context = desk.new_context(viewport={"width": 1280, "height": 800}, bypass_csp=True)
    page = context.new_page()
    yield from at_the_door(page, server)
    office_hand.sign_in(page, plan.OFFICE.name, plan.OFFICE_PASSWORD)
    yield from by_links(page, server)
    for name, lead in STATES.items():
        lead(page, server)
        yield Place(f"office_{name}", page)
        page.unroute_all()
    context.close()


def run_places(desk: Browser, server: DemoServer, order: str) -> Iterator[Place]:
    """The states of a hot run's readings; `order` names the job that has the run."""
    context = desk.new_context(viewport={"width": 1280, "height": 800}, bypass_csp=True)
    page = context.new_page()
    page.goto(f"{server.url}/office")
    office_hand.sign_in(page, plan.OFFICE.name, plan.OFFICE_PASSWORD)
    for name, lead in readings_places.LEADS.items():
        lead(order, page, server)
        yield Place(f"office_{name}", page)
        page.unroute_all()
    context.close()


def at_the_door(page: Page, server: DemoServer) -> Iterator[Place]:
    """Nobody is signed in, or nobody answers."""
    page.route("**/api/**", lambda route: route.abort())
    page.goto(f"{server.url}/office")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    yield Place("office_unreachable", page)
    page.unroute_all()
    page.goto(f"{server.url}/office")
    expect(page.get_by_role("button", name="Sign in")).to_be_visible()
    yield Place("office_signed_out", page)


def by_links(page: Page, server: DemoServer) -> Iterator[Place]:
    """From the board on, each address once."""
    seen, left = {"/office"}, ["/office"]
    kinds: dict[str, int] = {}
    while left:
        path = left.pop(0)
        arrive(page, f"{server.url}{path}")
        name = path.removeprefix("/office").strip("/").replace("/", "-") or "board"
        if kind := KINDS.match(name):
            kinds[kind[1]] = kinds.get(kind[1], 0) + 1
            name = f"{kind[1]}_{kinds[kind[1]]}"
            if kinds[kind[1]] > OF_A_KIND:
                continue
        yield Place(f"office_{name}", page)
        found: list[str] = page.evaluate(LINKS)
        new = [one for one in dict.fromkeys(found) if one not in seen and "#" not in one]
        seen.update(new)
        left += new


def arrive(page: Page, url: str) -> None:
    """The page, with what it asked the office for."""
    page.goto(url)
    expect(page.get_by_role("navigation", name="Office")).to_be_visible()
    expect(page.get_by_text(WAITING)).to_have_count(0)
    expect(page.get_by_role("heading").first).to_be_visible()
    page.wait_for_load_state("networkidle")


def without_lists(route: Route) -> None:
    """What the server answers, with nothing in it."""
    told: dict[str, object] = route.fetch().json()
    route.fulfill(json={name: [] if isinstance(value, list) else value for name, value in told.items()})


def empty_board(page: Page, server: DemoServer) -> None:
    page.route("**/api/jobs", without_lists)
    arrive(page, f"{server.url}/office")


def silent_board(page: Page, server: DemoServer) -> None:
    """Signed in, and then the server is gone: the page says so and keeps what it showed."""
    arrive(page, f"{server.url}/office")
    page.route("**/api/**", lambda route: route.abort())
    expect(page.get_by_text(re.compile("has not answered")).first).to_be_visible(timeout=15_000)


def filing(page: Page, server: DemoServer) -> None:
    arrive(page, f"{server.url}/office")
    office_hand.open_job(page)
    page.get_by_role("button", name="File incomplete", exact=True).click()
    expect(page.get_by_role("dialog")).to_be_visible()


def found_nothing(page: Page, server: DemoServer) -> None:
    arrive(page, f"{server.url}/office/filed")
    page.get_by_role("searchbox").or_(page.get_by_role("textbox")).first.fill("no such order")
    expect(page.get_by_role("link", name=re.compile("report"))).to_have_count(0)
    page.wait_for_load_state("networkidle")


def method_faults(page: Page, server: DemoServer) -> None:
    arrive(page, f"{server.url}/office/methods")
    file: FilePayload = {
        "name": "faulty.yaml",
        "mimeType": "application/yaml",
        "buffer": SHORT_HEAT.read_bytes().replace(*NOT_A_NUMBER),
    }
    page.get_by_label("Method file and drawings").set_input_files(file)
    expect(page.get_by_text(re.compile("cannot be imported"))).to_be_visible()


STATES: dict[str, Callable[[Page, DemoServer], None]] = {
    "board_empty": empty_board,
    "board_unreachable": silent_board,
    "filing": filing,
    "filed_nothing": found_nothing,
    "method_faults": method_faults,
}
