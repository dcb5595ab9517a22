"""Standing conditions: on or off by the last done step in method order, or by a run that is not yet cold.

Only a tick `done` sets or clears; `not applicable` does neither. Steps of all pinned methods are read in
order, and within one step clearing comes after setting. A run is hot from its `on` until its `cold`,
aborted or not. Who looked and found that a condition is gone changes none of this: it is a finding.
"""

from collections.abc import Iterator

from bayleaf.domain.findings import Finding, finding
from bayleaf.domain.fold.answers import Card
from bayleaf.domain.fold.registers import Registers
from bayleaf.domain.fold.steps import done
from bayleaf.domain.method import Condition, StepDoc
from bayleaf.domain.state import ConditionState


def condition_states(card: Card) -> list[ConditionState]:
    """A row for every condition of the pinned methods, in their order; one id is one condition."""
    conditions: dict[str, Condition] = {}
    for _, method in card.recorded.pinned.docs:
        for condition in method.conditions:
            conditions.setdefault(condition.id, condition)
    done_steps = list(_done_steps(card))
    return [_state(condition, done_steps, card) for condition in conditions.values()]


def _done_steps(card: Card) -> Iterator[tuple[StepDoc, str]]:
    """The steps whose tick stands as done, with the tick's hash, in order."""
    for method, step in card.recorded.pinned.steps():
        if done(card, method.id, step.id) == "done":
            shown = card.recorded.registers[("tick", method.id, step.id, "", "")].shown
            yield step, shown.hash if shown else ""


def _state(condition: Condition, done_steps: list[tuple[StepDoc, str]], card: Card) -> ConditionState:
    register = card.recorded.registers.get(("condition", "", "", "", condition.id))
    asked = register.shown.hash if register and register.shown else ""
    if condition.set_by == "heat_run":
        hot = sorted(key for key, run in card.runs.items() if not run.has("cold"))
        return {"id": condition.id, "on": bool(hot), "by": hot, "asked": asked}
    deciding = [
        (step, tick) for step, tick in done_steps if condition.id in step.sets or condition.id in step.clears
    ]
    if not deciding:
        return {"id": condition.id, "on": False, "by": [], "asked": asked}
    step, tick = deciding[-1]
    return {"id": condition.id, "on": condition.id not in step.clears, "by": [tick], "asked": asked}


def condition_findings(registers: Registers) -> Iterator[Finding]:
    """Conditions, of a pinned method or not, that whoever looked last found gone."""
    for (kind, _, _, _, condition), register in registers.items():
        if kind == "condition" and register.shown and not register.shown.body["holds"]:
            yield finding("condition_gone", [condition], [register.shown.hash])
