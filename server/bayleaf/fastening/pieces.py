"""Pieces in the tray against positions taken out, and the story of one that was lost and found.

Each kind of piece by itself: a surplus head never cancels a lost shank. A sign-off passes the hold and
does not make the piece found; both facts stay. Counting only. Model "pieces-1".
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from bayleaf.fastening.refusal import Refused

MODEL: Final = "pieces-1"
KINDS: Final = ("head", "mandrel", "shank")


@dataclass(frozen=True, slots=True)
class PiecesAgainstPositions:
    """What is missing or too many of each kind, at the positions that are marked as taken out."""

    missing: dict[str, int]
    surplus: dict[str, int]
    outstanding_positions: int

    @property
    def hold(self) -> bool:
        return bool(self.missing)

    @property
    def complete(self) -> bool:
        """A surplus is not complete either: a position is missing on the map, or a piece counted twice."""
        return not self.missing and not self.surplus and not self.outstanding_positions


@dataclass(frozen=True, slots=True)
class PieceEvent:
    """What happened to one kind of piece at a position, or that its loss was signed off there."""

    position: str
    what: Literal["not found", "found", "signed off"]
    piece: str = ""


@dataclass(frozen=True, slots=True)
class PieceStory:
    """Where the events leave the positions; each list in order of first mention."""

    missing_positions: list[str]
    held_positions: list[str]
    signed_off_positions: list[str]


def count_pieces(positions: int, removed: int, taken: Mapping[str, int]) -> PiecesAgainstPositions:
    """Counts each kind against the positions marked as taken out; the others are outstanding, not lost."""
    if removed > positions:
        raise Refused("positions_removed", removed, f"0 to {positions}, the positions there are")
    return PiecesAgainstPositions(
        missing={kind: removed - taken[kind] for kind in KINDS if taken[kind] < removed},
        surplus={kind: taken[kind] - removed for kind in KINDS if taken[kind] > removed},
        outstanding_positions=positions - removed,
    )


def story_of(events: Sequence[PieceEvent]) -> PieceStory:
    """Follows the events in their order; a piece found takes its position off the missing ones.

    A sign-off covers what is lost at its position by then; a piece that is lost later holds again.
    """
    passed: dict[tuple[str, str], bool] = {}
    signed: dict[str, None] = {}
    for event in events:
        match event.what:
            case "not found":
                passed.setdefault((event.position, event.piece), False)
            case "found":
                passed.pop((event.position, event.piece), None)
            case "signed off":
                signed[event.position] = None
                passed |= {lost: True for lost in passed if lost[0] == event.position}
    missing = dict.fromkeys(position for position, _ in passed)
    held = dict.fromkeys(position for (position, _), is_passed in passed.items() if not is_passed)
    return PieceStory(list(missing), list(held), list(signed))
