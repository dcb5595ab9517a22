"""What was done, by the clocks, before a hold point that stands ahead of it: a step's tick, a switch-on."""

from __future__ import annotations

from collections.abc import Iterator

from bayleaf.domain.asks import CountersignAsk
from bayleaf.domain.entries import Entry
from bayleaf.report.ledger import Ledger, Place
from bayleaf.report.words import MS_PER_MIN, listed


def acts_before_holds(ledger: Ledger, place: Place) -> Iterator[str]:
    """A sentence for each; the record took it all the same."""
    for entry in _work(ledger, place):
        early = [one for one in _holds_ahead(ledger, place) if _is_passed_after(ledger, one, entry)]
        if early:
            names = listed([f"{one.number} {one.step.id}" for one in early])
            did = f"Switched on {ledger.when(entry)}" if entry.kind == "heat" else "Done"
            yield f"{did}, by the clocks, before hold point {names}."


def count_before_holds(ledger: Ledger) -> int:
    """How many acts of the whole job."""
    return sum(1 for place in ledger.places for _ in acts_before_holds(ledger, place))


def _work(ledger: Ledger, place: Place) -> Iterator[Entry]:
    """The switch-ons of the step, and the tick that stands: all else hangs on them."""
    for entry in ledger.by_step.get((place.method.id, place.step.id), []):
        if entry.kind == "heat" and entry.body["act"] == "on" and entry.hash not in ledger.struck:
            yield entry
    tick = ledger.entries.get(place.state["tick"]) if place.state and place.state["done"] else None
    if tick is not None:
        yield tick


def _holds_ahead(ledger: Ledger, place: Place) -> Iterator[Place]:
    """Hold points of the same method ahead of the step, but for those during which it may go on."""
    for one in ledger.places:
        ahead = one.method.id == place.method.id and one.number < place.number
        if ahead and one.step.hold and place.step.id not in one.step.meanwhile:
            yield one


def _is_passed_after(ledger: Ledger, hold: Place, entry: Entry) -> bool:
    """Whether it was first passed over a minute after that entry, or never.

    It is passed by a countersign where it asks for one, else by its tick, or by a deviation that says so.
    """
    entries = ledger.by_step.get((hold.method.id, hold.step.id), [])
    signed = "countersign" if any(isinstance(ask, CountersignAsk) for ask in hold.step.asks) else "tick"
    passed = [ledger.made_ms(one) for one in entries if one.kind == signed or one.body.get("passes_hold")]
    return not passed or min(passed) > ledger.made_ms(entry) + MS_PER_MIN
