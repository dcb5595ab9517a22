"""An incomplete job is filed by its reason, and the sheet goes on to say what was asked of it."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from bayleaf import demo_plan as plan
from browser import office_hand
from browser.demo_server import DemoServer


def test_the_sheet_of_a_filing_stays_that_of_the_filing_when_the_page_hears_of_it(
    desk: Browser, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    server = DemoServer(tmp_path)
    request.addfinalizer(server.kill)
    server.start()
    page = office_hand.office_page(desk, server)
    office_hand.open_job(page)
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
