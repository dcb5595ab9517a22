"""The office sets the shop's time zone; the next report says its times in it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from bayleaf import demo_plan as plan
from browser import office_hand
from browser.demo_server import DemoServer
from unit.report.setting import text_of


@pytest.fixture
def office(desk: Browser, tmp_path: Path) -> Iterator[Page]:
    server = DemoServer(tmp_path)
    server.start()
    page = office_hand.office_page(desk, server)
    yield page
    page.context.close()
    server.kill()


def set_zone(page: Page, name: str) -> None:
    page.get_by_role("link", name="Filed", exact=True).click()
    part = page.get_by_role("region", name="Times in reports")
    part.get_by_role("combobox", name="Time zone").fill(name)
    part.get_by_role("button", name="Save the time zone").click()


def test_reports_say_the_shops_time_once_the_office_sets_its_zone(office: Page) -> None:
    office.get_by_role("link", name="Filed", exact=True).click()
    part = office.get_by_role("region", name="Times in reports")
    expect(part).to_contain_text("UTC: no time zone is set.")

    set_zone(office, "Bay 4")
    expect(part).to_contain_text("none is called 'Bay 4'")

    set_zone(office, "Asia/Kolkata")
    expect(part).to_contain_text("Times of the day as in Asia/Kolkata")
    office.get_by_role("link", name="Board").click()
    office_hand.open_job(office)
    expect(office).to_have_title(f"Job {plan.ORDER} · Bayleaf")
    link = office.get_by_role("link", name=re.compile("Report so far")).first
    report = office.request.get(str(link.evaluate("link => link.href")))
    assert "Asia/Kolkata on every page: UTC+05:30" in text_of(report.body())
