"""What is answered in the removal, step by step, and what its people do of themselves beside it.

The values are those of the demo's script, so that the office and the report show the same job.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from playwright.sync_api import expect

from bayleaf import demo_plan as plan
from bayleaf.demo_scenario import REMOVAL
from browser import phone_hand as hand
from browser.card_hand import Act, CardHand
from browser.run_hand import turned_down_meanwhile

TOO_NEAR = "The bracket stands in the way: 235 mm, two layers of glass cloth laid between."
WRONG_SLOT = "damage on the frame half from 0.5 m"
LEFT_TO_PIM = frozenset({"rem-04.sheet", "rem-06.bay", "rem-13.covered", "rem-36.header", "rem-36.post"})


def answers() -> Mapping[str, Mapping[str, Any]]:
    """By step and ask; a reading with its reason is a list of both."""
    says: dict[str, dict[str, Any]] = {}
    for step in REMOVAL.steps:
        says.setdefault(step.id, {}).update(step.says)
    says["rem-01"]["vin_read"] = plan.UNTOUCHED.vin
    says["rem-11"]["distance"] = [235, TOO_NEAR]
    says["rem-12"]["pieces"] = 34
    says["rem-21"]["accounted"] = "The shank of P8 is still inside the post."
    shanks = [21, "The shank of P8 fell past the stop into the post."]
    says["rem-21"]["pieces"] = {"heads": 22, "mandrels": 22, "shanks": shanks}
    return says


def put_off_the_papers(on: CardHand) -> None:
    """Step 3 waits for the data sheets."""
    hand.tap(on.page, "More", exact=True)
    hand.tap(on.page, "Do it later")
    hand.write(on.page, "The data sheets come with the parts at nine.", "Put it off")
    hand.heading(on.page, "Measure the body before any work")


def photo_in_the_wrong_slot(on: CardHand) -> None:
    """The close picture goes into the wide slot, and is moved from there to its own."""
    wide = on.page.locator(".slot").filter(has_text="Rear left quarter, whole")
    wide.click()
    hand.photo(on.page)
    wide.filter(has_text="Another photo").click()
    hand.tap(on.page, "Move", exact=True)
    hand.heading(on.page, "Which slot does it belong to?")
    hand.tap(on.page, re.compile(WRONG_SLOT, re.IGNORECASE))
    hand.heading(on.page, "Photograph the vehicle as it came")


def count_anew(on: CardHand) -> None:
    """A screw was counted with the clips: struck from where it is seen, and typed again."""
    hand.tap(on.page, re.compile("^Change"))
    sheet = on.page.get_by_role("dialog")
    sheet.get_by_role("link").or_(sheet.get_by_role("button")).filter(has_text="Strike").click()
    hand.write(on.page, "A screw was counted with the clips.", "Strike it")
    hand.heading(on.page, "Take out every loose plastic aid")
    on.says["rem-12"]["pieces"] = 33  # type: ignore[index]


def pass_by_deviation(on: CardHand, act: Act) -> None:
    """Held, and the one who has to sign cannot on this phone: the deviation, and the second name under it."""
    why, signer = HELD[on.paper.step(act.number).id]
    hand.tap(on.page, re.compile("record a deviation"))
    hand.write(on.page, why, "Record deviation")
    on.lead("Countersign the deviation")
    hand.sign(on.page, signer.name, signer.pin)
    expect(on.page.get_by_role("heading", level=1, name="Countersign")).to_have_count(0)


HELD = {
    "rem-05": ("Ada agreed at the car; her desk is out of reach.", plan.OFFICE),
    "rem-21": (
        "The shank of P8 is in the post below the stop: looked for when the part is off.",
        plan.SECOND,
    ),
}


def find_the_shank(on: CardHand) -> None:
    """The camera finds it: marked where it was lost; what was counted and signed without it is made anew."""
    on.lead("Work it out")
    hand.tap(on.page, "To the lost pieces on the map")
    on.lead("Shank found")
    sheet = on.page.get_by_role("dialog")
    sheet.get_by_role("button", name="Later").click()
    expect(sheet).to_have_count(0)
    on.lead("Back to the card")
    hand.heading(on.page, "Find what is still inside")
    on.lead("Work it out")
    hand.tap(on.page, re.compile("^Count anew: pieces in the tray"))
    hand.heading(on.page, COUNTED)
    count_the_shanks_anew(on)
    sign_the_count_anew(on)
    on.lead("To the next act")
    hand.heading(on.page, "Find what is still inside")


def count_the_shanks_anew(on: CardHand) -> None:
    """Twenty-two of them now, and the sum is worked out again."""
    hand.tap(on.page, "Change: Pieces in the tray")
    hand.tap(on.page, re.compile("^Type again: Shanks"))
    hand.type_number(on.page, "22")
    on.lead("Record 22")
    hand.heading(on.page, COUNTED)
    on.lead("Work it out")
    on.lead("Record it anew")
    hand.heading(on.page, COUNTED)


def sign_the_count_anew(on: CardHand) -> None:
    """What Oskar signed was the count without it."""
    on.lead("Countersign")
    hand.sign(on.page, plan.SECOND.name, plan.SECOND.pin)
    hand.heading(on.page, COUNTED)


COUNTED = "Account for every piece"
FIRST = {
    "rem-37": find_the_shank,
    "rem-02": photo_in_the_wrong_slot,
    "rem-03": put_off_the_papers,
    "rem-28": turned_down_meanwhile("upper"),
    "rem-33": turned_down_meanwhile("post"),
}
LAST = {"rem-12": count_anew}


def lose_the_shank(on: CardHand) -> None:
    """The shank of P8 drops past the stop: back one position, and marked there."""
    hand.tap(on.page, re.compile("P8$"))
    expect(on.page.locator(".map-position")).to_contain_text("P8")
    hand.tap(on.page, "Piece lost inside")
    on.page.get_by_role("dialog").get_by_role("button", name="Shank lost inside").click()
    expect(on.page.get_by_role("dialog")).to_have_count(0)


AFTER_RIVET = {"P8: shank out": lose_the_shank}
