"""A table of rivet rows as a sheet prints it: what cannot be right in it, and where its rows do not meet.

A longer rivet holds no thinner grip, and no rivet clamps its own length (common practice, no source). Rows
may overlap or leave a gap, as suppliers' tables do: then a grip there asks, or finds no rivet.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise
from typing import Literal

Member = Literal["length", "grip_from", "grip_to"]


@dataclass(frozen=True, slots=True)
class WrittenRow:
    """One length, and the smallest and largest grip that it is for; mm."""

    length_mm: Decimal
    from_mm: Decimal
    to_mm: Decimal


@dataclass(frozen=True, slots=True)
class Slip:
    """A row and the member of it that cannot be right: what was found, and what is needed."""

    row: int
    member: Member
    found: str
    needed: str


@dataclass(frozen=True, slots=True)
class Unmet:
    """A row that does not begin where the one before it ends: after a gap, or over part of it."""

    row: int
    what: Literal["gap", "overlap"]
    from_mm: Decimal
    to_mm: Decimal


def slips_in(rows: Sequence[WrittenRow]) -> Iterator[Slip]:
    """All of them, row by row: first each by itself, then against the row before it."""
    for at, row in enumerate(rows):
        yield from _alone(at, row)
    for at, (before, row) in enumerate(pairwise(rows), start=1):
        yield from _after(at, before, row)


def unmet_in(rows: Sequence[WrittenRow]) -> Iterator[Unmet]:
    """Neighbours that leave a gap or overlap, of rows without slips."""
    for at, (before, row) in enumerate(pairwise(rows), start=1):
        if row.from_mm > before.to_mm:
            yield Unmet(at, "gap", before.to_mm, row.from_mm)
        if row.from_mm < before.to_mm:
            yield Unmet(at, "overlap", row.from_mm, before.to_mm)


def _alone(at: int, row: WrittenRow) -> Iterator[Slip]:
    if row.to_mm < row.from_mm:
        yield Slip(at, "grip_to", f"{row.to_mm} mm", f"{row.from_mm} mm, where this row begins, or more")
    elif row.to_mm >= row.length_mm:
        needed = f"less than the rivet's own {row.length_mm} mm: no rivet clamps all of its length"
        yield Slip(at, "grip_to", f"{row.to_mm} mm", needed)


def _after(at: int, before: WrittenRow, row: WrittenRow) -> Iterator[Slip]:
    if row.length_mm == before.length_mm:
        yield Slip(at, "length", f"{row.length_mm} mm twice", "each length once")
    elif row.length_mm < before.length_mm:
        found = f"{row.length_mm} mm after {before.length_mm} mm"
        yield Slip(at, "length", found, "the shorter rivet first")
    elif row.from_mm < before.from_mm:
        yield _thinner(at, "grip_from", row.from_mm, before.from_mm)
    elif row.to_mm < before.to_mm:
        yield _thinner(at, "grip_to", row.to_mm, before.to_mm)


def _thinner(at: int, member: Member, found_mm: Decimal, before_mm: Decimal) -> Slip:
    needed = f"{before_mm} mm or more, as the shorter rivet before it has"
    return Slip(at, member, f"{found_mm} mm", needed)
