"""The office reads a logger's file into a heat run, and lets a logger write by itself."""

from __future__ import annotations

import json
import re
from typing import Any
from urllib.error import HTTPError
from urllib.request import Request, urlopen

import pytest
from playwright.sync_api import Browser, FilePayload, Locator, Page, expect

from browser import office_hand
from browser.demo_server import DemoServer
from browser.readings_places import SOON_MS

ROWS = [
    "10:00:00;20,4;20,5;21,0", "10:10:00;92,0;88,4;120,1", "10:20:00;150,2;130,0;170,3",
    *(f"10:2{minute}:00;152,1;13{minute},2;171,0" for minute in range(1, 5)),
    "warm;1;1;1", "10:25:00;OL;131,0;170,0", "10:44:00;40,0;38,0;41,0",
]  # fmt: skip
FILE: FilePayload = {
    "name": "van-upper.csv",
    "mimeType": "text/csv",
    "buffer": "\r\n".join(["Logger 7;;;", "Uhrzeit;Kanal 1;Kanal 2;metal (m)", *ROWS, ""]).encode(),
}


@pytest.fixture
def office(desk: Browser, demo: DemoServer) -> Page:
    """The practice job's page, its heat run switched on."""
    page = office_hand.office_page(desk, demo)
    office_hand.open_job(page)
    job = page.url.rsplit("/", 1)[-1]
    methods = page.request.get(f"{demo.url}/api/methods").json()["methods"]
    digest = next(one["digest"] for one in methods if one["id"] == "spine")
    on = {
        "method": "spine", "digest": digest, "step": "spn-09", "ask": "run", "act": "on", "zone": "upper",
        "purpose": "removal", "pads": ["U1", "U2"], "plan": "",
    }  # fmt: skip
    wrote = page.request.post(f"{demo.url}/api/jobs/{job}/entries", data={"kind": "heat", "body": on})
    assert wrote.ok, wrote.text()
    expect(run_of(page)).to_be_visible(timeout=SOON_MS)
    return page


def run_of(page: Page) -> Locator:
    return page.get_by_role("region", name="Heat runs").get_by_role("article").first


def hand_in(page: Page) -> Locator:
    """The sheet of the file, once it is looked at."""
    run_of(page).get_by_role("button", name="Add readings from a file").click()
    sheet = page.get_by_role("dialog")
    sheet.get_by_label("File of the logger, CSV").set_input_files(FILE)
    expect(sheet.get_by_role("region", name="What would be read")).to_be_visible(timeout=SOON_MS)
    return sheet


def test_a_file_is_put_right_looked_at_and_read_in_once(office: Page) -> None:
    sheet = hand_in(office)
    sheet.get_by_label("Name of the logger").fill("Logger 7")
    expect(sheet.get_by_label("Column 4: metal (m)")).to_have_value("sensor m")
    sheet.get_by_label("Column 2: Kanal 1").select_option("sensor a")
    sheet.get_by_label("Column 3: Kanal 2").select_option("sensor b")
    sheet.get_by_label("What the logger showed at switch-on").fill("noon")
    expect(sheet.get_by_text(re.compile("Say what the logger showed at switch-on, as in"))).to_be_visible(
        timeout=SOON_MS
    )
    sheet.get_by_label("What the logger showed at switch-on").fill("10:00")
    would = sheet.get_by_role("region", name="What would be read")
    expect(would).to_contain_text(
        "26 readings in 9 rows, from 0:00 to 44:00 after switch-on.", timeout=SOON_MS
    )
    unread = would.get_by_role("region", name="2 rows or cells that cannot be read")
    expect(unread.get_by_role("row", name="10 whole row warm no time")).to_be_visible(timeout=SOON_MS)
    expect(unread.get_by_role("row", name="11 sensor a OL no figure")).to_be_visible(timeout=SOON_MS)
    sheet.get_by_role("button", name="Record 26 readings").click()
    expect(sheet.get_by_text("26 readings recorded.")).to_be_visible(timeout=SOON_MS)
    sheet.get_by_role("button", name="Close").click()

    run = run_of(office)
    expect(run.get_by_role("img", name=re.compile("^Readings of this run"))).to_be_visible(timeout=SOON_MS)
    verdict = run.get_by_role("region", name="Against its limits, by the entries")
    expect(verdict).to_contain_text("So far: conforms, with deviations", timeout=SOON_MS)
    expect(
        verdict.get_by_role("row", name=re.compile("^Hottest bond 152.°C limit 185.°C within"))
    ).to_be_visible(timeout=SOON_MS)
    expect(run.get_by_role("listitem").filter(has_text="van-upper.csv")).to_contain_text(
        "26 readings, Logger 7", timeout=SOON_MS
    )
    office_hand.sees(office, "Time line", "Readings of a logger\u2019s file: van-upper.csv")

    again = hand_in(office)
    expect(again.get_by_label("Name of the logger")).to_have_value("Logger 7", timeout=SOON_MS)
    expect(again.get_by_text("Columns as they were said for this logger last time.")).to_be_visible(
        timeout=SOON_MS
    )
    again.get_by_label("What the logger showed at switch-on").fill("10:00")
    expect(again.get_by_text("26 readings are here already and are not taken again.")).to_be_visible(
        timeout=SOON_MS
    )
    again.get_by_role("button", name="Nothing new to record").click()
    expect(again.get_by_text("0 readings recorded, 26 were here already.")).to_be_visible(timeout=SOON_MS)


def test_a_logger_writes_by_a_key_that_is_shown_once_until_it_is_ended(
    office: Page, demo: DemoServer
) -> None:
    run = run_of(office)
    run.get_by_role("button", name="Let a logger write").click()
    sheet = office.get_by_role("dialog")
    sheet.get_by_label("Name of the logger").fill("Logger 9")
    sheet.get_by_role("button", name="Make the key").click()
    shown = sheet.get_by_role("status").filter(has_text="This key is shown once.")
    key = shown.locator(".o-hex").first.inner_text().strip()
    sheet.get_by_role("button", name="Close").click()
    rows = [{"run_s": 0, "readings": {"a": 20.4, "b": 20.5, "m": 21}}]
    assert posted(demo.url, key, rows) == (200, {"taken": 3, "known": 0, "not_taken": []})
    listed = run.get_by_role("list", name="Loggers that write by themselves").get_by_role("listitem")
    expect(listed).to_contain_text("3 readings", timeout=SOON_MS)
    expect(listed).not_to_contain_text(key)
    listed.get_by_role("button", name="End the key of Logger 9").click()
    listed.get_by_role("button", name="End the key", exact=True).click()
    expect(listed).to_contain_text("ended", timeout=SOON_MS)
    assert posted(demo.url, key, rows)[0] == 401


def posted(url: str, key: str, rows: list[dict[str, Any]]) -> tuple[int, Any]:
    """As a logger does: no cookies, no browser."""
    headers = {"Content-Type": "application/json", "Authorization": f"Bearer {key}"}
    asked = Request(f"{url}/api/logger/readings", json.dumps({"rows": rows}).encode(), headers)
    try:
        with urlopen(asked, timeout=10) as answer:
            return answer.status, json.load(answer)
    except HTTPError as refused:
        return refused.code, json.load(refused)
