"""Grip: from the measured stack-up, with its tolerance, to the rivet lengths that hold it.

Rows decide, one by one; the span of the whole table decides nothing. A length must hold the whole
interval of the grip (common practice, no source), limits included. Model "grip-1".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from bayleaf.fastening.lengths import exact, hundredths, total_mm
from bayleaf.fastening.refusal import Refused
from bayleaf.fastening.rivet_rows import RivetRow, span_mm

MODEL: Final = "grip-1"


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of a stack-up, bondline and sealant included, with how far its thickness may be off."""

    layer: str
    thickness_mm: float
    tolerance_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Grip:
    """Clamped thickness: as measured, and the interval that its tolerance leaves open. All in mm."""

    grip_mm: float
    low_mm: float
    high_mm: float


@dataclass(frozen=True, slots=True)
class LengthChoice:
    """The lengths that hold the whole grip; what to ask for if that is not exactly one."""

    lengths_mm: tuple[float, ...]
    on_border: bool
    needs_measuring: bool

    @property
    def asks(self) -> bool:
        """Whether a person has to decide: on a border, no single length, or more than one."""
        return self.on_border or self.needs_measuring or len(self.lengths_mm) != 1


@dataclass(frozen=True, slots=True)
class Offered:
    """One rivet of a supplier's sheet, whose ranges may overlap those of its neighbours."""

    part: str
    grip_min_mm: float
    grip_max_mm: float


def grip_of(stack_up: Sequence[Layer]) -> Grip:
    """Adds the layers; tolerances add in full, as the worst stack does."""
    if not stack_up:
        raise Refused("stack_up_mm", "no layer", "at least one layer: no stack-up is not a grip of zero")
    grip = total_mm(layer.thickness_mm for layer in stack_up)
    off = exact(total_mm(layer.tolerance_mm for layer in stack_up))
    return Grip(grip, float(max(exact(grip) - off, Decimal(0))), float(exact(grip) + off))


def lengths_for(grip: Grip, rows: Sequence[RivetRow]) -> LengthChoice:
    """The rows that hold the grip from its low to its high end.

    Refused, with the range of the table, where no part of the grip lies in any row: a thicker rivet is
    no way out of thin sheet. Where only parts of it do, no length is given and measuring is asked for.
    """
    if hundredths(grip.low_mm) > hundredths(grip.high_mm):
        raise Refused("grip_low_mm", grip.low_mm, f"at most grip_high_mm, {grip.high_mm} mm")
    if not any(_touches(row, grip) for row in rows):
        _refuse(grip, rows)
    fitting = tuple(row.length_mm for row in rows if row.holds(grip.low_mm, grip.high_mm))
    borders = any(row.ends_at(grip.grip_mm) for row in rows)
    return LengthChoice(fitting, on_border=borders, needs_measuring=not fitting)


def rivets_for(grip_mm: float, offered: Sequence[Offered]) -> dict[str, float]:
    """The offered rivets that hold a grip, each with its room to the nearer end of its range, mm.

    In the order offered. Refused, with all ranges, where none does.
    """
    room = {one.part: _room_mm(one, grip_mm) for one in offered}
    fitting = {part: float(mm) for part, mm in room.items() if mm >= 0}
    if not fitting:
        ranges = "; ".join(f"{one.part} {one.grip_min_mm} to {one.grip_max_mm} mm" for one in offered)
        raise Refused("grip_mm", grip_mm, f"a grip that one of them holds: {ranges}", {"fits": []})
    return fitting


def most_room(room_mm: dict[str, float]) -> str:
    """The rivet with the most room; of equals the one offered first (common practice, no source)."""
    return max(room_mm, key=room_mm.__getitem__)


def _touches(row: RivetRow, grip: Grip) -> bool:
    lowest, highest = hundredths(row.grip_min_mm), hundredths(row.grip_max_mm)
    return lowest <= hundredths(grip.high_mm) and hundredths(grip.low_mm) <= highest


def _room_mm(one: Offered, grip_mm: float) -> Decimal:
    grip = exact(grip_mm)
    return min(grip - exact(one.grip_min_mm), exact(one.grip_max_mm) - grip)


def _refuse(grip: Grip, rows: Sequence[RivetRow]) -> None:
    lowest, highest = span_mm(tuple(rows))
    is_one = grip.low_mm == grip.high_mm
    found = grip.grip_mm if is_one else f"{grip.low_mm} to {grip.high_mm}"
    raise Refused(
        "grip_mm",
        f"{found} mm",
        f"{lowest} to {highest} mm, and inside a row: no rivet of this table holds it",
        {
            "lengths_that_fit_mm": [],
            "allowed_range_mm": [lowest, highest],
            **({} if is_one else {"needs_measuring": True}),
        },
    )
