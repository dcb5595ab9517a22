"""Countersigns: which of them count, and why the others do not.

A countersign counts while it is unstruck, its writer wrote nothing of what it names, its `as` holds what
is demanded, and it names the shown value of every answered text, choice, reading, result and ask-level
tick that its step asks for and the deciding entry of each position of its tally groups. One with an empty ask
countersigns a deviation that passes the hold, and must name one.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from bayleaf.domain.asks import (
    Ask,
    ChoiceAsk,
    ComputeAsk,
    CountersignAsk,
    ReadingAsk,
    TallyAsk,
    TextAsk,
    TickAsk,
)
from bayleaf.domain.entries import Entry
from bayleaf.domain.findings import Finding, finding
from bayleaf.domain.fold.asked import asks_asked
from bayleaf.domain.fold.log import Log
from bayleaf.domain.fold.registers import Registers
from bayleaf.domain.fold.revisions import Pinned
from bayleaf.domain.fold.tally import UNTOUCHED, Tally
from bayleaf.domain.kinds import RegisterKey, place_of, register_key
from bayleaf.domain.method import StepDoc
from bayleaf.domain.state import CountersignState, Why

_REGISTER_OF = {
    TickAsk: "tick",
    TextAsk: "text",
    ChoiceAsk: "choice",
    ReadingAsk: "reading",
    ComputeAsk: "result",
}


@dataclass(frozen=True, slots=True)
class Recorded:
    """What a countersign is held against."""

    log: Log
    pinned: Pinned
    registers: Registers
    tally: Tally


@dataclass(frozen=True, slots=True)
class Countersign:
    """A countersign entry and why it is void; "" if it counts."""

    entry: Entry
    why: Why


def ask_registers(method_id: str, step_id: str, ask: Ask) -> list[RegisterKey]:
    """The registers whose values answer an ask; none for the asks that other things answer."""
    kind = _REGISTER_OF.get(type(ask))
    if kind is None:
        return []
    points = ask.point_ids() if isinstance(ask, ReadingAsk) else ("",)
    return [(kind, method_id, step_id, ask.id, point) for point in points]


def read_countersigns(recorded: Recorded) -> tuple[list[Countersign], list[Entry]]:
    """All countersigns, sorted by hash; and apart those unstruck ones made under another revision."""
    log = recorded.log
    here: list[Countersign] = []
    elsewhere: list[Entry] = []
    entries = sorted(e.hash for e in log.live.values() if e.kind == "countersign")
    for entry in map(log.live.__getitem__, entries):
        if entry.hash in log.struck:
            here.append(Countersign(entry, "struck"))
        elif _answers(entry, recorded.pinned):
            here.append(Countersign(entry, _why_void(entry, recorded)))
        else:
            elsewhere.append(entry)
    return here, elsewhere


def _answers(entry: Entry, pinned: Pinned) -> bool:
    return pinned.answers(entry.body["method"], entry.body["digest"], entry.body["step"])


def _why_void(entry: Entry, recorded: Recorded) -> Why:
    saw = frozenset(entry.body["saw"])
    if any(seen.by == entry.by for seen in _seen(entry, recorded.log)):
        return "own_value"
    step = recorded.pinned.step(entry.body["method"], entry.body["step"])
    if step is None or not _meets_demand(entry, step):
        return "demand"
    if entry.body["ask"] == "":
        return _names_deviation(entry, saw, recorded.log)
    return _names_values(entry, saw, step, recorded)


def _seen(entry: Entry, log: Log) -> Iterator[Entry]:
    """The entries that it names and that have arrived, whatever became of them."""
    return (log.everything[named] for named in entry.body["saw"] if named in log.everything)


def _meets_demand(entry: Entry, step: StepDoc) -> bool:
    if entry.body["ask"] == "":
        return step.hold_countersign == "" or _holds(entry, step.hold_countersign)
    ask = step.ask(entry.body["ask"])
    return isinstance(ask, CountersignAsk) and _holds(entry, ask.of)


def _holds(entry: Entry, demand: str) -> bool:
    return ("technician" if demand == "second_person" else demand) in entry.as_


def _names_deviation(entry: Entry, saw: frozenset[str], log: Log) -> Why:
    named = [d for d in map(log.live.get, saw) if d is not None and _passes_hold_of(d, entry)]
    if any(deviation.hash not in log.struck for deviation in named):
        return ""
    return "superseded" if named else "missing"


def _passes_hold_of(deviation: Entry, entry: Entry) -> bool:
    body = deviation.body
    if deviation.kind != "deviation" or not body["passes_hold"]:
        return False
    return bool(body["method"] == entry.body["method"] and body["step"] == entry.body["step"])


def _names_values(entry: Entry, saw: frozenset[str], step: StepDoc, recorded: Recorded) -> Why:
    unnamed = [value for value in _required(entry.body["method"], step, recorded) if value.hash not in saw]
    if not unnamed:
        return ""
    named = [value for value in map(recorded.log.live.get, saw) if value is not None]
    return "superseded" if any(_is_earlier(value, old) for value in unnamed for old in named) else "missing"


def _required(method_id: str, step: StepDoc, recorded: Recorded) -> Iterator[Entry]:
    """The shown values and deciding tally entries that a countersign of the step must name."""
    for ask in asks_asked(recorded.registers, method_id, step):
        for key in ask_registers(method_id, step.id, ask):
            register = recorded.registers.get(key)
            if register and register.answer:
                yield register.answer
        if isinstance(ask, TallyAsk):
            yield from _deciding(
                recorded.pinned.by_id[method_id][1].group_positions(ask.group), recorded.tally
            )


def _deciding(positions: tuple[str, ...], tally: Tally) -> Iterator[Entry]:
    for name in positions:
        position = tally.get(name, UNTOUCHED)
        if position.highest in position.deciding:
            yield position.deciding[position.highest]


def _is_earlier(value: Entry, old: Entry) -> bool:
    """Whether the old entry was a value of the same register, or a state of the same position."""
    if value.kind == "tally":
        return old.kind == "tally" and "state" in old.body and old.body["position"] == value.body["position"]
    return register_key(old) == register_key(value)


def countersign_states(countersigns: list[Countersign]) -> list[CountersignState]:
    """The countersigns with why they do or do not count, sorted by hash."""
    return [{"hash": c.entry.hash, "counts": c.why == "", "why": c.why} for c in countersigns]


def countersign_findings(countersigns: list[Countersign], recorded: Recorded) -> Iterator[Finding]:
    """Void countersigns; persons picked from a list, or devices shared, where that matters."""
    for countersign in countersigns:
        entry = countersign.entry
        if countersign.why not in ("", "struck"):
            yield finding("void_countersign", place_of(entry), [entry.hash])
        if countersign.why == "" and _on_same_device(entry, recorded.log):
            yield from _shared_device(entry, recorded.pinned)


def _on_same_device(entry: Entry, log: Log) -> bool:
    return any(seen.device == entry.device for seen in _seen(entry, log))


def _shared_device(entry: Entry, pinned: Pinned) -> Iterator[Finding]:
    if entry.auth == "picked":
        yield finding("picked_person", place_of(entry), [entry.hash])
    step = pinned.step(entry.body["method"], entry.body["step"])
    ask = step.ask(entry.body["ask"]) if step else None
    if isinstance(ask, CountersignAsk) and ask.other_device:
        yield finding("same_device", place_of(entry), [entry.hash])
