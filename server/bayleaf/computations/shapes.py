"""What a computation is as a document: its fields, its alternatives, its answer and its sources."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

Schema = dict[str, Any]
Inputs = Mapping[str, Any]
FIRST = "The vehicle maker's instruction and the product's data sheet come first."
DIALECT = "https://json-schema.org/draft/2020-12/schema"


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a computation found: figures by name, their band where they have one, remarks for a person."""

    result: dict[str, Any]
    band: dict[str, Any] = field(default_factory=dict)
    remarks: tuple[str, ...] = ()
    model: str = ""


@dataclass(frozen=True, slots=True)
class Computation:
    """One computation: `asks` must be there, `may` can be; of `one_of` exactly one set of fields."""

    name: str
    about: str
    model: str
    sources: tuple[str, ...]
    answer: Callable[[Inputs], Outcome]
    asks: Mapping[str, Schema] = field(default_factory=dict)
    may: Mapping[str, Schema] = field(default_factory=dict)
    one_of: tuple[tuple[str, ...], ...] = ()

    def schema(self) -> Schema:
        """The published JSON Schema of the asking document."""
        schema: Schema = {
            "$schema": DIALECT,
            "title": self.name,
            "description": self.about,
            "type": "object",
            "properties": {**self.asks, **self.may},
            "required": list(self.asks),
            "additionalProperties": False,
        }
        if self.one_of:
            schema["oneOf"] = [self._alternative(names) for names in self.one_of]
        return schema

    def defaults(self) -> dict[str, Any]:
        return {name: one["default"] for name, one in self.may.items() if "default" in one}

    def _alternative(self, names: tuple[str, ...]) -> Schema:
        others = sorted({one for every in self.one_of for one in every} - set(names))
        alternative: Schema = {"required": list(names)}
        if others:
            alternative["not"] = {"anyOf": [{"required": [one]} for one in others]}
        return alternative


Book = Mapping[str, Computation]


def book_of(*groups: tuple[Computation, ...]) -> Book:
    """Computations by name, in the order given."""
    return {one.name: one for group in groups for one in group}
