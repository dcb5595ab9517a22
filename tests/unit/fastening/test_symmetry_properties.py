"""Fastening from the other side, moved, with more room or less certainty: what must stay, stays."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bayleaf.fastening.grip import Grip, Layer, grip_of, lengths_for
from bayleaf.fastening.holes import Hole, HoleRules, decide
from bayleaf.fastening.pattern import Position, pattern_faults, pitch_of_pair
from bayleaf.fastening.pick_list import next_size_mm
from bayleaf.fastening.pieces import KINDS, PieceEvent, story_of
from bayleaf.fastening.refusal import Refused
from bayleaf.fastening.rivet_rows import rows_15981

calm = settings(derandomize=True, max_examples=40, deadline=None)
SIZES = (3.2, 4.0, 4.8, 5.0, 6.0, 6.4)
DIAMETERS = st.sampled_from(SIZES)
PLACES = st.lists(st.tuples(st.integers(0, 60), st.integers(0, 20)), min_size=2, max_size=6, unique=True)
EVENTS = st.lists(
    st.builds(
        PieceEvent,
        position=st.sampled_from(["1", "2"]),
        what=st.sampled_from(["not found", "found", "signed off"]),
        piece=st.sampled_from(KINDS),
    ),
    max_size=8,
)


@calm
@given(DIAMETERS, DIAMETERS, st.integers(500, 3000))
def test_a_pitch_does_not_mind_which_rivet_is_named_first(first: float, second: float, pitch: int) -> None:
    assert pitch_of_pair(first, second, pitch / 100, 3) == pitch_of_pair(second, first, pitch / 100, 3)


@calm
@given(PLACES, DIAMETERS, st.integers(-500, 500), st.integers(-500, 500))
def test_a_pattern_moved_as_a_whole_or_told_in_another_order_has_the_same_faults(
    places: list[tuple[int, int]], diameter: float, right: int, up: int
) -> None:
    row = [Position(str(n), place, diameter) for n, place in enumerate(places)]
    moved = [Position(one.name, (one.centre_mm[0] + right, one.centre_mm[1] + up), diameter) for one in row]
    edge = [(0.0, 0.0), (60.0, 0.0)]
    moved_edge = [(x + right, y + up) for x, y in edge]

    def pairs(positions: list[Position], along: list[tuple[float, float]]) -> set[frozenset[str]]:
        return {frozenset((one.first, one.second)) for one in pattern_faults(positions, along, 2, 3)}

    assert pairs(row, edge) == pairs(moved, moved_edge) == pairs(row[::-1], edge[::-1])


@calm
@given(st.integers(150, 2500), st.integers(0, 200), st.integers(0, 200))
def test_less_certainty_never_offers_another_length(hundredths: int, off: int, more: int) -> None:
    rows = rows_15981(4.8)
    sure, unsure = (grip_of([Layer("stack", hundredths / 100, t / 100)]) for t in (off, off + more))
    assert set(lengths_for(unsure, rows).lengths_mm) <= set(lengths_for(sure, rows).lengths_mm)


@calm
@given(st.integers(480, 700), st.integers(0, 40), st.integers(0, 60), st.integers(0, 3))
def test_more_room_round_a_hole_only_ever_helps(big: int, oval: int, tight: int, steps: int) -> None:
    rules = HoleRules(sizes_kept_mm=SIZES, sizes_up_allowed=steps)
    small = big - oval
    roomy = decide(Hole(4.8, big / 100, small / 100, 100, 100), rules)
    tighter = decide(Hole(4.8, big / 100, small / 100, 9 + tight / 10, 14 + tight / 10), rules)
    assert tighter.decision in (roomy.decision, "ask_maker")


@calm
@given(st.lists(DIAMETERS, max_size=8), st.integers(480, 560), st.integers(1, 3))
def test_the_shops_sizes_may_come_in_any_order_and_twice(kept: list[float], big: int, steps: int) -> None:
    hole = Hole(4.8, big / 100, (big - 4) / 100, 50, 50)
    told = decide(hole, HoleRules(sizes_kept_mm=tuple(kept), sizes_up_allowed=steps))
    tidy = decide(hole, HoleRules(sizes_kept_mm=tuple(sorted(set(kept))), sizes_up_allowed=steps))
    assert told == tidy
    assert next_size_mm(4.8, kept) == next((size for size in sorted(kept) if size > 4.8), None)


@calm
@given(EVENTS)
def test_a_sign_off_never_makes_a_piece_found_and_a_hold_is_only_of_what_is_missing(
    events: list[PieceEvent],
) -> None:
    story = story_of(events)
    unsigned = story_of([one for one in events if one.what != "signed off"])
    assert story.missing_positions == unsigned.missing_positions == unsigned.held_positions
    assert set(story.held_positions) <= set(story.missing_positions)
    assert set(story.missing_positions) - set(story.held_positions) <= set(story.signed_off_positions)


@calm
@given(EVENTS, EVENTS)
def test_what_happens_at_one_position_is_nothing_to_another(
    first: list[PieceEvent], second: list[PieceEvent]
) -> None:
    here = [PieceEvent("1", one.what, one.piece) for one in first]
    there = [PieceEvent("2", one.what, one.piece) for one in second]
    one_way, other_way = story_of(here + there), story_of(there + here)
    assert set(one_way.held_positions) == set(other_way.held_positions)
    assert set(one_way.missing_positions) == set(other_way.missing_positions)


def test_a_grip_under_or_over_all_rows_is_refused_with_their_range() -> None:
    for grip in (-1.0, 0.0, 1.49, 25.01):
        with pytest.raises(Refused, match=r"1.5 to 25.0 mm"):
            lengths_for(Grip(grip, grip, grip), rows_15981(4.8))
