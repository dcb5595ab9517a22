"""What a test of troubles does to a phone and a server, and how it looks at what they kept."""

from __future__ import annotations

import shutil
import sqlite3
import time
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from playwright.sync_api import FilePayload, Page, expect

from bayleaf import demo_plan as plan
from browser import phone_hand as hand
from browser.demo_server import DemoServer
from browser.shop import METHODS

WITHIN_S = 30.0
WORKERS = """async () => {
  const registration = await navigator.serviceWorker.getRegistration()
  return ['installing', 'waiting', 'active'].filter((at) => registration[at] !== null)
}"""
FIRST_STEP = "Book the van in"
ROOM = 1_000_000_000
FULL_AT = 2_000_000  # bytes: the app and a card find room in them, a great picture does not


class gone:  # noqa: N801  (reads as `with gone(shop)`)
    """The server stopped for a while."""

    def __init__(self, shop: DemoServer) -> None:
        self.shop = shop

    def __enter__(self) -> None:
        self.shop.kill()

    def __exit__(self, *_: object) -> None:
        self.shop.start()


def open_card(page: Page) -> None:
    hand.tap(page, f"Go on with {plan.ORDER}")
    hand.heading(page, FIRST_STEP)


def note(page: Page, words: str) -> None:
    hand.tap(page, "Note", exact=True)
    hand.write(page, words, "Record note")
    hand.heading(page, FIRST_STEP)


def hand_in(page: Page, words: str, folder: Path) -> Path:
    """A note and a photo that only this phone has, saved as a file by its own key."""
    open_card(page)
    hand.pull_network(page)
    note(page, words)
    hand.tap(page, "More")
    hand.tap(page, "Photo without a slot")
    hand.photo(page)
    hand.glance(page, "3 on this phone")
    page.locator(".glance button").last.click()
    hand.tap(page, "Hand in as a file")
    expect(page.get_by_text("2 records and 1 photo are only on this phone.")).to_be_visible()
    with page.expect_download() as saving:
        hand.lead(page, "Save the file")
    expect(page.get_by_text("Check that it is in your downloads")).to_be_visible()
    file = folder / saving.value.suggested_filename
    saving.value.save_as(file)
    assert file.name.endswith(".bayleaf-handin")
    return file


def import_on_screen(ada: Page, file: Path) -> list[str]:
    """The counts that the office's screen shows."""
    ada.get_by_label("Hand-in file").set_input_files(file)
    with ada.expect_response("**/api/handin"):
        ada.get_by_role("button", name="Import the file").click()
    expect(ada.get_by_text("The file is read.")).to_be_visible()
    return [line.replace("\n", " ") for line in ada.locator(".o-counts li").all_inner_texts()]


def office_hashes(shop: DemoServer) -> set[str]:
    """Of everything that the server has on disk, in the one job."""
    with closing(sqlite3.connect(shop.data / "bayleaf.sqlite3", timeout=10)) as store:
        return {str(row[0]) for row in store.execute("SELECT hash FROM entry")}


def sent(page: Page) -> None:
    """Until nothing waits on this phone, by what is on its disk and not by what it says."""
    until(page, lambda: hand.held(page)["unsent"] == 0)


def until(page: Page, holds: Callable[[], bool]) -> None:
    """Look again and again, while the page works on."""
    end = time.monotonic() + WITHIN_S
    while not holds():
        assert time.monotonic() < end, f"not within {WITHIN_S:.0f} s"
        page.wait_for_timeout(50)


def give_room(page: Page, address: str, bytes_: int) -> None:
    """How much the browser lets an address keep; what is asked last counts."""
    quota = {"origin": address.rstrip("/"), "quotaSize": bytes_}
    page.context.new_cdp_session(page).send("Storage.overrideQuotaForOrigin", quota)


def choose_file(page: Page, picture: bytes) -> None:
    file: FilePayload = {"name": "left.jpg", "mimeType": "image/jpeg", "buffer": picture}
    page.locator("input[type=file]").set_input_files(file)


def install_apart(folder: Path) -> Path:
    """The package in a place of its own, where a newer front end can be put."""
    package = folder / "server" / "bayleaf"
    shutil.copytree(Path(plan.__file__).parent, package)
    shutil.copytree(METHODS.parent, folder / "seed_data")
    return package


def refuse_camera(page: Page, shop: DemoServer) -> None:
    """As somebody who tapped 'Block' once."""
    refusal = {
        "permission": {"name": "camera"},
        "setting": "denied",
        "origin": shop.phone("photographer").rstrip("/"),
    }
    page.context.new_cdp_session(page).send("Browser.setPermission", refusal)
