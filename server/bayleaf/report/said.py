"""What one entry says, in words and figures."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from bayleaf.domain.asks import AnswerRef, LotAsk, ReadingAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.kinds import is_run_reading
from bayleaf.report.ledger import Ledger, label, option_name
from bayleaf.report.lengths import lengths_words
from bayleaf.report.words import (
    KINDS,
    SPACE,
    UNITS,
    VERDICTS,
    capital,
    figure,
    inner,
    quantity,
    word,
)

FEW_FIGURES: Final = 3
NO_EXPIRY: Final = "no expiry printed"


def value_words(ledger: Ledger, entry: Entry) -> str:
    """The value that an entry records, without the name of what it answers."""
    if entry.kind == "choice":
        return option_name(ledger.ask_of(entry), entry.body["option"])
    if entry.kind == "lot":
        return lot_words(ledger, entry.body)
    if entry.kind == "reading" and is_run_reading(entry):
        return run_reading_words(entry.body)
    say = _SAYS.get(entry.kind)
    return say(entry.body) if say is not None else KINDS.get(entry.kind, entry.kind)


def _tick(body: Any) -> str:
    done = "done" if body["value"] == "done" else "not applicable"
    return f"{done}: {body['reason']}" if body.get("reason") else done


def named_value(ledger: Ledger, entry: Entry) -> str:
    """The value with the name of what it answers."""
    if entry.kind == "tick" and not entry.body.get("ask"):
        return value_words(ledger, entry)
    if entry.kind == "tally":
        return f"{entry.body['position']}: {tally_words(entry.body)}"
    name = ledger.ask_name(entry)
    value = value_words(ledger, entry)
    return f"{name}: {value}" if name else capital(value)


def _quantity(body: Any) -> str:
    return quantity(body["value"], body["decimals"], body["unit"])


def run_reading_words(body: Any) -> str:
    """The sensor, and its highest value of the batch."""
    highest = max(value for _, value in body["points"])
    return f"sensor {body['sensor']}, {quantity(highest, body['decimals'], body['unit'])}"


def result_words(body: Any) -> str:
    """The verdict of a result, behind its figures where they are few, or behind the lengths that it gives."""
    verdict = VERDICTS.get(body["verdict"], body["verdict"])
    lengths = lengths_words(body)
    if lengths:
        return f"{lengths}; {verdict}"
    return f"{figures_words(body)}; {verdict}" if 0 < len(body["values"]) <= FEW_FIGURES else verdict


def figures_words(body: Any) -> str:
    """All figures of a result."""
    return ", ".join(f"{word(one['name'])} {_quantity(one)}" for one in body["values"])


def lot_words(ledger: Ledger, body: Any) -> str:
    return f"lot {body['lot']}, {expiry_words(ledger, body['expires_ms'])}"


def expiry_words(ledger: Ledger, expires_ms: int) -> str:
    """By the shop's time: the label's day ends at the phone's own midnight."""
    return f"expires {ledger.time.day(expires_ms)}" if expires_ms else NO_EXPIRY


def tally_words(body: Any) -> str:
    """A state or a mark of a rivet."""
    if "state" in body:
        again = f" (rivet {body['generation'] + 1})" if body["generation"] > 1 else ""
        return f"{word(body['state'])}{again}"
    piece = f"{body['piece']} " if body["piece"] else ""
    return f"{piece}{word(body['mark'])}"


def limit_words(ledger: Ledger, ask: ReadingAsk) -> str:
    """The limits of a reading: `0.8 to 1.8 mm`, `at most 0.30 mm`; empty where it has none."""
    unit = UNITS.get(ask.unit, ask.unit)
    least, most = ask.min, ask.max
    if least is None and most is None:
        return ""
    tail = f"{SPACE}{unit}" if unit else ""
    if least is None:
        said = f"at most {figure(most or 0, ask.decimals)}{tail}"
    elif most is None:
        said = f"at least {figure(least, ask.decimals)}{tail}"
    elif least == most:
        said = f"exactly {figure(most, ask.decimals)}{tail}"
    elif least == -most:
        said = f"within \u00b1{figure(most, ask.decimals)}{tail}"
    else:
        said = f"{figure(least, ask.decimals)} to {figure(most, ask.decimals)}{tail}"
    return f"{said} against {answer_words(ledger, ask.against, ask)}" if ask.against else said


def answer_words(ledger: Ledger, answer: AnswerRef, asking: ReadingAsk) -> str:
    """An answer of some step, as limits refer to it; its name is said where it is another than one's own."""
    place = ledger.place(answer.method, answer.step)
    ask = place.step.ask(answer.ask) if place else None
    name = inner(label(ask)) if ask else answer.ask.replace("_", " ")
    step = f"step {ledger.step_name(answer.method, answer.step)}"
    return step if name == inner(label(asking)) else f"{name} of {step}"


def reading_against_limit(ledger: Ledger, entry: Entry) -> str:
    """A reading with the limits that it is outside of."""
    ask = ledger.ask_of(entry)
    said = f"{inner(ledger.ask_name(entry))} {reading_words(ledger, entry)}"
    limits = limit_words(ledger, ask) if isinstance(ask, ReadingAsk) else ""
    return f"{said}; limit {limits}" if limits else said


def reading_words(ledger: Ledger, entry: Entry) -> str:
    """A reading; beside an earlier one, how far it is from that."""
    body, ask = entry.body, ledger.ask_of(entry)
    earlier = _earlier(ledger, ask, str(body.get("point", ""))) if isinstance(ask, ReadingAsk) else None
    if earlier is None or (earlier["unit"], earlier["decimals"]) != (body["unit"], body["decimals"]):
        return value_words(ledger, entry)
    difference = quantity(body["value"] - earlier["value"], body["decimals"], body["unit"])
    return f"{value_words(ledger, entry)}, differs by {difference}"


def _earlier(ledger: Ledger, ask: ReadingAsk, point: str) -> Mapping[str, Any] | None:
    """The shown value that the limits compare with."""
    if ask.against is None:
        return None
    wanted = ("reading", ask.against.method, ask.against.step, ask.against.ask, ask.against.point or point)
    for one in ledger.state["registers"]:
        if (one["kind"], one["method"], one["step"], one["ask"], one["point"]) == wanted and one["shown"]:
            return ledger.body(one["shown"])
    return None


def lot_against_ask(ledger: Ledger, entry: Entry, *, expired: bool) -> str:
    """A lot with what is wrong with it."""
    body, ask = entry.body, ledger.ask_of(entry)
    if expired:
        expiry = f"expired {ledger.time.day(body['expires_ms'])}, recorded {ledger.when(entry)}"
        return f"{ledger.ask_name(entry)}: lot {body['lot']} {expiry}"
    wanted = f", asked for was {material_name(ledger, ask.of)}" if isinstance(ask, LotAsk) else ""
    return f"lot {body['lot']} of {material_name(ledger, body['material'])}{wanted}"


def material_name(ledger: Ledger, material: str) -> str:
    named = (one.name for method in ledger.pinned for one in method.materials if one.id == material)
    return next(named, material.replace("_", " "))


_SAYS: Final[Mapping[str, Callable[[Any], str]]] = {
    "tick": _tick,
    "text": lambda body: str(body["value"]),
    "reading": _quantity,
    "result": result_words,
    "tally": tally_words,
    "note": lambda body: str(body["text"]),
    "deviation": lambda body: str(body["text"]),
    "photo": lambda body: str(body.get("caption", "")) or "photo",
}
