"""Where a deed is done: the job so far, the scenario, and the step with its place in every body."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from bayleaf.demo_scenario.bodies import Shot
from bayleaf.demo_scenario.deeds import Scenario
from bayleaf.demo_scenario.memory import Memory
from bayleaf.domain.asks import Ask
from bayleaf.domain.fold import fold
from bayleaf.domain.method import MethodDoc, StepDoc
from bayleaf.domain.state import CardState
from bayleaf.step_computations.plans import ZonePlan
from bayleaf.step_computations.sheets import MaterialSheet

A = TypeVar("A")


@dataclass(frozen=True)
class Stage:
    """One step of one job while it is played."""

    memory: Memory
    scenario: Scenario
    methods: Mapping[str, MethodDoc]
    shot: Callable[[str, str, str], Shot]
    method: MethodDoc
    step: StepDoc
    digest: str
    plans: Sequence[ZonePlan] = ()
    """The heat plans that the office pinned."""
    sheets: Sequence[MaterialSheet] = ()
    """The suppliers' sheets in use."""

    @property
    def place(self) -> dict[str, str]:
        """What every entry about the step names."""
        return {"method": self.method.id, "digest": self.digest, "step": self.step.id}

    def at(self, step_id: str) -> Stage:
        """The same at another step, for deeds that are about that one."""
        if step_id in ("", self.step.id):
            return self
        method, step, digest = step_of(self.methods, step_id)
        return replace(self, method=method, step=step, digest=digest)

    def ask(self, ask_id: str) -> Ask:
        """An ask of the step."""
        found = self.step.ask(ask_id)
        if found is None:
            raise LookupError(f"{self.step.id}.{ask_id}: the method has no such ask")
        return found

    def ask_of(self, ask_id: str, kind: type[A]) -> A:
        """An ask of the step, of that kind."""
        found = self.ask(ask_id)
        if isinstance(found, kind):
            return found
        raise LookupError(f"{self.step.id}.{ask_id}: is no {kind.__name__}")

    def state(self) -> CardState:
        """The card as it stands by now."""
        return fold(self.methods, self.memory.entries)


def step_of(methods: Mapping[str, MethodDoc], step_id: str) -> tuple[MethodDoc, StepDoc, str]:
    """The method that has this step, the step, and the method's digest."""
    for digest, method in methods.items():
        step = method.step(step_id)
        if step is not None:
            return method, step, digest
    raise LookupError(f"{step_id}: no method of this job has this step")
