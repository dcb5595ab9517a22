"""What is wrong with a zone, readings or an answer asked for: sentences for the person who can mend them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Fault:
    """One fault: the field, what was found, and what is allowed."""

    field: str
    message: str

    def __str__(self) -> str:
        return f"{self.field}: {self.message}"


class ZoneFault(Exception):
    """A zone document that cannot be planned, with every fault found."""

    def __init__(self, faults: list[Fault]) -> None:
        super().__init__("; ".join(str(fault) for fault in faults))
        self.faults = faults
