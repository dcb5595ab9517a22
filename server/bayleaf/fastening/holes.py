"""Measured holes: size and ovality, and what to do: use it, open it, next size, or ask the maker.

A hole that became enlarged, deformed or damaged is drilled for the next larger rivet, if edge distance
and spacing stay above their minimums (FAA AC 43.13-1B, paragraph 4-57 b). How size, ovality and the
hole's range decide is common practice, no source; the method's or the maker's figures stand above it.
Model "hole-1".
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from bayleaf.fastening.lengths import exact, hundredths, times_mm
from bayleaf.fastening.refusal import Refused
from bayleaf.fastening.rivet_rows import hole_range_mm

MODEL: Final = "hole-1"
SLIP: Final = (0.5, 2.0)  # a hole under half or over twice its nominal is a slip of unit or decimal point
Decision = Literal["reuse", "open_to_nominal", "next_size", "ask_maker"]


@dataclass(frozen=True, slots=True)
class HoleRules:
    """What decides; `hole_ranges_mm` are the maker's own holes per nominal diameter."""

    ovality_limit_mm: float = 0.1
    sizes_up_allowed: int = 1
    edge_diameters: float = 2.0
    pitch_diameters: float = 3.0
    sizes_kept_mm: tuple[float, ...] = ()
    hole_ranges_mm: Mapping[float, tuple[float, float]] = field(default_factory=dict)

    def hole_mm(self, nominal_mm: float) -> tuple[float, float]:
        return self.hole_ranges_mm.get(nominal_mm) or hole_range_mm(nominal_mm)


@dataclass(frozen=True, slots=True)
class Hole:
    """One hole: two diameters at right angles, and the room round it (None where nobody measured it)."""

    nominal_mm: float
    largest_mm: float
    smallest_mm: float
    edge_mm: float | None = None
    pitch_mm: float | None = None

    @property
    def ovality_mm(self) -> float:
        return float(exact(self.largest_mm) - exact(self.smallest_mm))


@dataclass(frozen=True, slots=True)
class HoleDecision:
    """What to do with a hole.

    The rivet is None where no size is left, the drill where none is needed.
    """

    decision: Decision
    rivet_mm: float | None
    drill_to_mm: float | None
    reason: str


def decide(hole: Hole, rules: HoleRules) -> HoleDecision:
    """Decides by the rules; everything in mm, compared in hundredths, a value on a limit is good.

    1. Largest diameter over the nominal's range, or too oval and over the range's lower end: up, at most
    the allowed number of sizes, to the first whose range reaches the largest diameter. There the edge
    distance and pitch must do, and either its lower end takes the ovality out or the hole was round
    enough. 2. Smallest under the range: open to nominal. 3. Else use it. Refused: a slip of unit, sides
    swapped, not above zero.
    """
    _refuse_slips(hole)
    low, high = rules.hole_mm(hole.nominal_mm)
    if _is_over(hole.largest_mm, high) or (_is_oval(hole, rules) and _is_over(hole.largest_mm, low)):
        return _go_up(hole, rules)
    if _is_over(low, hole.smallest_mm):
        return HoleDecision("open_to_nominal", hole.nominal_mm, _drill(low, hole), "smaller than its range")
    return HoleDecision("reuse", hole.nominal_mm, None, "inside its range")


def _go_up(hole: Hole, rules: HoleRules) -> HoleDecision:
    sizes = sorted({size for size in rules.sizes_kept_mm if size > hole.nominal_mm})
    larger = sizes[: rules.sizes_up_allowed]
    size = next((one for one in larger if not _is_over(hole.largest_mm, rules.hole_mm(one)[1])), None)
    if size is None:
        why = "larger than the next size allows" if larger else "no larger rivet is kept"
        return HoleDecision("ask_maker", None, None, why)
    lacking = _no_room_for(size, hole, rules)
    if lacking:
        return HoleDecision("ask_maker", size, None, lacking)
    low = rules.hole_mm(size)[0]
    if _is_oval(hole, rules) and _is_over(hole.largest_mm, low):
        return HoleDecision("ask_maker", size, None, "the next size would still be oval")
    return HoleDecision("next_size", size, _drill(low, hole), "too large or too oval for its own size")


def _no_room_for(size_mm: float, hole: Hole, rules: HoleRules) -> str:
    if hole.edge_mm is None or hole.pitch_mm is None:
        return "edge distance and pitch are not known: measure them before going up a size"
    if _is_over(times_mm(rules.edge_diameters, size_mm), hole.edge_mm):
        return "edge distance too small for the next size"
    if _is_over(times_mm(rules.pitch_diameters, size_mm), hole.pitch_mm):
        return "pitch too small for the next size"
    return ""


def _drill(to_mm: float, hole: Hole) -> float | None:
    return None if _is_over(hole.largest_mm, to_mm) else to_mm


def _is_oval(hole: Hole, rules: HoleRules) -> bool:
    return _is_over(hole.ovality_mm, rules.ovality_limit_mm)


def _is_over(length_mm: float, limit_mm: float) -> bool:
    return hundredths(length_mm) > hundredths(limit_mm)


def _refuse_slips(hole: Hole) -> None:
    low, high = (times_mm(share, hole.nominal_mm) for share in SLIP)
    for name, found in (("measured_max_mm", hole.largest_mm), ("measured_min_mm", hole.smallest_mm)):
        if not low <= found <= high:
            allowed = f"{low} to {high} mm, half to twice the nominal: a slip of unit or decimal point?"
            raise Refused(name, f"{found} mm", allowed)
    if hole.smallest_mm > hole.largest_mm:
        raise Refused(
            "measured_min_mm", f"{hole.smallest_mm} mm", f"at most measured_max_mm, {hole.largest_mm} mm"
        )
