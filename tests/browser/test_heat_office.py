"""The office plans a heat run: brings a zone in, changes it by hand, reads the plan, pins it to a job."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, FilePayload, Locator, Page, expect

from bayleaf import demo_plan as plan
from browser import office_hand
from browser.demo_server import DemoServer
from unit.heat.zones import joint

PLANS_WITHIN_MS = 240_000  # some seconds on an idle machine; a full one takes its time
FIRST = re.compile("^The vehicle maker.s instructions and the adhesive.s data sheet come first[.]$")
ALONG = re.compile(r"([\d.]+)\smm along")


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[DemoServer]:
    """One demo for all of this file."""
    server = DemoServer(tmp_path_factory.mktemp("heat"))
    server.start()
    yield server
    server.stop()


@pytest.fixture
def page(desk: Browser, shop: DemoServer) -> Iterator[Page]:
    """The heat page, in a browser of its own that fails its test for what a page threw."""
    opened = office_hand.office_page(desk, shop)
    faults: list[str] = []
    opened.on("pageerror", lambda error: faults.append(str(error)))
    opened.get_by_role("link", name="Heat", exact=True).click()
    expect(opened.get_by_role("heading", name="Heat zones")).to_be_visible()
    yield opened
    opened.context.close()
    assert faults == []


def file(document: dict[str, Any]) -> FilePayload:
    """The document as a file that a person chooses."""
    return {"name": "zone.json", "mimeType": "application/json", "buffer": json.dumps(document).encode()}


def bring_in(page: Page, document: dict[str, Any]) -> None:
    """Until its page is open."""
    page.get_by_label("Zone document (YAML or JSON)").set_input_files(file(document))
    expect(page.get_by_role("heading", name=document["name"], level=1)).to_be_visible()


def figure(page: Page, name: str) -> Locator:
    """One of the plan's figures, with its inputs."""
    figures = page.get_by_role("region", name="Figures")
    return figures.get_by_role("listitem").filter(has_text=re.compile(f"^{name}"))


def test_a_zone_is_planned_read_and_pinned_to_a_job(page: Page) -> None:
    bring_in(page, joint(name="short seam", duration_min=20))
    expect(page.get_by_text("Invented for the demo")).to_be_visible()
    expect(page.get_by_text(FIRST)).to_be_visible()
    page.get_by_role("button", name="Plan it", exact=True).click()
    curves = page.get_by_role("region", name="Curves and release")
    expect(curves).to_be_visible(timeout=PLANS_WITHIN_MS)

    answer = page.get_by_role("region", name="Plan", exact=True)
    expect(answer).to_contain_text(re.compile(r"^Workable in \d+ min"))
    see_the_field(page)
    metal = figure(page, "Hottest metal")
    expect(metal).to_contain_text(re.compile(r"band \d+ to \d+\s°C"))
    metal.get_by_text("Inputs and band").click()
    expect(metal).to_contain_text("Band: contact 0.5 to 1.6 and loss 0.7 to 1.4 times what the zone says.")
    expect(metal).to_contain_text("Air and surroundings")
    pin_and_unpin(page)


def see_the_field(page: Page) -> None:
    """By keys alone: another layer, the beginning, one frame on."""
    field = page.get_by_role("region", name="Temperature over time")
    picture = field.get_by_role("img", name=re.compile("^bond, "))
    expect(picture).to_be_visible()
    expect(field.get_by_text(re.compile("Solid line: workable, 110\\s°C"))).to_be_visible()
    time = field.get_by_role("slider", name="Time after switch-on")
    time.press("Home")
    expect(
        field.get_by_role("img", name=re.compile("0\\smin after switch-on: from 20\\s°C to 20\\s°C"))
    ).to_be_visible()
    time.press("ArrowRight")
    expect(time).not_to_have_attribute("aria-valuetext", re.compile(r"^0\smin after"))
    field.get_by_role("radio", name="metal").check()
    expect(field.get_by_role("img", name=re.compile("^metal, "))).to_be_visible()


def pin_and_unpin(page: Page) -> None:
    """To the demo's one job, whose page then names the plan."""
    page.get_by_role("button", name="Pin to a job").click()
    sheet = page.get_by_role("dialog")
    sheet.get_by_role("radio", name=plan.ORDER).check()
    sheet.get_by_role("button", name="Pin it", exact=True).click()
    expect(sheet.get_by_role("status")).to_contain_text("Pinned to")
    sheet.get_by_role("button", name="Close").click()
    expect(sheet).to_have_count(0)
    page.get_by_role("link", name="Board", exact=True).click()
    office_hand.open_job(page)
    plans = page.get_by_role("region", name="Heat plans")
    expect(plans.get_by_role("link", name="Open the plan: short seam")).to_be_visible()
    expect(plans).to_contain_text("Workable in")
    plans.get_by_role("button", name=re.compile("^Unpin")).click()
    expect(plans).to_contain_text("No heat plan is pinned.")
    plans.get_by_role("button", name=re.compile("^Pin a plan")).first.click()
    sheet.get_by_role("radio", name="short seam").check()
    sheet.get_by_role("button", name="Pin it", exact=True).click()
    expect(sheet).to_have_count(0)
    expect(plans.get_by_role("link", name="Open the plan: short seam")).to_be_visible()


