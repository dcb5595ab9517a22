"""The record that a computation's inputs are looked up in: card state, its entries, the pinned methods."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from bayleaf.domain.asks import Ask, HeatAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.method import MethodDoc, StepDoc
from bayleaf.domain.state import CardState, RegisterState, StepState
from bayleaf.step_computations.plans import ZonePlan
from bayleaf.step_computations.sheets import MaterialSheet


@dataclass(frozen=True, slots=True)
class Found:
    """An ask where it stands."""

    method: MethodDoc
    step: StepDoc
    state: StepState
    ask: Ask

    @property
    def is_asked(self) -> bool:
        return self.ask.id not in self.state["not_asked"]


@dataclass(frozen=True, slots=True)
class Record:
    """Card state as the fold made it, every entry by its hash, and the pinned methods in their order.

    `sheets` are the suppliers' sheets in use, the newest of a material first; `plans` the pinned heat plans.
    """

    state: CardState
    entries: Mapping[str, Entry]
    methods: Sequence[MethodDoc]
    sheets: Sequence[MaterialSheet] = ()
    plans: Sequence[ZonePlan] = ()

    def find(self, method_id: str, step_id: str, ask_id: str) -> Found | None:
        """An ask of a pinned method; None where the method is not pinned or has no such ask."""
        method = next((one for one in self.methods if one.id == method_id), None)
        step = method.step(step_id) if method else None
        ask = step.ask(ask_id) if step else None
        state = next(
            (one for one in self.state["steps"] if (one["method"], one["step"]) == (method_id, step_id)), None
        )
        if method is None or step is None or ask is None or state is None:
            return None
        return Found(method, step, state, ask)

    def answer(self, kind: str, at: Found, point: str = "") -> Entry | None:
        """The value that answers an ask; one that was sent back answers nothing."""
        key = (kind, at.method.id, at.step.id, at.ask.id, point)
        register = next((one for one in self.state["registers"] if _key(one) == key), None)
        if register is None or register["shown"] in register["sent_back"]:
            return None
        return self.entries.get(register["shown"])

    def plan(self, method_id: str, zone: str) -> ZonePlan | None:
        """The heat plan that is pinned to a zone of a method."""
        return next((one for one in self.plans if (one.method, one.zone) == (method_id, zone)), None)

    def heat_asks(self) -> Iterable[HeatAsk]:
        """Asks that begin a heat run, in the methods' order."""
        for method in self.methods:
            for step in method.steps():
                for ask in step.asks:
                    if isinstance(ask, HeatAsk) and ask.continues is None:
                        yield ask


def _key(register: RegisterState) -> tuple[str, str, str, str, str]:
    return register["kind"], register["method"], register["step"], register["ask"], register["point"]
