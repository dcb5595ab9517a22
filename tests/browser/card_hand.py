"""A hand that works through a card: reads the next act from the screen, and answers it from a table.

It knows no address and no order of its own. Where the screen leads to nothing that the table answers, it
fails with a picture of that screen.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, expect

from bayleaf.domain.asks import Ask, ChoiceAsk, ReadingAsk
from browser import phone_hand as hand
from browser.handset import Handset
from browser.paper import Paper

ACTS_AT_MOST = 400
STANDS = 7  # so many times the same act: the screen does not go on
MORNING = "Is it still so?"
ELSEWHERE = "Have it signed"  # nothing is left here but a signature that another device gives
MINUS, THIN = "\u2212", "\u202f"
SEEN = """() => {
  const shown = (one) => one.checkVisibility()
  const main = [...document.querySelectorAll('.key-main, .key-waiting')].find(shown)
  const small = main?.querySelector('small')
  const words = main?.querySelector('span') ?? main
  return {
    number: Number(document.querySelector('.folio-step .num')?.textContent ?? 0),
    heading: document.querySelector('h1')?.textContent ?? '',
    key: [...(words?.childNodes ?? [])].filter((one) => one !== small)
      .map((one) => one.textContent).join('').trim(),
    small: small?.textContent ?? '',
    waiting: main?.classList.contains('key-waiting') ?? false,
  }
}"""


@dataclass(frozen=True)
class Act:
    """What the screen asks for now: its step's number, its heading, its main key and the line under that."""

    number: int
    heading: str
    key: str
    small: str
    waiting: bool


Answer = Callable[["CardHand", Act, Ask], None]


@dataclass
class CardHand:
    """One person at one phone.

    `says`: what is answered, by step and ask. `first`: what the person does of themselves at a step before
    they do what its key says, once. `left`: photo slots that are left to somebody else.
    """

    phone: Handset
    paper: Paper
    says: Mapping[str, Mapping[str, Any]]
    pictures: Path
    ways: Mapping[str, Answer]
    held: Callable[[CardHand, Act], None] | None = None
    first: dict[str, Callable[[CardHand], None]] = field(default_factory=dict)
    left: frozenset[str] = frozenset()
    last: dict[str, Callable[[CardHand], None]] = field(default_factory=dict)
    after_rivet: dict[str, Callable[[CardHand], None]] = field(default_factory=dict)
    acts: list[str] = field(default_factory=list)
    runs: dict[str, Any] = field(default_factory=dict)

    @property
    def page(self) -> Page:
        return self.phone.page

    def now(self) -> Act:
        """The screen, once it takes taps."""
        hand.settle(self.page)
        expect(self.page.locator("h1").first).to_be_visible()  # a page that is fetched when first shown
        hand.settle(self.page)
        return Act(**self.page.evaluate(SEEN))

    def work(self, until: Callable[[Act, str], bool]) -> None:
        """Act by act as the screen leads, until it shows what is waited for."""
        for _ in range(ACTS_AT_MOST):
            act = self.now()
            step = self.paper.step(act.number).id if act.number else ""
            if until(act, step):
                return
            self.acts.append(f"{step} {act.key}: {act.small}")
            assert len(set(self.acts[-STANDS:])) > 1 or len(self.acts) < STANDS, self.acts[-1]
            try:
                self._do(act, step)
            except BaseException:
                self.picture("stuck")
                raise
        raise AssertionError(f"no end after {ACTS_AT_MOST} acts")

    def _do(self, act: Act, step: str) -> None:
        if act.heading == MORNING:
            return self._look()
        own = self.first.pop(step, None)
        if own is not None:
            return own(self)
        if act.key == "Done" and not act.waiting:
            own = self.last.pop(step, None)
            return self._done(act) if own is None else own(self)
        if act.key in ("", ELSEWHERE) and self.held is not None:
            return self.held(self, act)
        if act.key.startswith(("Go on with step", "To the next act", "To hold point")):
            return self.go_on(act)
        if act.key in ("Done", "Check it"):  # checks are pressed where they stand
            return self._check(act)
        way = self.ways.get(act.key)
        assert way is not None, f"the screen does not lead on: {act}"
        return way(self, act, self.paper.ask(act.number, act.small))

    def _look(self) -> None:
        """The first look of the day: everything still stands."""
        hand.say_still_so(self.page)

    def _check(self, act: Act) -> None:
        for ask in self.paper.step(act.number).asks:
            row = self.page.locator(f"#check-{ask.id}")
            if row.count():
                self.tap_row(row)

    def _done(self, act: Act) -> None:
        """First the photos that do not stop the tick."""
        step = self.paper.step(act.number)
        for ask in step.asks:
            if f"{step.id}.{ask.id}" in self.left or not hasattr(ask, "show"):
                continue
            slot = self.page.locator(".slot", has_text="wanted").filter(has_text=sentence(ask.show))
            if slot.count():
                slot.first.click()
                return photo(self, act, ask)
        hand.done(self.page)
        return None

    def lead(self, words: str) -> None:
        hand.lead(self.page, words)

    def go_on(self, act: Act) -> None:
        """By a key that only leads; until the screen says something else."""
        self.lead(act.key)
        self.page.wait_for_function(f"before => JSON.stringify(({SEEN})()) !== before", arg=as_seen(act))

    def tap_row(self, row: Any) -> None:
        hand.settle(self.page)
        row.click()
        expect(row).to_have_count(0)

    def said(self, act: Act, ask: Ask) -> Any:
        step = self.paper.step(act.number).id
        found = self.says.get(step, {})
        assert ask.id in found, f"nothing to answer to {step}.{ask.id} ({ask.name})"
        return found[ask.id]

    def picture(self, name: str) -> None:
        self.pictures.mkdir(parents=True, exist_ok=True)
        self.page.screenshot(path=self.pictures / f"{name}.png", full_page=True)


