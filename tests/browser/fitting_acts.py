"""What is answered in the fitting, step by step, and what goes wrong in it.

The values are those of the demo's script, but for what this walk is about: an oval hole, a grip on the
border, an expired adhesive, a mixer that sets, an open time that runs out, and a cold night.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from typing import Any

from playwright.sync_api import Locator, expect

from bayleaf import demo_plan as plan
from bayleaf.demo_scenario import WHOLE_JOB
from bayleaf.demo_scenario.cast import MARA
from bayleaf.demo_scenario.deeds import Deviation, Mark, Step
from bayleaf.demo_scenario.removal_heat import ACROSS, ALONG, HOLES
from browser import phone_hand as hand
from browser.card_hand import Act, CardHand
from browser.heat_hand import MINUTE_MS

OVAL = "P6"
AT_P6 = 12  # seven holes of the header and five of the post come before it
OVAL_ALONG = (*ALONG[:AT_P6], 5.06, *ALONG[AT_P6 + 1 :])
OVAL_ACROSS = (*ACROSS[:AT_P6], 4.92, *ACROSS[AT_P6 + 1 :])
OVAL_HOLES = Step(
    "rem-39",
    "4 09:10",
    MARA,
    {**HOLES, "along": OVAL_ALONG, "across": OVAL_ACROSS},
    minutes=45,
    before=(Mark(OVAL, "damaged_hole"),),
    then=(
        Deviation(
            "P6 is oval. The maker's rule, asked by telephone: used with a ring under the head.",
            about=("rem-39.decision",),
            passes_hold=True,
        ),
    ),
)
THICK_FLANGE = Step("rem-38", "4 07:30", MARA, {"flange": 3.90}, minutes=90)
OTHERWISE = {"rem-38": THICK_FLANGE, "rem-39": OVAL_HOLES}

# Laminate 3.40, bondline 1.20, flange 3.90: 8.50 mm of grip, where 12 mm ends and 14 mm begins. The foot lies
# on 3.0 mm of its own: 10.30 mm, and so 14 mm.
ON_THE_BORDER = {"laminate": (3.40, 3.40, 3.40), "room": (1.20,) * 6}
BORDER_WORDS = "The supplier takes 8.5 mm with 12 mm, asked by telephone; the trial rivet sat tight."
BORDER_SAID = "Header and post: on the border of 12 mm and 14 mm. Which, and why?"
CHOSEN = {"chosen_header": 120, "chosen_post": 120}
TOO_LATE = "F5 and F6 were set after the open time; both stand in sealant, not in adhesive."
COLD = "The heating went off at six in the evening."
LOTS = {
    "fit-03": {"adhesive": "EP-2231", "primer": "PR-0907", "cleaner": "CL-5540", "rivets": "BR-48-1177"},
    "fit-18": {"adhesive": "EP-1902"},
    "fit-19": {"foot_sealant": "FS-318"},
    "fit-31": {"edge_sealant": "ES-2040"},
    "fit-33": {"cavity_protection": "CP-77"},
}
EXPIRED = "EP-1902"
PEOPLE_AT_THE_CAR = {"office": plan.OFFICE, "paint": plan.PAINTER}


def answers() -> Mapping[str, Mapping[str, Any]]:
    """By step and ask; a reading with its reason is a list of both."""
    says: dict[str, dict[str, Any]] = {}
    for step in WHOLE_JOB.steps:
        says.setdefault(step.id, {}).update(step.says)
    says["fit-07"]["room"] = ON_THE_BORDER["room"]
    says["fit-10"]["laminate"] = ON_THE_BORDER["laminate"]
    says["fit-11"]["rehearsal"] = 22
    says["fit-24"]["open_for"] = [36, TOO_LATE]
    says["fit-25"]["spent"] = 22
    says["fit-27"] = {"cure": "room", "coldest": 21.0}
    says["fit-28"]["blob"] = [55, "Still soft in the morning."]
    for step_id, lots in LOTS.items():
        says.setdefault(step_id, {}).update(lots)
    return says


def choice(on: CardHand, act: Act, ask: Any) -> None:
    """Until its options are gone: a step may be called as its choice is."""
    on.lead("Choose")
    said = str(on.said(act, ask))
    option = on.page.get_by_role("button", name=said[:1].upper() + said[1:], exact=True)
    hand.settle(on.page)
    option.click()
    expect(option).to_have_count(0)


def lot(on: CardHand, act: Act, ask: Any) -> None:
    """As printed, good for a year unless it is the one that is past it."""
    printed = str(on.said(act, ask))
    days = -30 if printed == EXPIRED else 365
    on.lead("Enter lot")
    on.page.get_by_label("Lot number, as printed").fill(printed)
    on.page.get_by_label("Expires on").fill((datetime.now(UTC) + timedelta(days=days)).date().isoformat())
    on.lead("Record lot")
    if printed == EXPIRED:
        go_on_with_the_expired(on)
    expect(on.page.get_by_label("Lot number, as printed")).to_have_count(0)


def go_on_with_the_expired(on: CardHand) -> None:
    """Kept and marked, it does not answer; going on wants words."""
    expect(on.page.get_by_text("Kept and marked: expired. It does not answer.")).to_be_visible()
    assert on.now().key == "Enter lot"
    hand.tap(on.page, "Go on with this lot: write a deviation")
    hand.write(on.page, "Only cartridge in the house; the maker extends it by letter.", "Record deviation")
    expect(on.page.get_by_text(re.compile("Goes on, expired, with a deviation: Only"))).to_be_visible()


def compute(on: CardHand, act: Act, ask: Any) -> None:
    """Recorded as it is worked out; with words where it asks for them."""
    on.lead("Work it out")
    hand.heading(on.page, ask.name[:1].upper() + ask.name[1:])
    words = on.page.get_by_role("textbox")
    key = on.page.locator(".key-main, .key-waiting").filter(visible=True).first
    expect(key).to_contain_text("Record")
    if words.count():
        words.first.fill(WHY.get(ask.id, "Seen, and agreed with Oskar."))
    hand.settle(on.page)
    if ask.id == "grip":
        choose_lengths(on, key)
    key.click()
    expect(on.page.get_by_role("heading", level=1, name=ask.name)).to_have_count(0)
    if ask.id == "grip":
        the_choice_is_recorded(on)


def choose_lengths(on: CardHand, key: Locator) -> None:
    """The border is said and asked about, group by group; the result is not recorded before."""
    expect(on.page.get_by_text(BORDER_SAID)).to_be_visible()
    key.click()
    expect(on.page.get_by_text("Choose a length for header and post, or leave it open.")).to_be_visible()
    for group in ("Header", "Post"):
        asked = on.page.get_by_role("group", name=f"{group}, grip 8.50 mm: which length?")
        asked.get_by_role("button", name="12 mm BR-48-12, 6.5 to 8.5 mm").click()
    expect(on.page.get_by_role("button", pressed=True)).to_have_count(2)
    hand.settle(on.page)


def the_choice_is_recorded(on: CardHand) -> None:
    """As figures of the result, where the pick list reads them, and with the reason in a deviation."""
    entries = hand.held(on.page)["entries"]
    result = next(one for one in entries if one["kind"] == "result" and one["body"]["ask"] == "grip")
    values = {one["name"]: one["value"] for one in result["body"]["values"]}
    assert {name: value for name, value in values.items() if name.startswith("chosen_")} == CHOSEN
    assert (values["grip_post"], values["length_foot"]) == (850, 140)
    about = [one for one in entries if one["kind"] == "deviation" and result["hash"] in one["body"]["about"]]
    assert [one["body"]["text"] for one in about] == [f"Header 12 mm, post 12 mm: {BORDER_WORDS}"]


def type_again(on: CardHand, name: str, typed: str, why: str = "") -> None:
    """A newer reading over the one that stands; both stay readable."""
    hand.tap(on.page, re.compile(f"^Change: {name}"))
    hand.tap(on.page, re.compile("^Type again: "))
    hand.type_number(on.page, typed)
    on.lead(f"Record {typed}")
    if why:
        hand.heading(on.page, "Outside the limits")
        hand.write(on.page, why, f"Record {typed}")
    expect(on.page.get_by_role("group", name="Keypad")).to_have_count(0)
    expect(on.page.get_by_role("textbox")).to_have_count(0)


WHY = {"grip": BORDER_WORDS, "open_time": "The rehearsal went well at the second try."}


def sign(on: CardHand, act: Act, ask: Any) -> None:
    """By PIN of whoever may: the office and paint come to the car."""
    who = PEOPLE_AT_THE_CAR.get(ask.of, plan.SECOND)
    on.lead("Countersign")
    hand.sign(on.page, who.name, who.pin)
    expect(on.page.get_by_role("heading", level=1, name="Countersign")).to_have_count(0)


def mixer_sets(on: CardHand) -> None:
    """Two thirds into the bead it stands too long and sets; a new one: the first gram's clock runs on."""
    page = on.page
    on.phone.pass_time(2 * MINUTE_MS)
    before = open_time_left_min(on)
    hand.tap(page, "Mixer stands", exact=True)
    stands = page.locator(".mixer-row").filter(has_text=re.compile(r"stands: [78]:\d\d until it sets"))
    expect(stands).to_contain_text("Gel time 8 min, by the method")
    on.phone.pass_time(9 * MINUTE_MS)
    page.reload()
    expect(page.locator(".mixer-row.due-band")).to_contain_text("The mixer has set, 1:")
    hand.tap(page, "New mixer on", exact=True)
    expect(hand.key(page, "Mixer stands", exact=True)).to_be_visible()
    expect(page.locator(".run-band").filter(has_text=OPEN_TIME)).to_contain_text("Join the part")
    page.wait_for_function(
        "before => { const all = [...document.querySelectorAll('.run-band strong')];"
        " const join = all.find(({ textContent }) => textContent.startsWith('Join'));"
        " const t = join.textContent.match(/(\\d+):/);"
        " return t !== null && Number(t[1]) <= before - 9 }",
        arg=before,
    )


