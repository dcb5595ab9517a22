"""Whether an ask is answered, and inside its limits.

A stop option, a verdict outside, a reading outside its limits and one with nothing to compare with are
answers, but not inside. A lot of another material or past its expiry answers only where a deviation names
it. A heat ask is answered by the last of the parts that it asks for, in a run begun at it or, if it
continues one, at the ask where that was begun.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal, assert_never

from bayleaf.domain.asks import (
    RUN_PARTS,
    AnswerRef,
    Ask,
    ChoiceAsk,
    ComputeAsk,
    CountersignAsk,
    HeatAsk,
    LotAsk,
    PhotoAsk,
    ReadingAsk,
    RunPart,
    TallyAsk,
    TextAsk,
    TickAsk,
)
from bayleaf.domain.entries import Entry
from bayleaf.domain.fold.countersigns import Countersign, Recorded, ask_registers
from bayleaf.domain.fold.evidence import Evidence, has_usable_lot
from bayleaf.domain.fold.runs import HeatRun, Runs
from bayleaf.domain.fold.tally import UNTOUCHED, reaches
from bayleaf.domain.fold.values import value_fault
from bayleaf.domain.method import MethodDoc, StepDoc

Answer = Literal["open", "outside", "inside"]

_END_OF: Final[dict[RunPart, tuple[str, ...]]] = {
    "ramp": ("on",),
    "soak": ("soaked",),
    "release": ("lifted", "off"),
    "cool_down": ("cold",),
}


@dataclass(frozen=True, slots=True)
class Card:
    """All that steps are read from."""

    recorded: Recorded
    evidence: Evidence
    runs: Runs
    countersigns: Sequence[Countersign]


def answer(card: Card, method: MethodDoc, step: StepDoc, ask: Ask) -> Answer:
    """Whether an ask is answered, and inside its limits."""
    match ask:
        case TickAsk() | TextAsk() | ChoiceAsk() | ReadingAsk() | ComputeAsk():
            return _answer_of_values(card, method, step, ask)
        case PhotoAsk():
            return _inside_if(bool(card.evidence.photos.get((method.id, step.id, ask.id))))
        case LotAsk():
            return _inside_if(has_usable_lot(card.evidence, method.id, step.id, ask))
        case TallyAsk():
            return _inside_if(_all_reach(card, method.group_positions(ask.group), ask.to))
        case HeatAsk():
            begun = ask.continues or AnswerRef(method.id, step.id, ask.id)
            return _inside_if(any(_is_through(run, begun, ask) for run in card.runs.values()))
        case CountersignAsk():
            return _inside_if(any(counts_for(c, method, step, ask.id) for c in card.countersigns))
        case never:
            assert_never(never)


def _inside_if(answered: bool) -> Answer:  # noqa: FBT001  # the one thing that is asked
    return "inside" if answered else "open"


def _answer_of_values(card: Card, method: MethodDoc, step: StepDoc, ask: Ask) -> Answer:
    """Every point needs a value, unless it is read only where needed.

    A stale result is none, a value with a fault is outside.
    """
    faults = [fault for _, fault in _values(card, method, step, ask)]
    wanted = (
        0 if isinstance(ask, ReadingAsk) and ask.where_needed else len(ask_registers(method.id, step.id, ask))
    )
    if len(faults) < wanted or "stale_result" in faults:
        return "open"
    return "outside" if any(faults) or _has_outside_verdict(card, method, step, ask) else "inside"


def _values(card: Card, method: MethodDoc, step: StepDoc, ask: Ask) -> Iterator[tuple[Entry, str]]:
    """The values that answer the ask, each with its fault or ""."""
    for key in ask_registers(method.id, step.id, ask):
        register = card.recorded.registers.get(key)
        if register and register.answer:
            yield register.answer, value_fault(register.answer, ask, method, card.recorded)


def _has_outside_verdict(card: Card, method: MethodDoc, step: StepDoc, ask: Ask) -> bool:
    return any(
        value.kind == "result" and value.body["verdict"] == "outside"
        for value, _ in _values(card, method, step, ask)
    )


def _all_reach(card: Card, positions: Sequence[str], to: str) -> bool:
    tally = card.recorded.tally
    return bool(positions) and all(reaches(tally.get(name, UNTOUCHED), to) for name in positions)


def _is_through(run: HeatRun, begun: AnswerRef, ask: HeatAsk) -> bool:
    """Whether an unaborted run that was begun there has come to the end of the ask's last part."""
    if run.aborted or not run.is_at(begun.method, begun.step, begun.ask):
        return False
    return any(run.has(moment) for moment in _END_OF[_last_part(ask)])


def _last_part(ask: HeatAsk) -> RunPart:
    """The last in the order of a run, however the ask lists them."""
    asked: list[RunPart] = [part for part in RUN_PARTS if part in ask.parts]
    return (asked or RUN_PARTS)[-1]


def counts_for(countersign: Countersign, method: MethodDoc, step: StepDoc, ask_id: str) -> bool:
    """Whether a countersign counts, and for that ask."""
    body = countersign.entry.body
    here = (body["method"], body["step"], body["ask"]) == (method.id, step.id, ask_id)
    return here and countersign.why == ""
