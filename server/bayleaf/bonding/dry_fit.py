"""The dry fit and the body: gaps, steps and datum points against the tolerances that the method gives.

Compared in hundredths of a millimetre; a value on a limit is good. Model "dry-fit-1".
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from bayleaf.bonding.refusal import Refused
from bayleaf.bonding.units import difference, scaled

MODEL: Final = "dry-fit-1"
_HUNDREDTHS: Final = 2


@dataclass(frozen=True, slots=True)
class FitPoint:
    """A point of the dry fit: gap along the surface, step across it (signed, new part proud is plus); mm."""

    point: str
    gap_mm: float
    step_mm: float


@dataclass(frozen=True, slots=True)
class FitRule:
    """The gap asked for with its tolerance, and the largest step; mm."""

    gap_mm: float
    gap_tolerance_mm: float
    step_tolerance_mm: float


@dataclass(frozen=True, slots=True)
class FitVerdict:
    """How a point stands; how far over its tolerance, mm, 0 if inside."""

    point: str
    gap_over_mm: float
    step_over_mm: float

    @property
    def good(self) -> bool:
        return self.gap_over_mm == 0 and self.step_over_mm == 0


@dataclass(frozen=True, slots=True)
class BodyVerdict:
    """The largest deviation of a datum point, and the difference of the aperture's diagonals; mm."""

    largest_at: str
    largest_mm: float
    points_over: tuple[str, ...]
    diagonal_difference_mm: float
    diagonals_good: bool

    @property
    def good(self) -> bool:
        return not self.points_over and self.diagonals_good


def judge_fit(points: Sequence[FitPoint], rule: FitRule) -> list[FitVerdict]:
    """Every point against the rule, in order."""
    return [
        FitVerdict(
            one.point,
            _over_mm(difference(one.gap_mm, rule.gap_mm), rule.gap_tolerance_mm),
            _over_mm(one.step_mm, rule.step_tolerance_mm),
        )
        for one in points
    ]


def judge_body(
    deviations_mm: Mapping[str, float], diagonals_mm: tuple[float, float], limits_mm: tuple[float, float]
) -> BodyVerdict:
    """Datum deviations and both diagonals against (datum limit, diagonal difference limit)."""
    if not deviations_mm:
        raise Refused("deviations_mm", "none", "at least one datum point")
    datum_limit, diagonal_limit = limits_mm
    largest = max(deviations_mm, key=lambda name: abs(deviations_mm[name]))
    apart = abs(difference(*diagonals_mm))
    over = tuple(name for name, mm in deviations_mm.items() if _over_mm(mm, datum_limit))
    return BodyVerdict(largest, abs(deviations_mm[largest]), over, apart, not _over_mm(apart, diagonal_limit))


def _over_mm(found_mm: float, tolerance_mm: float) -> float:
    if scaled(abs(found_mm), _HUNDREDTHS) <= scaled(tolerance_mm, _HUNDREDTHS):
        return 0.0
    return difference(abs(found_mm), tolerance_mm)
