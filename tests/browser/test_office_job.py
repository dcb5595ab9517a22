"""The office's page of a job: its parts on a narrow screen, and filing it incomplete by a written reason."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from bayleaf import demo_plan as plan
from browser import office_hand
from browser.demo_server import DemoServer

NARROW = (390, 844)


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[DemoServer]:
    made = DemoServer(tmp_path_factory.mktemp("office"))
    made.start()
    yield made
    made.kill()


def job_page(desk: Browser, server: DemoServer, size: tuple[int, int] = (1280, 800)) -> Page:
    page = office_hand.office_page(desk, server, size=size)
    office_hand.open_job(page)
    return page


def test_on_a_narrow_screen_each_part_of_a_job_is_a_press_away(desk: Browser, server: DemoServer) -> None:
    page = job_page(desk, server, NARROW)
    parts = page.get_by_role("navigation", name="On this page")
    for name in ("Time line", "Heat runs", "Photos", "Steps"):
        parts.get_by_role("button", name=name).click()
        expect(page.get_by_role("region", name=name, exact=True)).to_be_focused()
        expect(page.get_by_role("heading", name=name, exact=True)).to_be_in_viewport()
    page.context.close()


def test_the_sheet_of_a_filing_stays_that_of_the_filing_when_the_page_hears_of_it(
    desk: Browser, server: DemoServer
) -> None:
    page = job_page(desk, server)
    page.get_by_role("button", name="File incomplete", exact=True).click()
    sheet = page.get_by_role("dialog")
    sheet.get_by_role("button", name="File it incomplete").click()
    expect(sheet.get_by_role("alert")).to_be_visible()  # not without its reason

    sheet.get_by_role("textbox").fill("Practice ends here.")
    sheet.get_by_role("button", name="File it incomplete").click()
    expect(sheet.get_by_text("Filed and sealed.")).to_be_visible(timeout=office_hand.CATCHES_UP_MS)
    expect(page.get_by_text("Filed like this because: Practice ends here.")).to_be_attached()
    expect(page.get_by_role("dialog", name=f"File job {plan.ORDER}")).to_be_visible()
    page.context.close()
