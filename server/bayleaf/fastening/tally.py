"""Reconciles the pieces of rivets that were taken out: each kind by itself, so that none hides another.

A blind rivet that is taken out leaves a head, a mandrel and a shank (names as in ISO 14588). Model
"tally-1". Counting only; no uncertainty.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal

MODEL: Final = "tally-1"
PIECES: Final = ("head", "mandrel", "shank")
# The states, in the order of taking out, at or past which each piece has left the joint.
_TAKING_OUT: Final = ("mandrel_out", "head_drilled", "head_off", "shank_out")
_RELEASED_AT: Final = {"head": "head_off", "mandrel": "mandrel_out", "shank": "shank_out"}


@dataclass(frozen=True, slots=True)
class Rivet:
    """One generation of one position: its furthest state, and its pieces that are lost and not found."""

    position: str
    generation: int
    state: str
    lost: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PieceCount:
    """Of one kind of piece: owed by rivets wholly out, taken (in the tray), lost, and taken - owed."""

    owed: int
    taken: int
    lost: int

    @property
    def difference(self) -> int:
        return self.taken - self.owed


@dataclass(frozen=True, slots=True)
class Reconciliation:
    """The count of each kind of piece, and the verdict over all of them."""

    pieces: dict[str, PieceCount]
    verdict: Literal["inside", "outside"]

    def figures(self) -> list[tuple[str, int]]:
        """The named figures of a result entry, in order head, mandrel, shank; unit `pieces`."""
        return [
            (f"{name}_{piece}", value)
            for piece, count in self.pieces.items()
            for name, value in (
                ("owed", count.owed),
                ("taken", count.taken),
                ("lost", count.lost),
                ("difference", count.difference),
            )
        ]


def tally_reconciliation(rivets: Iterable[Rivet]) -> Reconciliation:
    """Counts the pieces of the rivets, kind by kind.

    owed: rivets at shank_out. taken: rivets at or past the state that frees the piece, without an open
    lost of it. lost: open losts. The verdict is inside only if every kind has no difference and nothing
    lost, so a surplus of one kind, or of another rivet, never cancels a loss.
    """
    counted = tuple(rivets)
    pieces = {piece: _count(counted, piece) for piece in PIECES}
    inside = all(count.difference == 0 and count.lost == 0 for count in pieces.values())
    return Reconciliation(pieces, "inside" if inside else "outside")


def _count(rivets: tuple[Rivet, ...], piece: str) -> PieceCount:
    return PieceCount(
        owed=sum(rivet.state == "shank_out" for rivet in rivets),
        taken=sum(_is_released(rivet.state, piece) and piece not in rivet.lost for rivet in rivets),
        lost=sum(rivet.lost.count(piece) for rivet in rivets),
    )


def _is_released(state: str, piece: str) -> bool:
    if state not in _TAKING_OUT:
        return False
    return _TAKING_OUT.index(state) >= _TAKING_OUT.index(_RELEASED_AT[piece])
