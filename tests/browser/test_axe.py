"""Every screen, light and dark, on small phones and usual ones: nothing is hard to read, hit or reach."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import chain
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, ViewportSize, expect

from bayleaf import demo_plan as plan
from bayleaf.demo_scenario import HALF
from browser import gallery, office_places, seen, shop
from browser import phone_hand as hand
from browser.begun_demo import ORDER, Begin
from browser.demo_server import DemoServer
from browser.gallery import Gallery
from browser.handset import CLOCK

WIDE: ViewportSize = {"width": 1280, "height": 800}
# What a user can meet, by the gallery's names: one that goes missing is a state that nobody looks at.
KINDS_OF_SCREENS = """
empty jobs card held text choice reading points lot photo photo_denied tally compute sign before_run
run_due deviation na f_later records strike hand_in self update wanted done_card shared_who offline full
refused revoked lost unsaved loading not_there f_morning f_held f_two f_put_off f_steps f_since f_against
clock_surface clock_primer clock_mixer holes_map holes_sheet holes_short holes_step holes_decision
map map_40 map_set map_whole heat_before heat_ramp heat_soak heat_workable heat_lift heat_cooling
heat_aborted heat_over heat_over_metal heat_over_unrecorded heat_second_phone compute_waits compute_dew
compute_holes p_live p_none p_denied p_in_use p_wanted sheet_more sheet_holds sheet_records door_pair
door_install_first door_waiting door_wrong_code door_expired_code door_no_answer door_insecure door_store_lost
door_store_failed office_heat office_heat_empty office_heat_offline office_heat_refused office_heat_plan
office_heat_unplanned office_heat_waiting office_heat_planning office_heat_cancelled office_heat_failed
office_heat_older office_heat_not_feasible office_heat_pin office_heat_change office_heat_new forecast_before
forecast_shown forecast_pad_lifting forecast_sensor_off forecast_draught forecast_stack_up
forecast_release_next forecast_not_here forecast_none
"""
OpenPage = Callable[[str], Page]


@pytest.fixture(scope="module")
def demo_shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[DemoServer]:
    """One demo for all of this file."""
    server = DemoServer(tmp_path_factory.mktemp("seen"))
    server.start()
    yield server
    server.kill()


@pytest.fixture
def opened(desk: Browser) -> Iterator[OpenPage]:
    """Pages that a script of the test may be added to; their clocks can be turned."""
    made: list[BrowserContext] = []
    faults: list[str] = []

    def make(url: str) -> Page:
        made.append(desk.new_context(bypass_csp=True, service_workers="block"))
        made[-1].add_init_script(CLOCK)
        return shop.phone_page(made[-1], url, faults)

    yield make
    for context in made:
        context.close()
    assert faults == []


@dataclass
class Look:
    """What was found on the pages that were looked at."""

    page: Page
    rules: dict[str, list[str]] = field(default_factory=dict)
    wide: dict[str, list[str]] = field(default_factory=dict)
    small: dict[str, list[str]] = field(default_factory=dict)

    def at(self, name: str, *, thumbs: bool = True, within: str = "") -> None:
        """The page as it stands; `within` names the part of it that was not looked at before."""
        if thumbs:
            self.small[name] = seen.too_small(self.page)
        self.wide[name] = seen.too_wide(self.page)
        self.rules[name] = seen.rules_broken(self.page, within)

    def nothing(self) -> None:
        """Each kind by itself, so that a failure names the page and what is on it."""
        for found in (self.rules, self.wide, self.small):
            assert {name: faults for name, faults in found.items() if faults} == {}


SHARE = 4  # the gallery's scenes in so many tests, each of which ends soon and names what it found


@pytest.fixture(scope="module")
def hung() -> Iterator[Gallery]:
    """The gallery, built once for all of this file."""
    with gallery.hung() as built:
        yield built


@pytest.mark.parametrize("share", range(SHARE))
def test_every_screen_of_the_gallery(hung: Gallery, opened: OpenPage, share: int) -> None:
    page = opened("about:blank")
    page.set_viewport_size(seen.USUAL)
    page.emulate_media(reduced_motion="reduce")
    look = Look(page)
    for scene in hung.scenes(page)[share::SHARE]:
        hung.turn_to(page, scene)
        look.at(scene, thumbs=not scene.startswith("office_"))
    look.nothing()


def test_the_gallery_shows_every_kind_of_screen(hung: Gallery, opened: OpenPage) -> None:
    shown = set(hung.scenes(opened("about:blank")))
    assert set(KINDS_OF_SCREENS.split()) - shown == set()


def test_the_phones_door(opened: OpenPage, tmp_path: Path) -> None:
    server = shop.served(tmp_path)
    server.start()
    page = opened(server.url)
    look = Look(page)
    hand.heading(page, "Pair this phone")
    look.at("pair")
    shop.type_code(page, "ABC", "")
    look.at("too short")
    shop.type_code(page, "ABCDEFGH", "bay 1")
    hand.heading(page, "This code is not known")
    look.at("not known")
    look.nothing()
    page.context.close()
    server.kill()


def test_the_demos_front_page(demo_shop: DemoServer, opened: OpenPage) -> None:
    page = opened(demo_shop.url)
    look = Look(page)
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    expect(page.get_by_text(plan.TECHNICIAN.name).first).to_be_visible()
    look.at("front")
    look.nothing()


def looked_at(places: Iterator[office_places.Place], new: str = "") -> Look:
    """The office's pages one after the other, each on a phone's screen and on a wide one.

    The first is looked at as a whole; `new` names the part in which the others differ from it.
    """
    first = next(places)
    look = Look(first.page)
    for place in chain([first], places):
        part = "" if place is first else new
        look.at(place.name, thumbs=False, within=part)
        place.page.set_viewport_size(WIDE)
        look.rules[f"{place.name}, wide"] = seen.rules_broken(place.page, part)
    return look


def test_the_offices_pages(demo_shop: DemoServer, desk: Browser) -> None:
    look = looked_at(office_places.places(desk, demo_shop))
    assert {"office_board", "office_board_empty", "office_filing", "office_signed_out"} <= set(look.rules)
    look.nothing()


def test_the_offices_pages_of_a_running_heat_run(begin: Begin, desk: Browser) -> None:
    server = begin(HALF, "3 10:17")
    looked_at(office_places.run_places(desk, server, ORDER), new="dialog[open]").nothing()


def test_the_looks_find_what_is_wrong(opened: OpenPage) -> None:
    page = opened("about:blank")
    page.set_content(
        """<html lang="en"><title>Wrong</title><main id="app"><h1>Wrong</h1>
        <p style="color: #999; background: #fff">too pale</p><input>
        <button style="width: 30px">x</button><p style="width: 400px">too wide</p></main></html>"""
    )
    look = Look(page)
    look.at("wrong")
    assert {found.split(" ")[1] for found in look.rules["wrong"]} == {"color-contrast", "label"}
    assert any("too wide" in found for found in look.wide["wrong"])
    assert any(found.startswith("x: 30 x") for found in look.small["wrong"])
