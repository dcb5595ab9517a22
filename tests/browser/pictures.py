"""Draws every screen and state of the phone and of the office, all of them invented.

Usage: python tests/browser/pictures.py [OUT] [--only BEGINNING ...]
Writes OUT/<screen>-<width>x<height>-<light|dark>.png; unsaid, OUT is .bayleaf-pictures, which git ignores.
`--readme` instead draws the few of the README, to tests/pictures.
"""

from __future__ import annotations

import argparse
import io
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import chain
from pathlib import Path
from typing import Literal

from PIL import Image
from playwright.sync_api import Browser, Page, ViewportSize, expect, sync_playwright

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from bayleaf import demo_plan as plan
from browser import gallery, office_hand, office_places
from browser.demo_server import DemoServer
from harness.browser import ARGUMENTS, find_browser

SIZES: dict[str, ViewportSize] = {
    "390x844": {"width": 390, "height": 844},
    "360x640": {"width": 360, "height": 640},
    "1280x800": {"width": 1280, "height": 800},
}
SCHEMES: tuple[Literal["light", "dark"], ...] = ("light", "dark")
OF_PHONE = {"technician": "f_plain", "map": "map", "heat": "forecast_shown", "photographer": "p_next"}
OF_OFFICE = {"plan": "office_heat_plan"}
DRAWN_WITHIN_MS = 120_000  # a busy machine takes its time
ROOT = Path(__file__).resolve().parents[2]
README = ROOT / "tests" / "pictures"


def draw_all(browser: Browser, out: Path, only: tuple[str, ...]) -> None:
    """The gallery's scenes, then the pages of a demo's office."""
    page = quiet_page(browser)
    with gallery.hung() as hung:
        for scene in hung.scenes(page):
            if scene.startswith(only):
                hung.show(page, scene)
                draw(page, out, scene)
    page.context.close()
    if not "office".startswith(only) and not any(one.startswith("office") for one in only):
        return
    with running_demo() as demo:
        pages = office_places.places(browser, demo)
        for place in chain(pages, office_places.run_places(browser, demo, plan.HALF_DONE.order)):
            if place.name.startswith(only):
                draw(place.page, out, place.name)


def draw(page: Page, out: Path, name: str) -> None:
    """One screen as it stands, at every size, light and dark."""
    for size, viewport in SIZES.items():
        page.set_viewport_size(viewport)
        for scheme in SCHEMES:
            page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
            page.evaluate("() => new Promise((shown) => requestAnimationFrame(() => setTimeout(shown, 50)))")
            page.screenshot(path=out / f"{name}-{size}-{scheme}.png", timeout=DRAWN_WITHIN_MS)
    page.set_viewport_size(SIZES["1280x800"])
    page.emulate_media(color_scheme="light")
    print(name, flush=True)


def draw_readme(browser: Browser) -> None:
    """A handful, as large as its user holds it."""
    page = quiet_page(browser)
    with gallery.hung() as hung:
        for size, scenes in (("390x844", OF_PHONE), ("1280x800", OF_OFFICE)):
            page.set_viewport_size(SIZES[size])
            for name, scene in scenes.items():
                hung.show(page, scene)
                few_colours(page.screenshot(timeout=DRAWN_WITHIN_MS), README / f"{name}.png")
    with running_demo() as demo:
        desk = office_hand.office_page(browser, demo)
        expect(desk.get_by_role("link", name=f"Job {plan.ORDER}").first).to_be_visible()
        desk.wait_for_load_state("networkidle")
        few_colours(desk.screenshot(), README / "board.png")
        office_hand.open_job(desk, plan.HALF_DONE.order)
        desk.wait_for_load_state("networkidle")  # small pictures are fetched when first looked at
        few_colours(desk.screenshot(), README / "office.png")


def quiet_page(browser: Browser) -> Page:
    """A page without motion."""
    return browser.new_context(viewport=SIZES["390x844"], reduced_motion="reduce").new_page()


def few_colours(picture: bytes, target: Path) -> None:
    """A screen needs few; the file is a half."""
    with Image.open(io.BytesIO(picture)) as drawn:
        drawn.convert("P", palette=Image.Palette.ADAPTIVE, colors=128).save(target, optimize=True)


@contextmanager
def running_demo() -> Iterator[DemoServer]:
    """The demo with all its jobs, for as long as the pictures take."""
    with tempfile.TemporaryDirectory() as folder:
        demo = DemoServer(Path(folder), words=("demo",))
        demo.start()
        try:
            yield demo
        finally:
            demo.stop()


def main() -> None:
    """What the command line asks for."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("out", nargs="?", type=Path, default=ROOT / ".bayleaf-pictures")
    asked.add_argument("--only", nargs="+", default=[""], help="screens whose names begin so")
    asked.add_argument("--readme", action="store_true")
    words = asked.parse_args()
    path = find_browser(lambda _line: None)
    expect.set_options(timeout=DRAWN_WITHIN_MS)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        if words.readme:
            draw_readme(browser)
        else:
            words.out.mkdir(parents=True, exist_ok=True)
            draw_all(browser, words.out, tuple(words.only))
        browser.close()


if __name__ == "__main__":
    main()
