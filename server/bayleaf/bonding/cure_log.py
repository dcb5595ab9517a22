"""Equivalent time of a temperature log: exact on every straight stretch, holes and cold counting nothing.

Samples are (minute, C), straight between them; two at one minute are a step. An interval longer than
allowed is a gap: nobody measured it (common practice, no source). Time under the sheet's minimum counts
nothing (common practice, no source); an interval that crosses it is cut there.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from bayleaf.bonding.rate_laws import RateLaw
from bayleaf.bonding.refusal import Refused
from bayleaf.bonding.units import scaled

FEWEST_SAMPLES: Final = 2
Sample = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Stretch:
    """A straight piece of a log: minutes and C at both ends."""

    start_min: float
    end_min: float
    start_C: float
    end_C: float

    @property
    def minutes(self) -> float:
        return self.end_min - self.start_min

    def at_C(self, minute: float) -> float:
        share = (minute - self.start_min) / self.minutes
        return self.start_C + share * (self.end_C - self.start_C)

    def between(self, start_min: float, end_min: float) -> Stretch:
        return Stretch(start_min, end_min, self.at_C(start_min), self.at_C(end_min))


@dataclass(frozen=True, slots=True)
class CountRule:
    """What does not count: intervals longer than this, temperatures under this. None: all counts."""

    longest_interval_min: float | None = None
    minimum_C: float | None = None


@dataclass(frozen=True, slots=True)
class Counted:
    """Equivalent time, never more than it was: the lower bound takes each interval at its colder end."""

    equivalent_min: float
    lower_bound_min: float
    below_minimum_min: float
    gaps_min: tuple[tuple[float, float], ...]
    bridged_min: float


def count_log(samples: Sequence[Sample], law: RateLaw, rule: CountRule) -> Counted:
    """Counts a log under a law and a rule; minutes. Refused: minutes that go back, fewer than two samples."""
    counted = count_stretches(kept_stretches(samples, rule), law, rule.minimum_C)
    bridged_min, _, _ = count_stretches(stretches(samples), law, rule.minimum_C)
    return Counted(*counted, gaps_of(samples, rule), bridged_min)


def stretches(samples: Sequence[Sample], field: str = "samples_min_C") -> list[Stretch]:
    """The straight pieces between samples; steps have none of their own."""
    if len(samples) < FEWEST_SAMPLES:
        raise Refused(field, f"{len(samples)} sample", "two samples or more: one has no duration")
    pieces = [Stretch(t0, t1, a, b) for (t0, a), (t1, b) in pairwise(samples)]
    for one in pieces:
        if one.minutes < 0:
            found = f"minute {one.end_min} after minute {one.start_min}"
            raise Refused(field, found, "minutes that never go back (equal ones are a step)")
    return [one for one in pieces if one.minutes > 0]


def kept_stretches(samples: Sequence[Sample], rule: CountRule) -> list[Stretch]:
    """The stretches of a log that are no gaps."""
    return [one for one in stretches(samples) if not _is_gap(one, rule)]


def gaps_of(samples: Sequence[Sample], rule: CountRule) -> tuple[tuple[float, float], ...]:
    """Start and end of each gap, minutes."""
    return tuple((one.start_min, one.end_min) for one in stretches(samples) if _is_gap(one, rule))


def count_stretches(
    pieces: Iterable[Stretch], law: RateLaw, minimum_C: float | None
) -> tuple[float, float, float]:
    """Equivalent minutes, their lower bound, and the minutes under the minimum."""
    equivalent = lower = below = 0.0
    for piece in pieces:
        warm = piece if minimum_C is None else warm_part(piece, minimum_C)
        below += piece.minutes - (warm.minutes if warm else 0.0)
        if warm:
            equivalent += warm.minutes * law.mean_rate(warm.start_C, warm.end_C)
            lower += warm.minutes * law.rate(min(warm.start_C, warm.end_C))
    return equivalent, lower, below


def warm_part(piece: Stretch, minimum_C: float) -> Stretch | None:
    """The part of a stretch at or above a temperature; None if there is none."""
    if min(piece.start_C, piece.end_C) >= minimum_C:
        return piece
    if max(piece.start_C, piece.end_C) < minimum_C:
        return None
    crossing = piece.start_min + piece.minutes * (minimum_C - piece.start_C) / (piece.end_C - piece.start_C)
    if piece.start_C >= minimum_C:
        return Stretch(piece.start_min, crossing, piece.start_C, minimum_C)
    return Stretch(crossing, piece.end_min, minimum_C, piece.end_C)


def cool_part(piece: Stretch, maximum_C: float) -> Stretch | None:
    """The part of a stretch at or below a temperature; None if there is none."""
    mirrored = Stretch(piece.start_min, piece.end_min, -piece.start_C, -piece.end_C)
    part = warm_part(mirrored, -maximum_C)
    return part and Stretch(part.start_min, part.end_min, -part.start_C, -part.end_C)


def _is_gap(piece: Stretch, rule: CountRule) -> bool:
    longest = rule.longest_interval_min
    return longest is not None and scaled(piece.minutes) > scaled(longest)
