"""A measured figure beside its floor and what is allowed, and the line that says so."""

from __future__ import annotations

from dataclasses import dataclass, field
from statistics import median


@dataclass(frozen=True)
class Figure:
    """`ratio` is judged against `allowed`; `remarks` are lines that explain it."""

    name: str
    measured: str
    floor: str
    ratio: float
    allowed: float
    remarks: tuple[str, ...] = field(default=())

    @property
    def met(self) -> bool:
        """Whether the ratio is within what is allowed."""
        return self.ratio <= self.allowed

    def lines(self) -> list[str]:
        """One line of figures and verdict, and one for each remark."""
        distance = abs(self.ratio - self.allowed) / self.allowed
        verdict = f"met, {distance:.0%} below" if self.met else f"MISSED by {distance:.0%}"
        line = (
            f"{self.name}: {self.measured}; floor {self.floor}; "
            f"ratio {self.ratio:.2f}, allowed {self.allowed:.2f}: {verdict}"
        )
        return [line, *(f"    {remark}" for remark in self.remarks)]


def spread_ms(times_ms: list[float]) -> str:
    """Median, quickest and slowest."""
    return f"{median(times_ms):.1f} ms (of {len(times_ms)}: {min(times_ms):.1f} to {max(times_ms):.1f})"