OPEN_TIME = re.compile("Join the part|Set the foot group")


def open_time_left_min(on: CardHand) -> int:
    """The primer's clock stands beside it until the bead is laid."""
    band = on.page.locator(".run-band strong").filter(has_text=OPEN_TIME)
    found = re.search(r"(\d+):\d\d", band.inner_text())
    assert found is not None, band.inner_text()
    return int(found[1])


def look_at_the_oval_hole(on: CardHand) -> None:
    """The map of the fitting still knows it, and what was measured."""
    on.page.locator(".map-position").click()
    sheet = on.page.get_by_role("dialog")
    expect(sheet.get_by_text("damaged", exact=True)).to_be_visible()
    on.page.keyboard.press("Escape")
    expect(sheet).to_have_count(0)


def pass_by_deviation(on: CardHand, act: Act) -> None:
    """Held by a signature that another device has to give: the deviation, and the name under it."""
    signer = SIGNS_THE_DEVIATION[on.paper.step(act.number).id]
    hand.tap(on.page, re.compile("record a deviation"))
    hand.heading(on.page, "Going on before the hold point has passed")
    hand.write(on.page, ELSEWHERE, "Record deviation")
    expect(on.page.get_by_role("textbox")).to_have_count(0)
    hand.tap(on.page, "Countersign the deviation")
    hand.sign(on.page, signer.name, signer.pin)
    expect(on.page.get_by_role("heading", level=1, name="Countersign")).to_have_count(0)


ELSEWHERE = "Seen at the car with Oskar; his phone is at the other hoist."
SIGNS_THE_DEVIATION = {"fit-28": plan.SECOND, "fit-37": plan.OFFICE}
