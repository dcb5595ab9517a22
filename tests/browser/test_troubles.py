"""What goes wrong in a shop: a server gone or put back, a phone full or emptied; nothing kept is lost."""

from __future__ import annotations

import json
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Protocol

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from bayleaf import demo_plan as plan
from browser import mishaps
from browser import office_hand as office
from browser import phone_hand as hand
from browser.demo_server import COMMAND, DemoServer
from browser.handset import Chromium
from browser.shop import phone_page
from harness.browser import ARGUMENTS
from harness.pictures import jpeg


class OpenPhone(Protocol):
    """A phone of the demo by its name, with this much room."""

    def __call__(self, slug: str, *, room: int = mishaps.ROOM) -> Page: ...


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[DemoServer]:
    """One demo for all of this file; whoever stops it starts it again."""
    server = DemoServer(tmp_path_factory.mktemp("troubles"))
    server.start()
    yield server
    server.kill()


@pytest.fixture
def phone(desk: Browser, shop: DemoServer) -> Iterator[OpenPhone]:
    """Phones of this test alone: each holds the job, and the app for a start without a network."""
    made: list[BrowserContext] = []
    faults: list[str] = []

    def make(slug: str, *, room: int = mishaps.ROOM) -> Page:
        made.append(desk.new_context(viewport={"width": 390, "height": 844}, accept_downloads=True))
        page = phone_page(made[-1], "about:blank", faults)
        mishaps.give_room(page, shop.phone(slug), room)
        page.goto(shop.phone(slug))
        expect(page.get_by_role("link", name=f"Go on with {plan.ORDER}")).to_be_visible()
        page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        return page

    yield make
    for context in made:
        context.close()
    assert faults == []


def test_the_app_starts_from_its_addresses_with_the_server_gone(
    desk: Browser, shop: DemoServer, phone: OpenPhone
) -> None:
    page = phone("technician")
    mishaps.open_card(page)
    card = page.url
    ada = office.office_page(desk, shop)
    ada.evaluate("navigator.serviceWorker.ready.then(() => true)")
    with mishaps.gone(shop):
        page.goto(shop.phone("technician"))
        hand.heading(page, "One open job")
        page.goto(card)
        hand.heading(page, mishaps.FIRST_STEP)
        mishaps.note(page, "Written with the server gone.")
        hand.glance(page, "1 on this phone")
        ada.goto(f"{shop.url}/office")
        hand.heading(ada, "The server does not answer")

    expect(ada.get_by_role("navigation", name="Office")).to_be_visible(timeout=30_000)
    hand.glance(page, "All at the office")
    ada.context.close()


def test_back_and_reload_keep_the_place_with_the_server_gone(shop: DemoServer, phone: OpenPhone) -> None:
    page = phone("technician")
    with mishaps.gone(shop):
        mishaps.open_card(page)
        hand.tap(page, "VIN read from the body")
        hand.heading(page, "VIN read from the body")
        page.reload()
        hand.heading(page, "VIN read from the body")
        page.go_back()
        hand.heading(page, mishaps.FIRST_STEP)
        page.reload()
        hand.heading(page, mishaps.FIRST_STEP)
        page.go_back()
        hand.heading(page, "One open job")
        page.go_forward()
        hand.heading(page, mishaps.FIRST_STEP)


def test_a_file_of_a_phone_that_is_cut_off_is_imported_by_the_office_on_its_screen(
    desk: Browser, shop: DemoServer, phone: OpenPhone, tmp_path: Path
) -> None:
    file = mishaps.hand_in(phone("technician"), "Handed in on the screen.", tmp_path)
    ada = office.office_page(desk, shop)
    ada.get_by_role("link", name="Hand-in", exact=True).click()

    assert mishaps.import_on_screen(ada, file) == [
        "2 taken",
        "0 set aside",
        "0 refused, kept raw",
        "0 here already",
        "1 photos",
    ]

    assert mishaps.import_on_screen(ada, file)[3] == "2 here already"
    ada.get_by_role("link", name="See job 1").click()
    office.sees(ada, "Time line", "Handed in on the screen.")
    ada.context.close()


def test_a_file_of_a_phone_that_is_cut_off_is_imported_by_the_command(
    shop: DemoServer, phone: OpenPhone, tmp_path: Path
) -> None:
    page = phone("technician")
    file = mishaps.hand_in(page, "Handed in by the command.", tmp_path)
    words = [str(COMMAND), "handin", "import", str(file), "--data", str(shop.data), "--json"]

    told = json.loads(subprocess.run(words, capture_output=True, check=True).stdout)

    assert (told["taken"], told["set_aside"], told["refused"], told["photos"]) == (2, 0, 0, 1)
    assert set(hand.hashes(page)) <= mishaps.office_hashes(shop)


def test_a_full_phone_says_so_loses_nothing_and_goes_on_when_there_is_room(
    shop: DemoServer, phone: OpenPhone
) -> None:
    page = phone("technician", room=mishaps.FULL_AT)
    mishaps.open_card(page)
    mishaps.note(page, "Recorded before the phone was full.")
    before = hand.hashes(page)
    hand.tap(page, "Take photo")
    mishaps.choose_file(page, jpeg(size=(2400, 1800)))

    hand.lead(page, "Keep this photo")

    hand.heading(page, "Not saved")
    expect(page.get_by_role("alert")).to_contain_text("What was recorded before is safe")
    assert hand.hashes(page) == before
    hand.lead(page, "Record it again")
    expect(page.get_by_role("status")).to_contain_text("Tried 2 times")
    mishaps.give_room(page, shop.phone("technician"), mishaps.ROOM)
    hand.lead(page, "Record it again")
    hand.heading(page, mishaps.FIRST_STEP)
    mishaps.note(page, "And one more.")
    mishaps.sent(page)
    assert len(hand.hashes(page)) == len(before) + 2
    assert set(hand.hashes(page)) <= mishaps.office_hashes(shop)


