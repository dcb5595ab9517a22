"""Pick list: rivets of each diameter and length, spares, and the next size for worn holes.

Rounded up line by line in decimals (common practice, no source): 50 with a tenth to spare is 5 spares, not 6.
Model "pick-1".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal
from typing import Final

from bayleaf.fastening.lengths import exact

MODEL: Final = "pick-1"


@dataclass(frozen=True, slots=True)
class SpareRule:
    """Shares of the count to take as spares and in the next size up, and the least of either."""

    spare_fraction: float = 0.10
    oversize_fraction: float = 0.05
    least_spares: int = 2


@dataclass(frozen=True, slots=True)
class Need:
    """So many rivets of one diameter and length, mm."""

    diameter_mm: float
    length_mm: float
    count: int


@dataclass(frozen=True, slots=True)
class Pick:
    """What to take for one line."""

    counted: int
    spares: int
    oversize_to_pick: int

    @property
    def nominal_to_pick(self) -> int:
        return self.counted + self.spares


def pick(counted: int, rule: SpareRule) -> Pick:
    """Spares and larger ones for a line; a line with no rivet needs none."""
    if counted == 0:
        return Pick(0, 0, 0)
    spares, oversize = (
        max(_share_of(counted, share), rule.least_spares)
        for share in (rule.spare_fraction, rule.oversize_fraction)
    )
    return Pick(counted, spares, oversize)


def lines_of(needs: Sequence[Need]) -> list[Need]:
    """One line per diameter and length, in order of first mention: another grip is another line."""
    counts: dict[tuple[float, float], int] = {}
    for need in needs:
        key = (need.diameter_mm, need.length_mm)
        counts[key] = counts.get(key, 0) + need.count
    return [Need(diameter, length, count) for (diameter, length), count in counts.items()]


def next_size_mm(diameter_mm: float, sizes_kept_mm: Sequence[float]) -> float | None:
    """The smallest size kept over a diameter, mm, for holes that are worn; None if there is none."""
    return min((size for size in sizes_kept_mm if size > diameter_mm), default=None)


def _share_of(count: int, fraction: float) -> int:
    return int((Decimal(count) * exact(fraction)).to_integral_value(ROUND_CEILING))