def as_seen(act: Act) -> str:
    """As the page writes it down."""
    return json.dumps(asdict(act), separators=(",", ":"), ensure_ascii=False)


def sentence(words: str) -> str:
    return words[:1].upper() + words[1:]


def leaves(on: CardHand, heading: str) -> None:
    """Until the screen is about something else."""
    expect(on.page.get_by_role("heading", level=1, name=heading, exact=True)).to_have_count(0)


def text(on: CardHand, act: Act, ask: Ask) -> None:
    on.lead("Write")
    hand.heading(on.page, sentence(ask.name))
    hand.write(on.page, str(on.said(act, ask)), "Record text")
    leaves(on, sentence(ask.name))


def choice(on: CardHand, act: Act, ask: Ask) -> None:
    assert isinstance(ask, ChoiceAsk)
    on.lead("Choose")
    hand.heading(on.page, sentence(ask.name))
    hand.tap(on.page, sentence(str(on.said(act, ask))), exact=True)
    leaves(on, sentence(ask.name))


def reading(on: CardHand, act: Act, ask: Ask) -> None:
    """Every point in the order in which the keypad asks for them."""
    assert isinstance(ask, ReadingAsk)
    on.lead("Enter reading")
    said = on.said(act, ask)
    if isinstance(said, Mapping):
        said = tuple(said.values())
    for value in said if isinstance(said, tuple) else (said,):
        amount, why = value if isinstance(value, list) else (value, "")
        shown = f"{abs(amount):.{ask.decimals}f}"
        hand.settle(on.page)
        about = on.page.locator("h1").first.inner_text()
        hand.type_number(on.page, shown + ("-" if amount < 0 else ""))
        key = on.now().key
        assert key.replace(THIN, "").startswith(f"Record {MINUS if amount < 0 else ''}{shown}"), key
        on.lead(key)
        if why:
            hand.heading(on.page, "Outside the limits")
            hand.write(on.page, why, key)
            leaves(on, "Outside the limits")
        expect(on.page.locator("h1").first).not_to_have_text(about)


def photo(on: CardHand, act: Act, ask: Ask) -> None:
    """One of the demo's drawn pictures: this phone's camera is off."""
    on.page.get_by_role("button", name="Bracket", exact=True).wait_for()
    hand.photo(on.page, "Bracket")


def take_photo(on: CardHand, act: Act, ask: Ask) -> None:
    on.lead("Take photo")
    photo(on, act, ask)


def compute(on: CardHand, act: Act, ask: Ask) -> None:
    on.lead("Work it out")
    hand.heading(on.page, sentence(ask.name))
    expect(hand.main_key(on.page)).to_contain_text("Record the result")
    why = on.page.get_by_role("textbox")
    if why.count():  # outside, or a border case: the reason is recorded with it
        why.first.fill(on.said(act, ask))
    on.lead("Record the result")
    leaves(on, sentence(ask.name))


def countersign_by(name: str, pin: str) -> Answer:
    """By PIN of somebody who stands at the car."""

    def sign(on: CardHand, act: Act, ask: Ask) -> None:
        on.lead("Countersign")
        hand.sign(on.page, name, pin)
        leaves(on, "Countersign")

    return sign


def rivets(on: CardHand, act: Act, ask: Ask) -> None:
    """The key names position and state; it goes to the next position by itself, until the map is complete."""
    on.lead("Count rivets")
    on.page.locator(".map-position").wait_for()
    key = on.page.locator(".key-main").first
    while not (words := on.now().key).startswith("Back to the step"):
        named = key.get_attribute("aria-label")
        if named is None:  # a position that was passed by
            on.lead(words)
            continue
        key.click()
        expect(key).not_to_have_attribute("aria-label", named)
        on.after_rivet.pop(named, _nothing)(on)
    on.lead("Back to the step")


def _nothing(_on: CardHand) -> None:
    """Of themselves nobody does anything."""


WAYS: Mapping[str, Answer] = {
    "Write": text,
    "Choose": choice,
    "Enter reading": reading,
    "Take photo": take_photo,
    "Work it out": compute,
    "Count rivets": rivets,
}
