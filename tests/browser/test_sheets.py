"""The office adds a supplier's sheet; the card reckons with it, and the office sees what rests on it."""

from __future__ import annotations

import re

from playwright.sync_api import Browser, Page, expect

from browser import office_hand
from browser import phone_hand as hand
from browser.begun_demo import ORDER, Begin, script_before
from browser.handset import OpenHandset


def test_the_card_reckons_with_the_sheet_that_the_office_added(
    begin: Begin, handset: OpenHandset, desk: Browser
) -> None:
    shop = begin(script_before("fit-18"), "6 09:20")
    office = office_hand.office_page(desk, shop)
    add_the_sheet(office, shop.url)

    phone = handset(shop.phone("technician"))
    page = phone.open()
    hand.tap(page, f"Go on with {ORDER}")
    expect(page).to_have_url(re.compile("/job/"))
    job = re.search(r"/job/([^/?#]+)", page.url)
    assert job is not None
    page.goto(f"{shop.phone('technician')}job/{job[1]}/step/fitting/fit-17/ask/bead")
    expect(page.get_by_text(re.compile("Another supplier.s sheet or heat plan is in use"))).to_be_visible()
    # 49.6 mL of bead out of one cartridge of 400 mL less 12 mL in the mixer.
    expect(page.get_by_text("338.4 mL")).to_be_visible()
    page.get_by_text(re.compile("^Worked out from")).click()
    told = page.get_by_text(re.compile("by the supplier.s sheet: Paste 4 data, revision C"))
    expect(told.filter(has_text="it gives 380 mL to 410 mL; the method says 50 mL")).to_be_visible()
    hand.settle(page)
    hand.key(page, "Record it anew").click()
    hand.all_sent(page)
    phone.close()

    office.reload()
    office.get_by_text("Invented paste 4").first.click()
    used = office.get_by_role("listitem").filter(has=office.get_by_role("link", name=ORDER))
    expect(used).to_contain_text("one result rests on this revision")
    withdraw_the_sheet(office)
    office.context.close()


def test_the_lengths_that_the_office_added_are_chosen_from_on_the_card(
    begin: Begin, handset: OpenHandset, desk: Browser
) -> None:
    """The demo's grips are 7.3 to 7.6 mm: 12 mm by the method's rows, 13 mm by the sheet's."""
    shop = begin(script_before("fit-11"), "5 13:20")
    office = office_hand.office_page(desk, shop)
    add_the_rivets(office, shop.url)

    page = handset(shop.phone("technician")).open()
    hand.tap(page, f"Go on with {ORDER}")
    expect(page).to_have_url(re.compile("/job/"))
    job = re.search(r"/job/([^/?#]+)", page.url)
    assert job is not None
    page.goto(f"{shop.phone('technician')}job/{job[1]}/step/fitting/fit-10/ask/grip")
    expect(page.get_by_text(re.compile("Another supplier.s sheet or heat plan is in use"))).to_be_visible()
    expect(page.get_by_text("13 mm for header and post, 15 mm for foot.")).to_be_visible()
    page.get_by_text(re.compile("^Worked out from")).click()
    told = page.get_by_text(re.compile("by the supplier.s sheet: Rivet data, revision A"))
    expect(told.filter(has_text="the method says 10 mm, BR-48-10: 4.5 mm to 6.5 mm; 12 mm")).to_be_visible()
    hand.settle(page)
    hand.key(page, "Record it anew").click()
    hand.all_sent(page)
    office.context.close()


