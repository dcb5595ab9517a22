"""The office at the end of a job: accepts, files although something is missing, and opens the report."""

from __future__ import annotations

import io
import re
from collections.abc import Sequence

from playwright.sync_api import Page, expect
from pypdf import PdfReader

from browser import office_hand as office

REASON = "Filed after the removal: the fitting is ordered as a job of its own."


def file_what_is_done(ada: Page) -> None:
    """Every finding and deviation is accepted by name; what is missing is filed with a reason."""
    office.accept_all(ada)
    ada.get_by_role("button", name="File incomplete", exact=True).click()
    sheet = ada.get_by_role("dialog")
    expect(sheet).to_contain_text("step")
    sheet.get_by_role("textbox").fill(REASON)
    sheet.get_by_role("button", name=re.compile("^File it")).click()
    expect(sheet.get_by_text("Filed and sealed.")).to_be_visible(timeout=office.CATCHES_UP_MS)


def opened_report(ada: Page) -> bytes:
    """By the link of the sheet that says that it is filed."""
    link = ada.get_by_role("dialog").get_by_role("link", name="Report")
    address = link.get_attribute("href")
    assert address is not None
    answer = ada.request.get(re.sub("/office.*", "", ada.url) + address)
    assert answer.headers["content-type"] == "application/pdf"
    return answer.body()


def words_of(report: bytes) -> Sequence[str]:
    """Page by page, line ends as blanks."""
    pages = PdfReader(io.BytesIO(report)).pages
    return [re.sub(r"\s+", " ", page.extract_text().replace("\u200b", "")) for page in pages]
