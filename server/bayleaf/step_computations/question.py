"""A question of a step: the computation's inputs by name, and the things of the method that it is about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from bayleaf.step_computations.inputs import Input, Points, Quantity, Word
from bayleaf.step_computations.shapes import Unanswerable

Kind = TypeVar("Kind")


@dataclass(frozen=True, slots=True)
class Group:
    """A group of rivets with its positions."""

    id: str
    positions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Place:
    """A named point with its nominal place, mm."""

    id: str
    at_mm: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Question:
    """All that an answer rests on. An input that was not asked is not in `inputs`."""

    computation: str
    inputs: Mapping[str, Input]
    groups: tuple[Group, ...] = ()
    places: tuple[Place, ...] = ()
    settings: Mapping[str, Quantity] = field(default_factory=dict)
    facts: Mapping[str, Quantity] = field(default_factory=dict)
    damaged: tuple[str, ...] = ()
    asked_at_ms: int = 0
    log: tuple[tuple[int, int], ...] = ()
    """(at_ms, value) of every reading of `coldest` since the start, in order, in that input's scale."""

    def find(self, name: str, kind: type[Kind]) -> Kind | None:
        """The input of that name and kind, or None where there is none."""
        found = self.inputs.get(name)
        return found if isinstance(found, kind) else None

    def want(self, name: str, kind: type[Kind]) -> Kind:
        """The same; Unanswerable where it is not there or is something else."""
        found = self.find(name, kind)
        if found is None:
            raise Unanswerable(name, "not_there")
        return found

    def quantity(self, name: str) -> Quantity:
        return self.want(name, Quantity)

    def points(self, name: str) -> Points:
        found = self.want(name, Points)
        if not found.at:
            raise Unanswerable(name, "not_there")
        return found

    def word(self, name: str) -> str:
        """A word of the method, with blanks for its underscores; "" where it says none."""
        found = self.find(name, Word)
        return "" if found is None else found.text.replace("_", " ")
