"""Steps: what is done, which asks are open, whether a hold point passes, which needs are not met.

The screen holds, the record never does: nothing here refuses, and a step done before its hold or with an
open ask is a finding. A hold passes when all asks are answered inside their limits (a stop option and a
verdict outside are not inside) and the countersigns that it asks for count, or by an unstruck deviation
that names it with `passes_hold`, countersigned where the method says so.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal, assert_never

from bayleaf.domain.asks import (
    Ask,
    ChoiceAsk,
    ComputeAsk,
    CountersignAsk,
    HeatAsk,
    LotAsk,
    PhotoAsk,
    ReadingAsk,
    TallyAsk,
    TextAsk,
    TickAsk,
)
from bayleaf.domain.entries import Entry
from bayleaf.domain.findings import Finding, finding
from bayleaf.domain.fold.countersigns import Countersign, Recorded, ask_registers
from bayleaf.domain.fold.evidence import Evidence
from bayleaf.domain.fold.runs import Runs
from bayleaf.domain.fold.tally import UNTOUCHED, reaches
from bayleaf.domain.fold.values import value_fault
from bayleaf.domain.kinds import register_place, trimmed
from bayleaf.domain.method import MethodDoc, StepDoc
from bayleaf.domain.state import Done, Hold, StepState

Answer = Literal["open", "outside", "inside"]


@dataclass(frozen=True, slots=True)
class Card:
    """All that steps are read from."""

    recorded: Recorded
    evidence: Evidence
    runs: Runs
    countersigns: Sequence[Countersign]


def step_states(card: Card) -> list[StepState]:
    """A row for every step of the pinned methods, in their order."""
    return [_step_state(card, method, step) for method, step in card.recorded.pinned.steps()]


def _step_state(card: Card, method: MethodDoc, step: StepDoc) -> StepState:
    answers = {ask.id: answer(card, method, step, ask) for ask in step.asks}
    register = card.recorded.registers.get(("tick", method.id, step.id, "", ""))
    return {
        "method": method.id,
        "step": step.id,
        "done": done(card, method.id, step.id),
        "tick": register.shown.hash if register and register.shown else "",
        "open": [ask for ask, answered in answers.items() if answered == "open"],
        "hold": _hold(card, method, step, all(answered == "inside" for answered in answers.values())),
        "needs_open": [need for need in step.needs if not _is_met(card, method.id, need)],
    }


def done(card: Card, method_id: str, step_id: str) -> Done:
    """How the step's own tick stands; "" if it does not, or is sent back."""
    register = card.recorded.registers.get(("tick", method_id, step_id, "", ""))
    if register is None or register.answer is None:
        return ""
    return "done" if register.answer.body["value"] == "done" else "not_applicable"


def answer(card: Card, method: MethodDoc, step: StepDoc, ask: Ask) -> Answer:
    """Whether an ask is answered, and inside its limits."""
    match ask:
        case TickAsk() | TextAsk() | ChoiceAsk() | ReadingAsk() | ComputeAsk():
            return _answer_of_values(card, method, step, ask)
        case PhotoAsk():
            return _inside_if(bool(card.evidence.photos.get((method.id, step.id, ask.id))))
        case LotAsk():
            return _inside_if(bool(card.evidence.lots.get((method.id, step.id, ask.id))))
        case TallyAsk():
            return _inside_if(_all_reach(card, method.group_positions(ask.group), ask.to))
        case HeatAsk():
            return _inside_if(any(_is_cold_run_of(run_id, card, method, step, ask) for run_id in card.runs))
        case CountersignAsk():
            return _inside_if(any(_counts_for(c, method, step, ask.id) for c in card.countersigns))
        case never:
            assert_never(never)


def _inside_if(answered: bool) -> Answer:  # noqa: FBT001  # the one thing that is asked
    return "inside" if answered else "open"


def _answer_of_values(card: Card, method: MethodDoc, step: StepDoc, ask: Ask) -> Answer:
    """Every point needs a value; a stale result is none, a value with a fault is outside."""
    faults = [fault for _, fault in _values(card, method, step, ask)]
    if len(faults) < len(ask_registers(method.id, step.id, ask)) or "stale_result" in faults:
        return "open"
    return "outside" if any(faults) or _has_outside_verdict(card, method, step, ask) else "inside"


def _values(card: Card, method: MethodDoc, step: StepDoc, ask: Ask) -> Iterator[tuple[Entry, str]]:
    """The values that answer the ask, each with its fault or ""."""
    recorded = card.recorded
    for key in ask_registers(method.id, step.id, ask):
        register = recorded.registers.get(key)
        if register and register.answer:
            yield register.answer, value_fault(register.answer, ask, method, recorded.tally)


def _has_outside_verdict(card: Card, method: MethodDoc, step: StepDoc, ask: Ask) -> bool:
    return any(
        value.kind == "result" and value.body["verdict"] == "outside"
        for value, _ in _values(card, method, step, ask)
    )


def _all_reach(card: Card, positions: Sequence[str], to: str) -> bool:
    tally = card.recorded.tally
    return bool(positions) and all(reaches(tally.get(name, UNTOUCHED), to) for name in positions)


def _is_cold_run_of(run_id: str, card: Card, method: MethodDoc, step: StepDoc, ask: Ask) -> bool:
    run = card.runs[run_id]
    return not run.aborted and run.has("cold") and run.is_at(method.id, step.id, ask.id)


def _counts_for(countersign: Countersign, method: MethodDoc, step: StepDoc, ask_id: str) -> bool:
    body = countersign.entry.body
    here = (body["method"], body["step"], body["ask"]) == (method.id, step.id, ask_id)
    return here and countersign.why == ""


def _hold(card: Card, method: MethodDoc, step: StepDoc, all_inside: bool) -> Hold:  # noqa: FBT001
    if not step.hold:
        return "none"
    if all_inside:
        return "passed"
    return "deviation" if any(_passing_deviations(card, method, step)) else "held"


def _passing_deviations(card: Card, method: MethodDoc, step: StepDoc) -> Iterator[Entry]:
    recorded = card.recorded
    signed = {
        named
        for countersign in card.countersigns
        if _counts_for(countersign, method, step, "")
        for named in countersign.entry.body["saw"]
    }
    for entry in recorded.log.of("deviation"):
        body = entry.body
        here = body["passes_hold"] and (body["method"], body["step"]) == (method.id, step.id)
        if not here or not recorded.pinned.answers(method.id, body["digest"], step.id):
            continue
        if step.hold_countersign == "" or entry.hash in signed:
            yield entry


def _is_met(card: Card, method_id: str, need: str) -> bool:
    """`step` needs it done or not applicable; `step@moment` an unaborted run begun there that has it."""
    step_id, at, moment = need.partition("@")
    if not at:
        return done(card, method_id, step_id) != ""
    return any(
        not run.aborted and run.has(moment) and run.is_at(method_id, step_id) for run in card.runs.values()
    )


def step_findings(card: Card, states: Sequence[StepState]) -> Iterator[Finding]:
    """Open asks of steps that are done, and values with a fault."""
    for state in states:
        if state["done"]:
            for ask_id in state["open"]:
                yield finding("open_ask", trimmed(state["method"], state["step"], ask_id), [state["tick"]])
    for method, step, ask in card.recorded.pinned.asks():
        for key in ask_registers(method.id, step.id, ask):
            register = card.recorded.registers.get(key)
            if register and register.answer:
                fault = value_fault(register.answer, ask, method, card.recorded.tally)
                if fault:
                    yield finding(fault, register_place(key), [register.answer.hash])
