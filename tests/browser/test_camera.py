"""The camera in the page: taken again, none there, a killed page, and what is kept of a file."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator

import pytest
from PIL import Image
from playwright.sync_api import Browser, Page, expect

from browser import mishaps
from browser import phone_hand as hand
from browser.demo_server import DemoServer
from browser.handset import FAKE_CAMERA, Chromium, OpenHandset
from browser.shop import phone_page
from harness.browser import ARGUMENTS

ORIENTATION, TURNED_RIGHT = 0x0112, 6
GPS = 0x8825
KEPT_PHOTO = """async () => {
  const open = await new Promise((done) => {
    const names = indexedDB.databases();
    names.then((all) => {
      const asked = indexedDB.open(all.find((one) => one.name.startsWith('bayleaf')).name);
      asked.onsuccess = () => done(asked.result);
    });
  });
  const all = (table) => new Promise((done) => {
    const asked = open.transaction(table).objectStore(table).getAll();
    asked.onsuccess = () => done(asked.result);
  });
  const [row] = await all('photos');
  const chunks = (await all('photo_chunks')).filter((one) => one.sha256 === row.sha256);
  const bytes = chunks.sort((a, b) => a.index - b.index).flatMap((one) => [...new Uint8Array(one.bytes)]);
  open.close();
  return { width: row.width, height: row.height, bytes };
}"""


@pytest.fixture(scope="module")
def camera(chromium: Chromium) -> Iterator[Browser]:
    """A browser whose camera shows a made picture and asks nobody."""
    browser = chromium.playwright.chromium.launch(
        executable_path=chromium.path, args=[*ARGUMENTS, *FAKE_CAMERA]
    )
    yield browser
    browser.close()


def photographer(browser: Browser, demo: DemoServer, faults: list[str]) -> Page:
    page = phone_page(
        browser.new_context(viewport={"width": 390, "height": 844}), demo.phone("photographer"), faults
    )
    hand.tap(page, "Wanted photos")
    hand.lead(page, "Take the first")
    return page


def test_a_photo_is_taken_judged_taken_again_and_kept(camera: Browser, demo: DemoServer) -> None:
    faults: list[str] = []
    page = photographer(camera, demo, faults)
    video = page.locator("video")
    expect(video).to_be_visible()

    hand.lead(page, "Take it")
    expect(
        page.get_by_role("status").filter(has_text=re.compile("sharpness|brightness", re.IGNORECASE))
    ).to_be_visible()
    hand.tap(page, "Take again", exact=True)
    expect(video).to_be_visible()
    hand.lead(page, "Take it")
    hand.tap(page, "Keep this photo", exact=True)

    expect(page.get_by_role("heading", name="1 taken")).to_be_visible()
    hand.glance(page, "All at the office")
    assert [entry["kind"] for entry in hand.held(page)["entries"]].count("photo") == 1
    assert faults == []


def test_a_device_without_a_camera_says_so_and_takes_a_file_upright_without_its_place(
    desk: Browser, demo: DemoServer
) -> None:
    faults: list[str] = []
    page = photographer(desk, demo, faults)
    expect(page.get_by_role("status").filter(has_text="No camera here")).to_be_visible()

    mishaps.choose_file(page, lying_with_place(400, 300))
    hand.tap(page, "Keep this photo", exact=True)
    expect(page.get_by_role("heading", name="1 taken")).to_be_visible()

    kept = page.evaluate(KEPT_PHOTO)
    picture = Image.open(io.BytesIO(bytes(kept["bytes"])))
    assert (kept["width"], kept["height"]) == picture.size == (300, 400)
    assert dict(picture.getexif()) == {}
    top, bottom = picture.convert("L").getpixel((150, 20)), picture.convert("L").getpixel((150, 380))
    assert isinstance(top, int)
    assert isinstance(bottom, int)
    assert top > 200
    assert bottom < 50
    assert faults == []


def test_a_page_that_was_killed_at_the_camera_comes_back_to_its_slot(
    demo: DemoServer, handset: OpenHandset
) -> None:
    phone = handset(demo.phone("photographer"))
    page = phone.open()
    hand.tap(page, "Wanted photos")
    hand.lead(page, "Take the first")
    expect(page.get_by_role("status").filter(has_text="No camera here")).to_be_visible()
    slot = page.url
    title = page.locator("h1").inner_text()

    phone.kill()
    again = phone.open()

    expect(again.locator("h1")).to_have_text(title)
    assert again.url == slot


def lying_with_place(width: int, height: int) -> bytes:
    """As a phone writes it: the pixels lie, a tag says how to turn them, another where it was taken.

    Its left half is white and its right half black; turned a quarter to the right, white is on top.
    """
    picture = Image.new("RGB", (width, height), "black")
    picture.paste("white", (0, 0, width // 2, height))
    tags = Image.Exif()
    tags[ORIENTATION] = TURNED_RIGHT
    tags.get_ifd(GPS).update({1: "N", 2: (12.0, 34.0, 56.0)})
    out = io.BytesIO()
    picture.save(out, "JPEG", exif=tags, quality=95)
    assert b"Exif" in out.getvalue()
    return out.getvalue()