def test_a_camera_that_is_not_allowed_is_told_and_a_file_does_instead(
    chromium: Chromium, demo: DemoServer
) -> None:
    camera = "--use-fake-device-for-media-stream"
    browser = chromium.playwright.chromium.launch(executable_path=chromium.path, args=[*ARGUMENTS, camera])
    faults: list[str] = []
    page = phone_page(
        browser.new_context(viewport={"width": 390, "height": 844}), demo.phone("photographer"), faults
    )
    mishaps.refuse_camera(page, demo)
    hand.tap(page, "Wanted photos")

    hand.lead(page, "Take the first")

    expect(page.get_by_role("status").filter(has_text="The camera is not allowed")).to_be_visible()
    mishaps.choose_file(page, jpeg())
    hand.lead(page, "Keep this photo")
    hand.heading(page, "No photo is wanted now")
    hand.glance(page, "All at the office")
    browser.close()
    assert faults == []


def test_a_phone_whose_store_was_emptied_says_that_its_records_are_gone(
    shop: DemoServer, phone: OpenPhone
) -> None:
    page = phone("technician")
    page.goto(f"{shop.phone('technician')}api/health")
    page.evaluate(
        """() => new Promise((resolve, reject) => {
          const asked = indexedDB.deleteDatabase('bayleaf')
          asked.onsuccess = resolve
          asked.onerror = reject
        })"""
    )

    page.goto(shop.phone("technician"))

    hand.heading(page, "This phone was paired, and its records are gone")
    page.reload()
    hand.heading(page, "This phone was paired, and its records are gone")
    page.get_by_role("button", name="Demo: let it in without a code").click()
    expect(page.get_by_role("link", name=f"Go on with {plan.ORDER}")).to_be_visible()
    mishaps.open_card(page)
    mishaps.note(page, "Recorded after the loss.")
    mishaps.sent(page)


def test_a_browser_of_an_older_demo_is_told_and_let_in_again_by_one_tap(
    shop: DemoServer, phone: OpenPhone
) -> None:
    page = phone("technician")
    shop.kill()
    shop.start("--fresh")
    page.reload()
    expect(page.get_by_role("status").filter(has_text="store was made anew")).to_be_visible()

    hand.tap(page, "Begin anew on this phone")

    expect(page.get_by_role("link", name=f"Go on with {plan.ORDER}")).to_be_visible()
    mishaps.open_card(page)
    mishaps.note(page, "Recorded in the new demo.")
    mishaps.sent(page)
    assert set(hand.hashes(page)) <= mishaps.office_hashes(shop)


def test_a_server_put_back_from_an_older_copy_is_made_whole_by_its_phones(
    shop: DemoServer, phone: OpenPhone, tmp_path: Path
) -> None:
    mara, oskar = phone("technician"), phone("second")
    with mishaps.gone(shop):
        shutil.copytree(shop.data, tmp_path / "copy")
    before = mishaps.office_hashes(shop)
    for page, words in (
        (mara, "Mara wrote this after the copy."),
        (oskar, "Oskar wrote this after the copy."),
    ):
        mishaps.open_card(page)
        mishaps.note(page, words)
        mishaps.sent(page)
    written = mishaps.office_hashes(shop) - before
    assert len(written) == 2
    with mishaps.gone(shop):
        shutil.rmtree(shop.data)
        shutil.copytree(tmp_path / "copy", shop.data)
        assert mishaps.office_hashes(shop) == before

    for page in (mara, oskar):
        hand.sync_now(page)

    mishaps.until(mara, lambda: written <= mishaps.office_hashes(shop))
    for page in (mara, oskar):
        hand.sync_now(page)
        assert set(hand.hashes(page)) == mishaps.office_hashes(shop)
        hand.glance(page, "All at the office")


def test_an_update_waits_until_it_is_let_in_between_two_steps(
    desk: Browser, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    package = mishaps.install_apart(tmp_path)
    monkeypatch.setenv("PYTHONPATH", str(package.parent))
    server = DemoServer(tmp_path)
    server.start()
    faults: list[str] = []
    page = phone_page(
        desk.new_context(viewport={"width": 390, "height": 844}), server.phone("technician"), faults
    )
    mishaps.open_card(page)
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    with (package / "front_end" / "sw.js").open("a", encoding="utf-8") as worker:
        worker.write("\n// a newer one\n")
    page.reload()
    hand.heading(page, mishaps.FIRST_STEP)
    page.wait_for_function(f"({mishaps.WORKERS})().then((them) => them.includes('waiting'))")

    page.goto(server.phone("technician"))

    expect(page.get_by_text("A new version of this app is ready")).to_be_visible()
    with page.expect_event("load"):
        hand.tap(page, "Let it in")
    expect(page.get_by_role("link", name=f"Go on with {plan.ORDER}")).to_be_visible()
    expect(page.get_by_text("A new version of this app is ready")).to_have_count(0)
    assert page.evaluate(mishaps.WORKERS) == ["active"]
    assert faults == []
    page.context.close()
    server.kill()
