"""A read method file as the checks walk it: what is malformed is passed over."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from .faults import Fault, Path, shown
from .tree import Source, label

Row = dict[str, Any]


@dataclass(frozen=True)
class Book:
    """The values of a file, with the paths whose form is broken."""

    source: Source
    broken: frozenset[Path] = field(default_factory=frozenset)

    def at(self, path: Path) -> Any:
        """The value at a path; None where the file has none."""
        here = self.source.values
        for part in path:
            try:
                here = here[part]
            except (KeyError, IndexError, TypeError):
                return None
        return here

    def rows(self, path: Path) -> Iterator[tuple[Path, Row]]:
        """Each mapping of the list at a path, with its own path."""
        found = self.at(path)
        for number, row in enumerate(found if isinstance(found, list) else []):
            if isinstance(row, dict):
                yield (*path, number), row

    def words(self, path: Path) -> Iterator[tuple[Path, str]]:
        """Each well-formed word of the list at a path, with its own path."""
        found = self.at(path)
        for number, word in enumerate(found if isinstance(found, list) else []):
            if isinstance(word, str) and (*path, number) not in self.broken:
                yield (*path, number), word

    def word(self, path: Path) -> str | None:
        """The well-formed word at a path."""
        found = self.at(path)
        return found if isinstance(found, str) and path not in self.broken else None

    def ids(self, path: Path) -> list[str]:
        """The ids of the rows at a path, in order."""
        return [row["id"] for _, row in self.rows(path) if isinstance(row.get("id"), str)]

    def steps(self, method: Path) -> Iterator[tuple[Path, Row]]:
        """Each step of a method, in method order."""
        for stage, _ in self.rows((*method, "stages")):
            yield from self.rows((*stage, "steps"))

    def step_ids(self, method: Path) -> list[str]:
        return [row["id"] for _, row in self.steps(method) if isinstance(row.get("id"), str)]

    def fault(self, path: Path, found: str, allowed: str) -> Fault:
        return Fault(self.source.line(path), label(self.source.values, path), found, allowed)

    def unknown(self, path: Path, word: str, what: str, known: list[str]) -> Fault:
        """A word that names nothing in this file, with the words that would."""
        names = ", ".join(known) or f"none: the file has no {what}"
        return self.fault(path, f"{shown(word)}, which is no {what} of this file", f"known: {names}")
