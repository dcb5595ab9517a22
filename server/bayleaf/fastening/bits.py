"""Drill bits: how many holes each one drilled, against its limit. Counting only. Model "bits-1"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from bayleaf.fastening.refusal import Refused

MODEL: Final = "bits-1"


@dataclass(frozen=True, slots=True)
class BitUse:
    """Holes per bit in the order of use.

    Bits over their limit by number from 1; the fewest that would do.
    """

    holes_per_bit: list[int]
    bits_over_limit: list[int]
    bits_needed_at_least: int


def holes_per_bit(holes_drilled: int, limit_per_bit: int, changed_after_hole: Sequence[int]) -> BitUse:
    """The limit itself is allowed. Refused: changes that are not in rising order inside the holes."""
    marks = [0, *changed_after_hole, holes_drilled]
    if any(later <= earlier for earlier, later in pairwise(marks[:-1])):
        raise Refused(
            "changed_after_hole", list(changed_after_hole), "holes counted from 1, each after the last"
        )
    if changed_after_hole and changed_after_hole[-1] > holes_drilled:
        allowed = f"at most {holes_drilled}, the holes drilled"
        raise Refused("changed_after_hole", changed_after_hole[-1], allowed)
    counted = [later - earlier for earlier, later in pairwise(marks)]
    over = [number for number, holes in enumerate(counted, 1) if holes > limit_per_bit]
    return BitUse(counted, over, -(-holes_drilled // limit_per_bit))
