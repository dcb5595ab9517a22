"""Steps: what is done, which asks are open, whether a hold point passes, which needs are not met.

The screen holds, the record never does: nothing here refuses, and a step done before its hold or with an
open ask is a finding. A hold passes when all asks that are asked are answered inside their limits and the
countersigns that it asks for count, or by an unstruck deviation that names it with `passes_hold`,
countersigned where the method says so. An ask whose `when` is not met is not open and not judged.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from bayleaf.domain.entries import Entry
from bayleaf.domain.findings import Finding, finding
from bayleaf.domain.fold.answers import Answer, Card, answer, counts_for
from bayleaf.domain.fold.asked import asks_asked, is_asked
from bayleaf.domain.fold.countersigns import Recorded, ask_registers
from bayleaf.domain.fold.values import value_fault
from bayleaf.domain.kinds import register_place, trimmed
from bayleaf.domain.method import MethodDoc, StepDoc
from bayleaf.domain.state import Done, Hold, StepState

Laters = Mapping[tuple[str, str], list[str]]  # by (method, step)


def step_states(card: Card) -> list[StepState]:
    """A row for every step of the pinned methods, in their order."""
    laters = _laters(card.recorded)
    return [_step_state(card, method, step, laters) for method, step in card.recorded.pinned.steps()]


def _laters(recorded: Recorded) -> Laters:
    """What was put off under a revision that answers here. It answers no ask, so it is never elsewhere."""
    laters: defaultdict[tuple[str, str], list[str]] = defaultdict(list)
    for entry in recorded.log.of("later"):
        body = entry.body
        if recorded.pinned.answers(body["method"], body["digest"], body["step"]):
            laters[(body["method"], body["step"])].append(entry.hash)
    return laters


def _step_state(card: Card, method: MethodDoc, step: StepDoc, laters: Laters) -> StepState:
    registers = card.recorded.registers
    asked = asks_asked(registers, method.id, step)
    answers: dict[str, Answer] = {ask.id: answer(card, method, step, ask) for ask in asked}
    register = registers.get(("tick", method.id, step.id, "", ""))
    return {
        "method": method.id,
        "step": step.id,
        "done": done(card, method.id, step.id),
        "tick": register.shown.hash if register and register.shown else "",
        "open": [ask for ask, answered in answers.items() if answered == "open"],
        "not_asked": [ask.id for ask in step.asks if not is_asked(registers, method.id, step, ask)],
        "hold": _hold(card, method, step, all(answered == "inside" for answered in answers.values())),
        "needs_open": [need for need in step.needs if not _is_met(card, method.id, need)],
        "later": sorted(laters.get((method.id, step.id), [])),
    }


def done(card: Card, method_id: str, step_id: str) -> Done:
    """How the step's own tick stands; "" if it does not, or is sent back."""
    register = card.recorded.registers.get(("tick", method_id, step_id, "", ""))
    if register is None or register.answer is None:
        return ""
    return "done" if register.answer.body["value"] == "done" else "not_applicable"


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
        if counts_for(countersign, method, step, "")
        for named in countersign.entry.body["saw"]
    }
    for entry in recorded.log.of("deviation"):
        body = entry.body
        here = body["passes_hold"] and (body["method"], body["step"]) == (method.id, step.id)
        if not here or not recorded.pinned.answers(method.id, body["digest"], step.id):
            continue
        if step.hold_countersign == "" or entry.hash in signed:
            yield entry


def _is_met(card: Card, own_method: str, need: str) -> bool:
    """`step` needs it done or not applicable; `step@moment` an unaborted run begun there that has it.

    `method/step` is another method's step, and is open while that method is not pinned.
    """
    place, at, moment = need.partition("@")
    other, slash, step_id = place.rpartition("/")
    method_id = other if slash else own_method
    if slash and method_id not in card.recorded.pinned.by_id:
        return False
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
    for method, step in card.recorded.pinned.steps():
        yield from _value_findings(card.recorded, method, step)


def _value_findings(recorded: Recorded, method: MethodDoc, step: StepDoc) -> Iterator[Finding]:
    for ask in asks_asked(recorded.registers, method.id, step):
        for key in ask_registers(method.id, step.id, ask):
            register = recorded.registers.get(key)
            if register and register.answer:
                fault = value_fault(register.answer, ask, method, recorded)
                if fault:
                    yield finding(fault, register_place(key), [register.answer.hash])
