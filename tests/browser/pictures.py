"""Draws the README's pictures: three roles of a demo of its own, on a phone and a desk, light and dark.

Usage: python tests/browser/pictures.py OUT. Writes OUT/<role>-<width>x<height>-<light|dark>.png.
`--readme` instead of OUT writes the three of the README, one a role, to tests/pictures.
"""

from __future__ import annotations

import io
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import product
from pathlib import Path
from typing import Literal

from PIL import Image
from playwright.sync_api import Browser, Page, expect, sync_playwright

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from bayleaf import demo_plan as plan
from browser import office_hand as office
from browser import phone_hand as hand
from browser.demo_server import DemoServer
from harness.browser import ARGUMENTS, find_browser

Size = tuple[int, int]
Scheme = Literal["light", "dark"]
SIZES: dict[str, Size] = {"390x844": (390, 844), "1280x800": (1280, 800)}
SCHEMES: tuple[Scheme, ...] = ("light", "dark")
README = Path(__file__).resolve().parent.parent / "pictures"


Shot = tuple[str, str, Scheme, Path]


def of_all(out: Path) -> list[Shot]:
    """Every role at every size, in both schemes."""
    return [
        (role, size, scheme, out / f"{role}-{size}-{scheme}.png")
        for size, scheme, role in product(SIZES, SCHEMES, ROLES)
    ]


def of_readme() -> list[Shot]:
    """One a role, as large as its user holds it."""
    sizes = {"technician": "390x844", "photographer": "390x844", "office": "1280x800"}
    return [(role, size, "light", README / f"{role}.png") for role, size in sizes.items()]


def draw_all(shots: list[Shot]) -> None:
    """Makes a demo, begins its job and draws each picture."""
    path = find_browser(lambda _line: None)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        with running_demo(Path(folder)) as demo:
            page = phone(browser, demo, "technician", SIZES["390x844"], "light")
            begin_job(page)
            page.context.close()
            for role, size, scheme, to in shots:
                to.parent.mkdir(parents=True, exist_ok=True)
                shown = ROLES[role](browser, demo, SIZES[size], scheme)
                shown.wait_for_load_state("networkidle")  # small pictures are fetched when first looked at
                few_colours(shown.screenshot(), to)
                shown.context.close()
        browser.close()


def few_colours(picture: bytes, target: Path) -> None:
    """A screen needs few; the file is a third."""
    with Image.open(io.BytesIO(picture)) as drawn:
        drawn.convert("P", palette=Image.Palette.ADAPTIVE, colors=64).save(target, optimize=True)


@contextmanager
def running_demo(folder: Path) -> Iterator[DemoServer]:
    """A demo for as long as the pictures take."""
    demo = DemoServer(folder)
    demo.start()
    try:
        yield demo
    finally:
        demo.stop()


def phone(browser: Browser, demo: DemoServer, slug: str, size: Size, scheme: Scheme) -> Page:
    """A phone that has just let itself in, on its one job."""
    context = browser.new_context(viewport={"width": size[0], "height": size[1]}, color_scheme=scheme)
    page = context.new_page()
    page.goto(demo.phone(slug))
    hand.tap(page, plan.ORDER)
    hand.settle(page)
    return page


def begin_job(page: Page) -> None:
    """The first step, so that there is something to see."""
    hand.lead(page, "Write")
    hand.write(page, plan.VIN, "Record text")
    hand.lead(page, "Choose")
    hand.tap(page, "Same", exact=True)
    hand.lead(page, "Enter reading")
    hand.reading(page, "48210", "48")
    hand.tap(page, "All keys in the job box")
    hand.tap(page, "Take photo")
    hand.photo(page)
    hand.all_sent(page)


def technician(browser: Browser, demo: DemoServer, size: Size, scheme: Scheme) -> Page:
    """The one next act."""
    page = phone(browser, demo, "technician", size, scheme)
    expect(page.get_by_role("heading", name="Book the van in")).to_be_visible()
    return page


def photographer(browser: Browser, demo: DemoServer, size: Size, scheme: Scheme) -> Page:
    """What is wanted."""
    page = phone(browser, demo, "photographer", size, scheme)
    expect(page.get_by_role("heading", name="photo wanted")).to_be_visible()
    return page


def office_desk(browser: Browser, demo: DemoServer, size: Size, scheme: Scheme) -> Page:
    """The job as the office watches it."""
    page = office.office_page(browser, demo, scheme=scheme, size=size)
    office.open_job(page)
    office.sees(page, "Photos", "damage")
    return page


ROLES = {"technician": technician, "photographer": photographer, "office": office_desk}


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    draw_all(of_readme() if sys.argv[1] == "--readme" else of_all(Path(sys.argv[1])))
