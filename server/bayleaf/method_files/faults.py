"""A fault of a method file, as a sentence with its line; all of them are told at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

Path = tuple[str | int, ...]

SHOWN_LENGTH = 60


@dataclass(frozen=True, order=True)
class Fault:
    """Where a method file is wrong, what was found there, and what mends it."""

    line: int
    field: str
    found: str
    allowed: str

    def __str__(self) -> str:
        return f"line {self.line}: {self.field}: found {self.found}; {self.allowed}"


class MethodFileFault(Exception):
    """A method file that cannot be compiled; `faults` lists all that is wrong with it, by line."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = sorted(set(faults))
        super().__init__("\n".join(str(fault) for fault in self.faults))


def shown(value: object) -> str:
    """A value of the file as a sentence can quote it."""
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | Decimal):
        return str(value)
    if isinstance(value, str):
        return f'"{value}"' if len(value) <= SHOWN_LENGTH else f'"{value[:SHOWN_LENGTH]}..."'
    if isinstance(value, dict):
        return "a mapping"
    return "an empty list" if value == [] else "a list"
