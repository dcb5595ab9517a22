"""A hand in the office: signs in, opens the job, and acts on what the screens show."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from bayleaf import demo_plan as plan
from browser.demo_server import DemoServer

CATCHES_UP_MS = 30_000
ACCEPTED = "Seen at the car."


def office_page(
    desk: Browser, server: DemoServer, *, scheme: str = "light", size: tuple[int, int] = (1280, 800)
) -> Page:
    """A browser of its own, signed in."""
    context = desk.new_context(
        viewport={"width": size[0], "height": size[1]}, color_scheme="dark" if scheme == "dark" else "light"
    )
    page = context.new_page()
    page.goto(f"{server.url}/office")
    sign_in(page, plan.OFFICE.name, plan.OFFICE_PASSWORD)
    return page


def sign_in(page: Page, name: str, password: str) -> None:
    page.get_by_role("textbox", name="Name").fill(name)
    page.get_by_label("Password").fill(password)
    page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_role("navigation", name="Office")).to_be_visible()


def open_job(page: Page, order: str = plan.ORDER) -> None:
    page.get_by_role("link", name=f"Job {order}").first.click()
    expect(page.get_by_role("region", name="Time line")).to_be_visible()


def act(page: Page, opens: str | re.Pattern[str], key: str, words: str = "") -> None:
    """Press what opens a sheet, say why where it is asked, press its key; until the sheet is gone."""
    page.get_by_role("button", name=opens).first.click(timeout=CATCHES_UP_MS)
    sheet = page.get_by_role("dialog")
    if words:
        sheet.get_by_role("textbox").first.fill(words)
    sheet.get_by_role("button", name=key, exact=True).click()
    expect(sheet).to_have_count(0)


def sees(page: Page, region: str, words: str | re.Pattern[str]) -> None:
    """What has arrived shows by itself."""
    expect(page.get_by_role("region", name=region)).to_contain_text(words, timeout=CATCHES_UP_MS)


def accept_all(page: Page) -> None:
    """Every finding and deviation, one by one, each with its reason."""
    expect(page.get_by_role("button", name=re.compile("^File"))).to_be_visible()  # what is missing has come
    keys = page.get_by_role("button", name=re.compile("^Accept "))
    while left := keys.count():
        act(page, re.compile("^Accept "), "Accept it", ACCEPTED)
        expect(keys).to_have_count(left - 1)


def file_it(page: Page) -> str:
    """File with nothing missing; the fingerprint of the seal."""
    expect(page.get_by_role("region", name="Ready to be filed")).to_be_visible(timeout=CATCHES_UP_MS)
    page.get_by_role("button", name="File", exact=True).click()
    sheet = page.get_by_role("dialog")
    sheet.get_by_role("button", name="File it", exact=True).click()
    expect(sheet.get_by_text("Filed and sealed.")).to_be_visible(timeout=CATCHES_UP_MS)
    fingerprint = re.sub(r"\s", "", sheet.locator(".o-hex").first.inner_text())
    sheet.get_by_role("button", name="Close").first.click()
    return fingerprint


def download_dossier(page: Page, target: Path) -> Path:
    """By the link of the job's page."""
    with page.expect_download() as downloading:
        page.get_by_role("link", name="Dossier", exact=True).first.click()
    downloading.value.save_as(target)
    return target


def open_new_job(page: Page, order: str) -> None:
    """A job with the demo's method, for everybody who has a phone."""
    page.get_by_role("link", name="Open a job").click()
    for label, words in (("Order number", order), ("VIN", "DEMO0000000000007"), ("Vehicle", "invented van")):
        page.get_by_role("textbox", name=label).fill(words)
    page.get_by_role("textbox", name="Part", exact=True).fill("invented bracket")
    page.get_by_role("textbox", name="Hoist or bay").fill("hoist 2")
    page.get_by_role("radio", name="Left").check()
    for name in ("Take off a bracket half", *(one.name for one in plan.PHONES.values())):
        page.get_by_role("checkbox", name=name).check()
    page.get_by_role("button", name="Open the job").click()
    expect(page.get_by_role("region", name="Time line")).to_be_visible()


def assign(page: Page, key: str) -> None:
    """Assign somebody to the job, or take them off."""
    page.get_by_role("button", name="Assign people").click()
    sheet = page.get_by_role("dialog")
    sheet.get_by_role("button", name=key, exact=True).click()
    expect(sheet.get_by_role("button", name=key, exact=True)).to_have_count(0)
    sheet.get_by_role("button", name="Close").click()
