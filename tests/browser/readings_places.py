"""States of the office's pages about a run's readings: a file to pick, to put right, read in; a key shown."""

from __future__ import annotations

import re
from collections.abc import Callable

from playwright.sync_api import FilePayload, Locator, Page, Route, expect

from browser import office_hand
from browser.demo_server import DemoServer

SOON_MS = 30_000  # the office folds the job and looks at the file
FILE: FilePayload = {
    "name": "van-upper.csv",
    "mimeType": "text/csv",
    "buffer": (
        b"Logger 7;;;;\r\nUhrzeit;Kanal 1;b;c;metal (m)\r\n10:00:00;20,4;20,5;20,1;21,0\r\n"
        b"10:10:00;92,0;88,4;70,2;120,1\r\nwarm;1;1;1;1\r\n10:12:00;OL;91,0;75,5;126,0\r\n"
    ),
}


def the_run(order: str, page: Page, server: DemoServer) -> Locator:
    """The hot run of this job."""
    page.goto(f"{server.url}/office")
    office_hand.open_job(page, order)
    run = page.get_by_role("region", name="Heat runs").get_by_role("article").first
    expect(run.get_by_role("region", name="Against its limits, by the entries")).to_be_visible(
        timeout=SOON_MS
    )
    return run


def to_pick(order: str, page: Page, server: DemoServer) -> Locator:
    the_run(order, page, server).get_by_role("button", name="Add readings from a file").click()
    sheet = page.get_by_role("dialog")
    expect(sheet.get_by_label("File of the logger, CSV")).to_be_visible(timeout=SOON_MS)
    return sheet


def to_put_right(order: str, page: Page, server: DemoServer) -> Locator:
    sheet = to_pick(order, page, server)
    sheet.get_by_label("File of the logger, CSV").set_input_files(FILE)
    sheet.get_by_label("What the logger showed at switch-on").fill("10:00")
    expect(sheet.get_by_text(re.compile("in 3 rows, from 0:00 to 12:00"))).to_be_visible(timeout=SOON_MS)
    return sheet


def fault(order: str, page: Page, server: DemoServer) -> None:
    sheet = to_put_right(order, page, server)
    sheet.get_by_label("What the logger showed at switch-on").fill("noon")
    expect(sheet.get_by_text(re.compile("Say what the logger showed"))).to_be_visible(timeout=SOON_MS)


def silent(order: str, page: Page, server: DemoServer) -> None:
    """The server is gone when the file is read in: what was told stays."""
    sheet = to_put_right(order, page, server)
    sheet.get_by_label("Name of the logger").fill("Logger 7")
    expect(sheet.locator("[aria-busy=false]")).to_be_visible(timeout=SOON_MS)
    page.route("**/take", lambda route: route.abort())
    sheet.get_by_role("button", name=re.compile("^Record ")).click()
    expect(sheet.get_by_text(re.compile("did not answer"))).to_be_visible(timeout=SOON_MS)


def under_way(order: str, page: Page, server: DemoServer) -> None:
    """A long file: the first part is in, the second takes its time."""
    sheet = to_put_right(order, page, server)
    sheet.get_by_label("Name of the logger").fill("Logger 7")
    expect(sheet.locator("[aria-busy=false]")).to_be_visible(timeout=SOON_MS)

    def first_part(route: Route) -> None:
        if '"from_row":0' in (route.request.post_data or ""):
            route.fulfill(json={"rows": 7200, "next_row": 3000, "readings": 15000, "known": 0})

    page.route("**/take", first_part)
    sheet.get_by_role("button", name=re.compile("^Record ")).click()
    expect(sheet.get_by_role("progressbar", name="Rows read in")).to_be_visible(timeout=SOON_MS)


def key_shown(order: str, page: Page, server: DemoServer) -> None:
    """Made by nobody: the picture needs no key of the store."""
    run = the_run(order, page, server)
    made = {
        "id": "k", "run": "", "logger": "Logger 9", "by": "", "made_ms": 0, "ended_ms": 0, "heard_ms": 0,
        "readings": 0, "key": "an-invented-key-that-opens-nothing-0000000",
    }  # fmt: skip
    page.route(
        "**/logger_keys",
        lambda route: route.fulfill(json=made) if route.request.method == "POST" else route.continue_(),
    )
    run.get_by_role("button", name="Let a logger write").click()
    sheet = page.get_by_role("dialog")
    sheet.get_by_label("Name of the logger").fill("Logger 9")
    sheet.get_by_role("button", name="Make the key").click()
    expect(sheet.get_by_text("This key is shown once.")).to_be_visible(timeout=SOON_MS)


LEADS: dict[str, Callable[[str, Page, DemoServer], object]] = {
    "readings_pick": to_pick,
    "readings_file": to_put_right,
    "readings_fault": fault,
    "readings_silent": silent,
    "readings_under_way": under_way,
    "readings_key": key_shown,
}
