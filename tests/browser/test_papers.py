"""The maker's own instruction: added on the job's page, on the phone with the next contact, read offline."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Browser, FilePayload, expect

from bayleaf import demo_plan as plan
from browser import office_hand
from browser import phone_hand as hand
from browser.demo_server import DemoServer
from browser.handset import OpenHandset
from harness.pictures import pdf

INSTRUCTION = "Maker\u2019s instruction"


def test_an_instruction_of_the_office_is_read_on_the_phone_with_the_network_gone(
    desk: Browser, demo: DemoServer, handset: OpenHandset, tmp_path: Path
) -> None:
    content = pdf(b"invented", 3)
    file: FilePayload = {"name": "Frame half 7.pdf", "mimeType": "application/pdf", "buffer": content}
    office = office_hand.office_page(desk, demo)
    office_hand.open_job(office)
    papers = office.get_by_role("region", name=INSTRUCTION)
    papers.get_by_label("Add a PDF").set_input_files(file)
    expect(papers.get_by_role("link", name="Save Frame half 7")).to_be_visible()

    phone = handset(demo.phone("technician"))
    page = phone.open()
    hand.tap(page, f"Go on with {plan.ORDER}")
    hand.sync_now(page)
    phone.offline()
    hand.tap(page, "More")
    hand.tap(page, INSTRUCTION)
    expect(page.get_by_role("heading", name="Frame half 7")).to_be_visible()
    with page.expect_download() as saving:
        hand.tap(page, "Save as a file: Frame half 7")
    saved = tmp_path / "saved.pdf"
    saving.value.save_as(saved)
    assert saving.value.suggested_filename == "Frame half 7.pdf"
    assert saved.read_bytes() == content
