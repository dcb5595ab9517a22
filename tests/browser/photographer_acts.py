"""The photographer's part of the removal: what was left to Pim, by the camera in the page or from a file."""

from __future__ import annotations

import io

from PIL import Image
from playwright.sync_api import Page, expect

from browser import mishaps
from browser import phone_hand as hand
from browser.handset import Handset

MADE = 5
PROVES = (
    ("Step 4 rem-04", "Sheet measuring sheet or display, all points readable"),
    ("Step 6 rem-06", "Bay bay from the gangway: curtain, extraction, extinguisher, clear floor"),
    ("Step 13 rem-13", "Covered rear left quarter covered, flange free"),
    ("Step 36 rem-36", "Header header flange under low light"),
)
NOTE = "The post was primed before the lamp was there: the wide picture of the flange shows it."


def take_what_is_left(phone: Handset, order: str) -> None:
    """Without a network: three that can wait, one taken although it is late, and one that cannot be."""
    page = phone.open()
    hand.tap(page, order)
    hand.heading(page, "Five photos wanted")
    phone.offline()
    until_it_is_good(page, "Measuring sheet or display, all points readable")
    hand.heading(page, "Four photos wanted")
    by_camera(page, "Bay from the gangway")
    hand.heading(page, "Three photos wanted")
    from_a_file(page, "Rear left quarter covered, flange free")
    hand.heading(page, "Two photos wanted")
    too_late_and_taken(page, "Header flange under low light")
    too_late_and_told(page, "Post flange under low light")
    own = hand.held(page)["entries"][-MADE:]
    assert [one["kind"] for one in own] == ["photo", "photo", "photo", "photo", "note"]


def slot(page: Page, words: str) -> None:
    """The slot is the key."""
    hand.settle(page)
    page.locator(".slot").filter(has_text=words).click()


def until_it_is_good(page: Page, words: str) -> None:
    """Dark, then blurred: the page says the figure and asks again, until the picture can be read."""
    slot(page, words)
    hand.heading(page, words)
    judged = page.locator(".doubt")
    mishaps.choose_file(page, picture(dark=True))
    expect(judged).to_contain_text("It looks dark: brightness")
    hand.lead(page, "Take again")
    expect(judged).to_have_count(0)
    mishaps.choose_file(page, picture(dark=False))
    expect(judged).to_contain_text("It looks blurred: sharpness")
    hand.lead(page, "Take again")
    shoot(page)


def shoot(page: Page) -> None:
    """By the camera in the page; what it took is kept as it is."""
    expect(page.locator("video")).to_be_visible()
    hand.lead(page, "Take it")
    keep(page)


def keep(page: Page) -> None:
    """As it is, whatever the page says of it."""
    expect(page.locator("img.preview")).to_be_visible()
    hand.tap(page, "Keep this photo", exact=True)
    expect(page.locator("img.preview")).to_have_count(0)


def by_camera(page: Page, words: str) -> None:
    slot(page, words)
    shoot(page)


def from_a_file(page: Page, words: str) -> None:
    """Beside the camera: what another camera took. This one is kept although it looks blurred."""
    slot(page, words)
    hand.heading(page, words)
    mishaps.choose_file(page, picture(dark=False))
    keep(page)


def too_late_and_taken(page: Page, words: str) -> None:
    """Its deadline has passed; what it shows is still there."""
    slot(page, words)
    hand.heading(page, "Too late for this photo?")
    hand.lead(page, "Take it all the same")
    shoot(page)
    expect(page.locator(".slot").filter(has_text=words)).to_have_count(0)


def too_late_and_told(page: Page, words: str) -> None:
    """What it showed is gone: the photographer says so, and who works on the card writes the deviation."""
    slot(page, words)
    hand.heading(page, "Too late for this photo?")
    hand.tap(page, "It cannot be taken any more")
    hand.heading(page, "It cannot be taken any more")
    hand.write(page, NOTE, "Record note")
    hand.heading(page, "Two photos wanted")


def picture(*, dark: bool) -> bytes:
    """Nearly black, or as even as a wall: nothing in it can be read."""
    out = io.BytesIO()
    Image.new("RGB", (640, 480), (14, 14, 16) if dark else (150, 152, 148)).save(out, "JPEG", quality=90)
    return out.getvalue()
