"""The one exception of this package, and the ranges outside which a formula is not asked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


class Refused(ValueError):
    """Names the field, what was found, and what is allowed and why; `shown` are figures that help."""

    def __init__(
        self, field: str, found: object, allowed: str, shown: Mapping[str, Any] | None = None
    ) -> None:
        super().__init__(f"{field}: found {found}; allowed: {allowed}")
        self.field = field
        self.found = found
        self.allowed = allowed
        self.shown: dict[str, Any] = dict(shown or {})


@dataclass(frozen=True, slots=True)
class Range:
    """What a formula may be asked, limits included (`above` excludes the lower one), and why."""

    low: float
    high: float
    unit: str
    why: str
    above: bool = False

    def refuse_outside(self, field: str, found: float) -> None:
        if not self.low <= found <= self.high or (self.above and found == self.low):
            raise Refused(field, f"{found} {self.unit}", str(self))

    def __str__(self) -> str:
        first = f"above {self.low:g} up to" if self.above else f"{self.low:g} to"
        return f"{first} {self.high:g} {self.unit}: {self.why}"
