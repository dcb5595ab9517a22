"""Findings of the tally: lost pieces, damaged holes, marks that name no lost, positions nobody knows."""

from collections.abc import Iterable, Iterator

from bayleaf.domain.entries import Entry
from bayleaf.domain.findings import Finding, finding
from bayleaf.domain.fold.revisions import Pinned
from bayleaf.domain.fold.tally import Position, Tally


def tally_findings(tally: Tally, pinned: Pinned) -> Iterator[Finding]:
    """All findings of all positions, listed in a method or not."""
    for name, position in tally.items():
        yield from _mark_findings(name, position)
        yield from _gaps(name, position)
    yield from _unknown_positions(tally, pinned)


def _mark_findings(name: str, position: Position) -> Iterator[Finding]:
    losts = {mark.hash for mark in position.marks if mark.body["mark"] == "lost"}
    for mark in position.marks:
        word = mark.body["mark"]
        if word == "damaged_hole":
            yield finding("damaged_hole", [name], [mark.hash])
        elif word == "lost" and mark.hash not in position.found:
            yield finding("lost_piece", [name], [mark.hash])
        elif word == "found" and mark.body["lost"] not in losts:
            yield finding("found_without_lost", [name], [mark.hash])


def _gaps(name: str, position: Position) -> Iterator[Finding]:
    """A second or later rivet set where the one before it was never recorded."""
    if position.highest <= 1:
        return
    generations = {entry.body["generation"] for entry in position.entries}
    for generation in generations:
        if generation > 1 and generation - 1 not in generations:
            yield finding("position_beyond", [name], _hashes(position.entries, generation))


def _hashes(entries: Iterable[Entry], generation: int) -> Iterator[str]:
    return (entry.hash for entry in entries if entry.body["generation"] == generation)


def _unknown_positions(tally: Tally, pinned: Pinned) -> Iterator[Finding]:
    """Judged only when a pin is shown and all its methods are held: a missing one may list the position."""
    if not pinned.digests or pinned.missing:
        return
    listed = {name for _, method in pinned.docs for group in method.groups for name in group.positions}
    for name in tally.keys() - listed:
        yield finding("unknown_position", [name], (entry.hash for entry in tally[name].entries))
