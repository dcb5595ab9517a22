"""The tally: the furthest state of each (position, generation), rivet marks, counts and pieces.

Entries state a rivet's state, never a step forward, so the maximum along the one ladder decides; of
several entries at that state the greatest (at_ms, hash) is named. Generation 0 is the rivet found on the
car, 1 the first one set. An open lost outranks the state in the count.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from bayleaf.domain.entries import Entry
from bayleaf.domain.fold.log import Log
from bayleaf.domain.fold.registers import order
from bayleaf.domain.fold.revisions import Pinned
from bayleaf.domain.method import LADDER, PIECES, TAKING_OUT
from bayleaf.domain.state import MarkState, PieceCounts, Pieces, PositionState

_RANK: Final = {state: rank for rank, state in enumerate(LADDER)}
_IN_PLACE: Final = _RANK["in_place"]


@dataclass(frozen=True, slots=True)
class Position:
    """What is recorded of one position: all entries, the deciding one of each generation, and the marks."""

    entries: tuple[Entry, ...]
    deciding: Mapping[int, Entry]
    marks: tuple[Entry, ...]
    found: frozenset[str]
    highest: int

    @property
    def open_losts(self) -> list[Entry]:
        """The marks lost that no mark found names."""
        return [m for m in self.marks if m.body["mark"] == "lost" and m.hash not in self.found]

    def state(self, generation: int) -> str:
        """The furthest state of a generation, or "" where none is recorded."""
        entry = self.deciding.get(generation)
        return entry.body["state"] if entry else ""


Tally = Mapping[str, Position]
Ladder = Literal["", "taking_out", "setting"]
UNTOUCHED: Final = Position((), {}, (), frozenset(), 0)


def read_tally(log: Log) -> dict[str, Position]:
    """Every position that an unstruck entry names."""
    by_position: defaultdict[str, list[Entry]] = defaultdict(list)
    for entry in log.of("tally"):
        by_position[entry.body["position"]].append(entry)
    return {position: _position(entries) for position, entries in by_position.items()}


def _position(entries: Sequence[Entry]) -> Position:
    deciding: dict[int, Entry] = {}
    marks: list[Entry] = []
    highest = 0
    for entry in entries:
        generation = entry.body["generation"]
        highest = max(highest, generation)
        if "mark" in entry.body:
            marks.append(entry)
            continue
        best = deciding.get(generation)
        deciding[generation] = entry if best is None else max(best, entry, key=_further)
    marks.sort(key=lambda mark: mark.hash)
    losts = {mark.hash for mark in marks if mark.body["mark"] == "lost"}
    found = frozenset(m.body["lost"] for m in marks if m.body["mark"] == "found" and m.body["lost"] in losts)
    return Position(tuple(entries), deciding, tuple(marks), found, highest)


def _further(entry: Entry) -> tuple[int, int, str]:
    return (_RANK[entry.body["state"]], *order(entry))


def reaches(position: Position, to: str) -> bool:
    """Whether a position answers a tally ask: nothing lost there, and far enough along the ladder.

    A state of taking out (in place and beyond) is reached by any generation. A state of setting is
    reached while the newest rivet, which must be one that was set, stands between it and `in_place`.
    """
    if position.open_losts:
        return False
    if to in TAKING_OUT:
        return any(_RANK[entry.body["state"]] >= _RANK[to] for entry in position.deciding.values())
    newest = position.deciding.get(position.highest)
    return position.highest >= 1 and newest is not None and _RANK[to] <= _rank(newest) <= _IN_PLACE


def _rank(entry: Entry) -> int:
    return _RANK[entry.body["state"]]


def ladder_to(state: str) -> Ladder:
    """The half of the ladder that is climbed to a state."""
    return "taking_out" if state in TAKING_OUT else "setting"


def is_counted(generation: int, ladder: Ladder) -> bool:
    """Whether a rivet belongs to a count: taking out counts those found on the car, setting the others."""
    return ladder == "" or (generation == 0) == (ladder == "taking_out")


def reconciliation_inputs(tally: Tally, positions: Iterable[str], ladder: Ladder = "") -> list[str]:
    """What a reconciliation of these positions rests on: the deciding entry of every rivet that the ladder
    counts, and their marks. Without a ladder it is every rivet.
    """
    hashes: set[str] = set()
    for name in positions:
        position = tally.get(name, UNTOUCHED)
        rests_on = [*position.deciding.values(), *position.marks]
        hashes.update(one.hash for one in rests_on if is_counted(one.body["generation"], ladder))
    return sorted(hashes)


def position_states(tally: Tally, pinned: Pinned) -> list[PositionState]:
    """A row for each position of the pinned methods' groups, in their order; its first group counts."""
    group_of: dict[str, str] = {}
    for _, method in pinned.docs:
        for group in method.groups:
            for name in group.positions:
                group_of.setdefault(name, group.id)
    return [_position_state(name, group, tally.get(name, UNTOUCHED)) for name, group in group_of.items()]


def _position_state(name: str, group: str, position: Position) -> PositionState:
    deciding = position.deciding.get(position.highest)
    state = position.state(position.highest)
    return {
        "position": name,
        "group": group,
        "generation": position.highest,
        "state": state,
        "deciding": deciding.hash if deciding else "",
        "marks": [_mark_state(mark, position) for mark in position.marks],
        "place": "lost" if position.open_losts else state or "untouched",
    }


def _mark_state(mark: Entry, position: Position) -> MarkState:
    word = mark.body["mark"]
    is_open = word == "damaged_hole" or (word == "lost" and mark.hash not in position.found)
    return {"hash": mark.hash, "mark": word, "piece": mark.body["piece"], "open": is_open}


def counts_of(positions: Iterable[PositionState]) -> dict[str, int]:
    """How many positions stand in each place; the places that occur, summing to the positions."""
    return dict(Counter(position["place"] for position in positions))


def pieces_of(tally: Tally) -> Pieces:
    """The pieces that the rivets taken out owe, and those that are lost; listed positions or not."""
    out = sum(e.body["state"] == "shank_out" for p in tally.values() for e in p.deciding.values())
    lost = Counter(mark.body["piece"] for position in tally.values() for mark in position.open_losts)
    return {"owed": _each(dict.fromkeys(PIECES, out)), "lost": _each(lost)}


def _each(counts: Mapping[str, int]) -> PieceCounts:
    return {
        "head": counts.get("head", 0),
        "mandrel": counts.get("mandrel", 0),
        "shank": counts.get("shank", 0),
    }