def add_the_rivets(page: Page, url: str) -> None:
    """First with two rows exchanged: told at the row that is out of order."""
    page.goto(f"{url}/office/materials")
    page.get_by_role("button", name="Add a sheet").click()
    form = page.get_by_role("dialog")
    form.get_by_label("What it is").select_option("rivets")
    form.get_by_label("Material", exact=True).select_option("rivets")
    for name, said in RIVET_WORDS.items():
        form.get_by_label(name, exact=True).fill(said)
    for row, figures in enumerate(ROWS, start=1):
        if row > 1:
            form.get_by_role("button", name="Add a length").click()
        for name, said in zip(PARTS, figures, strict=True):
            form.get_by_label(f"{name}, row {row}").fill(said)
    form.get_by_label("Length, row 2").fill("9")
    form.get_by_role("button", name="Add", exact=True).click()
    slip = form.get_by_label("Length, row 2")
    expect(slip).to_have_accessible_description("Found 9 mm after 11 mm, needed is the shorter rivet first.")
    slip.fill("13")
    form.get_by_role("button", name="Add", exact=True).click()
    expect(form).to_have_count(0)
    page.locator("summary").filter(has_text="Invented rivet").click()
    expect(page.get_by_text("13 mm, R 13: grips of 7.0 to 8.6 mm")).to_be_visible()


PARTS = ("Length", "Grip from", "Grip to", "Supplier\u2019s number")
ROWS = (("11", "5.0", "7.0", "R 11"), ("13", "7.0", "8.6", "R 13"), ("15", "8.6", "10.6", "R 15"))
RIVET_WORDS = {"Product": "Invented rivet", "Name of the sheet": "Rivet data", "Revision": "A"}


def withdraw_the_sheet(page: Page) -> None:
    """Not without a reason; it stays on the page with what rests on it."""
    page.get_by_role("button", name="Withdraw Invented paste 4, revision C").click()
    form = page.get_by_role("form", name="Withdraw Invented paste 4, revision C")
    form.get_by_role("button", name="Withdraw", exact=True).click()
    expect(form.get_by_text("Say what is wrong with it first.")).to_be_visible()
    form.get_by_label("What is wrong with it").fill("the sheet is of another cartridge")
    form.get_by_role("button", name="Withdraw", exact=True).click()
    expect(page.get_by_text("Invented paste 4 is withdrawn.")).to_be_visible()
    expect(page.get_by_text(re.compile("Withdrawn .*Ada Quill: the sheet is of another"))).to_be_visible()
    expect(page.get_by_role("listitem").filter(has=page.get_by_role("link", name=ORDER))).to_be_visible()


def add_the_sheet(page: Page, url: str) -> None:
    """First with a slip and half of a pair: both are told at their fields, and nothing is lost."""
    page.goto(f"{url}/office/materials")
    page.get_by_role("button", name="Add a sheet").click()
    form = page.get_by_role("dialog")
    form.get_by_role("button", name="Add", exact=True).click()
    expect(form.get_by_text("Choose the material first.")).to_be_visible()
    form.get_by_label("Material", exact=True).select_option("adhesive")
    for name, said in WORDS.items():
        form.get_by_label(name, exact=True).fill(said)
    for name, said in FIGURES.items():
        form.get_by_label(name, exact=True).fill(said)
    form.get_by_label("Value: Cartridge holds").fill("4OO")
    form.get_by_label("Value: Bondline at least").fill("0.8")
    form.get_by_role("button", name="Add", exact=True).click()
    slip = form.get_by_label("Value: Cartridge holds")
    expect(slip).to_have_accessible_description(
        'Found "4OO", allowed is a number such as 35 or 3.25 with a point.'
    )
    slip.fill("400")
    form.get_by_role("button", name="Add", exact=True).click()
    expect(form.get_by_label("Value: Bondline at most")).to_have_accessible_description(
        "Is missing; it is given together with bondline_min."
    )
    form.get_by_label("Value: Bondline at least").fill("")
    form.get_by_role("button", name="Add", exact=True).click()
    expect(form).to_have_count(0)
    expect(page.get_by_text("Invented paste 4 is added.")).to_be_visible()


WORDS = {
    "Product": "Invented paste 4",
    "Name of the sheet": "Paste 4 data",
    "Revision": "C",
    "Date of the sheet": "2026-02-01",
}
FIGURES = {
    "From: Cartridge holds": "380",
    "To: Cartridge holds": "410",
    "Value: Left in a mixer": "12",
}