def test_a_plan_that_runs_is_cancelled_and_the_zone_is_kept(page: Page) -> None:
    bring_in(page, joint(name="long seam", size_mm=[2500, 160], duration_min=240))
    page.get_by_role("button", name="Plan it", exact=True).click()
    expect(page.get_by_role("progressbar", name="Progress of the plan")).to_be_visible()
    page.get_by_role("button", name="Cancel the plan").click()
    expect(page.get_by_text("The plan was cancelled. The zone is kept.")).to_be_visible()
    expect(page.get_by_role("button", name="Plan it again")).to_be_visible()
    page.get_by_role("link", name="All heat zones").click()
    row = page.get_by_role("row").filter(has_text="long seam")
    expect(row).to_contain_text("The plan was cancelled.")


def test_what_is_wrong_with_a_file_is_told_by_its_field(page: Page) -> None:
    document = joint(name="faulty seam", ambient_C="warm")
    page.get_by_label("Zone document (YAML or JSON)").set_input_files(file(document))
    told = page.get_by_role("alert").filter(has_text="Nothing was kept.")
    expect(told).to_contain_text("One fault.")
    expect(told).to_contain_text('ambient_C: found "warm"')
    expect(page.get_by_role("heading", name="Heat zones")).to_be_visible()


def test_the_joint_is_changed_by_mouse_by_keys_and_by_figures(page: Page) -> None:
    bring_in(page, joint(name="own seam"))
    page.get_by_role("link", name="Change a copy").click()
    expect(page.get_by_role("heading", name="Change a copy of own seam")).to_be_visible()
    sensor = page.get_by_role("button", name=re.compile("^Sensor a, "))
    said = page.get_by_role("status").filter(has_text="Sensor a")

    drag(page, page.locator(".hz-thing").filter(has_text=re.compile("^a$")), right_px=40)
    expect(said).not_to_contain_text("95 mm along")
    dragged_mm = along_mm(said)
    assert dragged_mm > 95
    sensor.press("ArrowLeft")
    sensor.press("Shift+ArrowLeft")
    expect(said).to_contain_text(f"{dragged_mm - 11:g}\u00a0mm along")
    place = page.get_by_role("textbox", name=re.compile(r"^Place \(mm\), x")).first
    expect(place).to_have_value(f"{dragged_mm - 11:g}")
    place.fill("120.5")
    expect(said).to_contain_text(
        "120.5\u00a0mm along, 62.5\u00a0mm across, on pad A, 12.5\u00a0mm from its edge"
    )
    for _ in range(3):  # what was typed, what the keys moved, and the drag as a whole
        page.get_by_role("button", name="Undo").click()
    expect(said).to_contain_text("95\u00a0mm along")


def drag(page: Page, thing: Locator, right_px: int) -> None:
    """From its sign."""
    box = thing.bounding_box()
    assert box is not None
    x, y = box["x"] + 10, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + right_px, y, steps=4)
    page.mouse.up()


def along_mm(said: Locator) -> float:
    found = ALONG.search(said.inner_text())
    assert found is not None
    return float(found[1])


def test_a_fault_stands_at_its_field_until_it_is_mended(page: Page) -> None:
    bring_in(page, joint(name="wide seam"))
    page.get_by_role("link", name="Change a copy").click()
    page.get_by_role("button", name=re.compile("^Pad B, ")).click()
    right = page.get_by_role("textbox", name=re.compile(r"^Lies at \(mm\), to x")).last
    right.fill("440")
    page.get_by_role("button", name="Keep", exact=True).click()
    told = page.get_by_role("alert").filter(has_text="Nothing was kept.")
    expect(told).to_contain_text("pads[1].box_mm: reaches x = 440, the zone ends at 400")
    told.get_by_role("button", name="pads[1].box_mm").click()
    first = page.get_by_role("textbox", name=re.compile(r"^Lies at \(mm\), from x")).last
    expect(first).to_be_focused()
    expect(right).to_have_attribute("aria-invalid", "true")

    right.fill("390")
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.get_by_role("heading", name="wide seam", level=1)).to_be_visible()
    expect(page.get_by_text("Not planned yet.")).to_be_visible()
    page.get_by_role("link", name="All heat zones").click()
    expect(page.get_by_role("link", name="Heat zone wide seam")).to_have_count(2)
