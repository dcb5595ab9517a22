"""What an answer is made of: figures as whole numbers of a unit, lines as codes with figures, a verdict."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Verdict = Literal["inside", "outside", "none"]
Tone = Literal["note", "ask", "stop"]


@dataclass(frozen=True, slots=True)
class Value:
    """One figure: `value` in `unit` / 10^decimals, as a result entry carries it."""

    name: str
    value: int
    unit: str
    decimals: int


@dataclass(frozen=True, slots=True)
class Line:
    """One thing to say: a code, what it is about, and its figures.

    `note` explains. `ask` wants a person's decision with a reason. `stop` says why the verdict is outside.
    """

    code: str
    tone: Tone = "note"
    at: tuple[str, ...] = ()
    values: tuple[Value, ...] = ()


@dataclass(frozen=True, slots=True)
class Answer:
    """What a computation gives; `sources` are codes of where its rules come from."""

    model: str
    values: tuple[Value, ...]
    verdict: Verdict
    lines: tuple[Line, ...] = ()
    sources: tuple[str, ...] = ()

    @property
    def asks(self) -> bool:
        """Whether a person has to decide, though nothing is over a limit."""
        return any(line.tone == "ask" for line in self.lines)


def verdict_of(lines: Iterable[Line]) -> Verdict:
    """Outside where a line says why."""
    return "outside" if any(line.tone == "stop" for line in lines) else "inside"


class Unanswerable(ValueError):
    """An input that no computation may answer for: its name, and the code of what is wrong with it."""

    def __init__(self, field: str, code: str) -> None:
        super().__init__(f"{field}: {code}")
        self.field = field
        self.code = code
