"""The methods as a person holds them on paper: to know what a screen's words speak of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bayleaf.domain.asks import Ask
from bayleaf.domain.method import StepDoc
from harness.played import frame_methods


@dataclass(frozen=True)
class Paper:
    """The steps of a job in their order; a screen's number and an ask's name find them."""

    steps: Sequence[StepDoc]

    def step(self, number: int) -> StepDoc:
        return self.steps[number - 1]

    def number(self, step: str) -> int:
        return next(place for place, one in enumerate(self.steps, 1) if one.id == step)

    def ask(self, number: int, words: str) -> Ask:
        """The ask that a key names, whatever it writes large."""
        asks = self.step(number).asks
        found = [one for one in asks if one.name.lower() == words.lower()]
        assert found, f"step {number} asks for nothing called {words!r}: {[one.name for one in asks]}"
        return found[0]


def frame_paper() -> Paper:
    """Both methods of the frame half, the removal first."""
    return Paper([step for method in frame_methods().values() for step in method.steps()])
