"""A finding in words: what it is, with the value, limit and names that show it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from bayleaf.domain.asks import HeatAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.state import FindingState, RunState
from bayleaf.report.ledger import Ledger, label
from bayleaf.report.said import lot_against_ask, named_value, reading_against_limit, value_words
from bayleaf.report.words import FINDINGS, listed, minutes, quantity

Say = Callable[[Ledger, FindingState, list[Entry]], str]

VOID: Final[Mapping[str, str]] = {
    "own_value": "its writer wrote one of the values",
    "demand": "its writer does not hold what the step demands",
    "missing": "it does not name every value",
    "superseded": "a value was recorded anew after it",
    "struck": "it is struck",
}


def finding_words(ledger: Ledger, finding: FindingState) -> str:
    """A sentence without its full stop; the bare code where the entries it names are not here."""
    named = [ledger.entries[one] for one in finding["hashes"] if one in ledger.entries]
    plain = FINDINGS.get(finding["code"], finding["code"].replace("_", " "))
    say = SAY.get(finding["code"])
    said = say(ledger, finding, named) if say is not None and named else _where(ledger, finding, named)
    return f"{plain}: {said}" if said else plain


def _where(ledger: Ledger, finding: FindingState, named: list[Entry]) -> str:
    """What the entries are, or the ids of the place."""
    if named:
        return listed(list(dict.fromkeys(named_value(ledger, entry) for entry in named[:4])))
    return " ".join(finding["at"])


def _readings(ledger: Ledger, _: FindingState, named: list[Entry]) -> str:
    return listed([reading_against_limit(ledger, entry) for entry in named])


def _two_values(ledger: Ledger, _: FindingState, named: list[Entry]) -> str:
    in_order = sorted(named, key=lambda one: (one.at_ms, one.hash))
    said = [f"\u201c{value_words(ledger, one)}\u201d by {ledger.signed(one)}" for one in in_order]
    return f"{ledger.ask_name(named[0]) or 'the step'}, {listed(said)}"


def _open_ask(ledger: Ledger, finding: FindingState, _: list[Entry]) -> str:
    place = ledger.place(*finding["at"][:2]) if len(finding["at"]) > 1 else None
    asks = [place.step.ask(one) for one in finding["at"][2:]] if place else []
    return listed([label(ask) for ask in asks if ask])


def _void(ledger: Ledger, _: FindingState, named: list[Entry]) -> str:
    why = {one["hash"]: one["why"] for one in ledger.state["countersigns"]}
    return listed([f"{ledger.signed(one)}, {VOID.get(why.get(one.hash, ''), 'void')}" for one in named])


def _signed(ledger: Ledger, _: FindingState, named: list[Entry]) -> str:
    return listed([ledger.signed(one) for one in named])


def _expired(ledger: Ledger, _: FindingState, named: list[Entry]) -> str:
    return listed([lot_against_ask(ledger, one, expired=True) for one in named])


def _wrong(ledger: Ledger, _: FindingState, named: list[Entry]) -> str:
    return listed([lot_against_ask(ledger, one, expired=False) for one in named])


def _run(ledger: Ledger, finding: FindingState) -> tuple[RunState | None, HeatAsk | None]:
    run = next((one for one in ledger.state["runs"] if one["run"] in finding["at"]), None)
    on = ledger.entries.get(run["run"]) if run else None
    ask = ledger.ask_of(on) if on else None
    return run, ask if isinstance(ask, HeatAsk) else None


def _marks(_: Ledger, __: FindingState, named: list[Entry]) -> str:
    return listed([f"{one.body['piece']} at {one.body['position']}".removeprefix(" at ") for one in named])


def _soak(ledger: Ledger, finding: FindingState, _: list[Entry]) -> str:
    run, ask = _run(ledger, finding)
    if run is None or ask is None:
        return ""
    return f"zone {run['zone']}, {minutes(run['soak_ms'])} counted of {minutes(ask.settings.soak_s * 1000)}"


def _too_hot(ledger: Ledger, finding: FindingState, named: list[Entry]) -> str:
    run, ask = _run(ledger, finding)
    said = listed(list(dict.fromkeys(value_words(ledger, entry) for entry in named)))
    if run is None or ask is None:
        return said
    settings = ask.settings
    limits = [
        ("bondline", settings.leading_max),
        ("metal", settings.metal_max),
        ("neighbour", settings.neighbour_max),
    ]
    told = [
        f"{what} {quantity(most, settings.decimals, settings.sensors_unit)}"
        for what, most in limits
        if most is not None
    ]
    return f"zone {run['zone']}, {said}; limits {listed(told)}"


SAY: Final[Mapping[str, Say]] = {
    "outside_limits": _readings,
    "nothing_to_compare": _readings,
    "two_values": _two_values,
    "open_ask": _open_ask,
    "void_countersign": _void,
    "picked_person": _signed,
    "same_device": _signed,
    "expired_lot": _expired,
    "wrong_lot": _wrong,
    "lost_piece": _marks,
    "damaged_hole": _marks,
    "soak_short": _soak,
    "over_maximum": _too_hot,
}
