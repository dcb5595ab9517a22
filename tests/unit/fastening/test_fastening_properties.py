"""Fastening: monotone where a law is, symmetric where nature is, blind to binary fractions."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bayleaf.fastening.bits import holes_per_bit
from bayleaf.fastening.edges import (
    LayerRule,
    against_minimum,
    edge_by_layer,
    pitch_by_layer,
    rule_for,
    to_polyline_mm,
    worst,
)
from bayleaf.fastening.galvanic import GROUPS, pair, rivet_pairing
from bayleaf.fastening.grip import Grip, Layer, Offered, grip_of, lengths_for, rivets_for
from bayleaf.fastening.holes import Hole, HoleRules, decide
from bayleaf.fastening.pattern import Position, pattern_faults
from bayleaf.fastening.pick_list import Need, SpareRule, lines_of, pick
from bayleaf.fastening.pieces import KINDS, PieceEvent, count_pieces, story_of
from bayleaf.fastening.refusal import Refused
from bayleaf.fastening.rivet_rows import RivetRow, rows_15981
from bayleaf.fastening.trial_rivets import TrialRivet, TrialRule, trial_faults
from bayleaf.fastening.vin import CHECK_PLACE, VALUES, check_digit, check_vin

calm = settings(derandomize=True, max_examples=50, deadline=None)
HUNDREDTHS = st.integers(0, 2600).map(lambda hundredths: hundredths / 100)
DIAMETERS = st.sampled_from([2.4, 3.0, 3.2, 4.0, 4.8, 5.0, 6.4])
SIZES = (3.2, 4.0, 4.8, 5.0, 6.0, 6.4)
MATERIALS = st.sampled_from(sorted(GROUPS))
VINS = st.text(sorted(VALUES), min_size=17, max_size=17)


@calm
@given(DIAMETERS, HUNDREDTHS, HUNDREDTHS)
def test_a_length_holds_a_grip_exactly_when_its_row_holds_both_ends(d: float, a: float, b: float) -> None:
    low, high = sorted((a, b))
    rows = rows_15981(d)
    rows_touched = [row for row in rows if high >= row.grip_min_mm and low <= row.grip_max_mm]
    if not rows_touched:
        with pytest.raises(Refused) as refused:
            lengths_for(Grip((low + high) / 2, low, high), rows)
        assert refused.value.shown["allowed_range_mm"] == [rows[0].grip_min_mm, rows[-1].grip_max_mm]
        return
    found = lengths_for(Grip((low + high) / 2, low, high), rows)
    wanted = tuple(row.length_mm for row in rows if row.grip_min_mm <= low and high <= row.grip_max_mm)
    assert found.lengths_mm == wanted
    assert found.needs_measuring is (not wanted)


@calm
@given(st.lists(st.integers(1, 500), min_size=1, max_size=6))
def test_a_stack_up_adds_as_on_paper_in_any_order(hundredths: list[int]) -> None:
    layers = [Layer("l", one / 100, 0.05) for one in hundredths]
    grip = grip_of(layers)
    assert grip.grip_mm == sum(hundredths) / 100
    assert grip_of(layers[::-1]) == grip
    assert grip.low_mm <= grip.grip_mm <= grip.high_mm


def test_a_tolerance_that_spans_two_rows_gives_no_length_and_asks() -> None:
    grip = grip_of([Layer("laminate", 3.0, 0.2), Layer("bondline", 1.0, 0.3), Layer("sheet", 2.0, 0.05)])
    found = lengths_for(grip, rows_15981(4.8))
    assert (found.lengths_mm, found.needs_measuring, found.asks) == ((), True, True)


def test_rows_and_not_the_span_decide_where_a_table_has_a_hole() -> None:
    rows = (RivetRow(8, 2, 4), RivetRow(12, 6, 8))
    with pytest.raises(Refused, match="inside a row"):
        lengths_for(Grip(5, 5, 5), rows)


def test_a_diameter_without_a_table_is_refused_with_those_that_have_one() -> None:
    with pytest.raises(Refused, match=r"one of 2.4, 3.0, 3.2, 4.0, 4.8, 5.0, 6.4 mm"):
        rows_15981(7.0)


def test_offered_rivets_that_do_not_fit_are_refused_with_their_ranges() -> None:
    with pytest.raises(Refused, match="A 2 to 4 mm"):
        rivets_for(5, [Offered("A", 2, 4)])


@calm
@given(DIAMETERS, HUNDREDTHS, st.sampled_from([2.0, 2.5, 3.0, 4.0]), st.integers(0, 500))
def test_more_room_never_turns_a_good_distance_bad(d: float, found: float, factor: float, more: int) -> None:
    here, there = against_minimum(found, d, factor), against_minimum(found + more / 100, d, factor)
    assert there.good or not here.good
    assert here.good is (here.short_by_mm == 0)


@calm
@given(st.lists(st.tuples(st.integers(-100, 100), st.integers(-100, 100)), min_size=2, max_size=6))
def test_an_edge_reads_the_same_from_both_ends_and_is_never_farther_than_its_corners(
    corners: list[tuple[int, int]],
) -> None:
    edge = [(float(x), float(y)) for x, y in corners]
    here = (7.0, -3.0)
    found = to_polyline_mm(here, edge)
    assert found == pytest.approx(to_polyline_mm(here, edge[::-1]))
    assert found <= min(math.dist(here, corner) for corner in edge) + 1e-9


def test_the_worst_layer_counts_and_the_makers_figure_overrides() -> None:
    rules = {"outer": rule_for("carbon laminate"), "inner": rule_for("aluminium")}
    by_layer = edge_by_layer({"outer": 12.0, "inner": 12.0}, 4.8, rules)
    assert (worst(by_layer).layer, worst(by_layer).distance.good) == ("outer", False)
    maker = {"outer": rule_for("carbon laminate", LayerRule(2.5, 3.0, "the maker"))}
    assert edge_by_layer({"outer": 12.0}, 4.8, maker)[0].distance.good
    assert [one.distance.good for one in pitch_by_layer(19.0, 4.8, rules)] == [False, True]


def test_a_material_without_a_rule_is_refused() -> None:
    with pytest.raises(Refused, match="aluminium, carbon laminate"):
        rule_for("steel")


def test_after_a_larger_size_the_neighbours_are_checked_again() -> None:
    row = [Position("1", (0, 10), 4.8), Position("2", (15, 10), 4.8), Position("3", (30, 10), 4.8)]
    edge = [(0.0, 0.0), (30.0, 0.0)]
    assert pattern_faults(row, edge, 2, 3) == []
    row[1] = Position("2", (15, 10), 6.0)
    faults = pattern_faults(row, edge, 2, 3)
    assert [(one.first, one.second) for one in faults] == [("1", "2"), ("2", "edge"), ("2", "3")]


@calm
@given(st.integers(240, 960), st.integers(0, 40), st.integers(0, 3))
def test_a_hole_is_only_used_inside_its_range_and_only_led_to_a_size_that_is_kept(
    big: int, oval: int, steps: int
) -> None:
    hole = Hole(4.8, big / 100, max(240, big - oval) / 100, 50, 50)
    found = decide(hole, HoleRules(sizes_kept_mm=SIZES, sizes_up_allowed=steps))
    if found.decision == "reuse":
        assert hole.smallest_mm >= 4.9
        assert hole.largest_mm <= 5.0
    if found.decision == "next_size":
        assert found.rivet_mm in [size for size in SIZES if size > 4.8][:steps]
        assert found.rivet_mm is not None
        assert hole.largest_mm <= found.rivet_mm + 0.2 + 1e-9


@pytest.mark.parametrize("known", [(None, 25.0), (14.0, None)])
def test_no_larger_size_where_edge_or_pitch_is_not_known(known: tuple[float | None, float | None]) -> None:
    found = decide(Hole(4.8, 5.05, 5.0, *known), HoleRules(sizes_kept_mm=SIZES))
    assert (found.decision, "not known" in found.reason) == ("ask_maker", True)


def test_the_makers_own_hole_range_overrides() -> None:
    rules = HoleRules(sizes_kept_mm=SIZES, hole_ranges_mm={4.8: (4.85, 5.1)})
    assert decide(Hole(4.8, 5.1, 5.05), rules).decision == "reuse"
    assert decide(Hole(4.8, 5.1, 5.05, 20, 40), HoleRules(sizes_kept_mm=SIZES)).decision == "next_size"


@calm
@given(MATERIALS, MATERIALS)
def test_a_pair_is_the_same_from_both_sides_and_nothing_corrodes_against_itself(a: str, b: str) -> None:
    one, other = pair(a, b), pair(b, a)
    assert (one.groups_apart, one.caution, one.anode) == (other.groups_apart, other.caution, other.anode)
    assert pair(a, a).caution == "none"


@calm
@given(MATERIALS, st.lists(MATERIALS, min_size=1, max_size=4))
def test_keeping_a_joint_dry_never_makes_a_contact_worse(rivet: str, layers: list[str]) -> None:
    order = ["none", "mild", "moderate", "strong"]
    wet, dry = rivet_pairing(rivet, layers, wet=True), rivet_pairing(rivet, layers, wet=False)
    for a, b in zip(wet.contacts, dry.contacts, strict=True):
        assert order.index(b.counts_as) <= order.index(a.counts_as)
    assert wet.needs_maker is dry.needs_maker


def test_a_glass_ply_parts_the_layers_but_not_the_rivet_that_goes_through() -> None:
    touching = rivet_pairing("titanium", ["carbon laminate", "aluminium"])
    parted = rivet_pairing("titanium", ["carbon laminate", "glass ply", "aluminium"])
    assert [one.first for one in touching.contacts] == ["rivet", "rivet", "carbon laminate"]
    assert [one.first for one in parted.contacts] == ["rivet", "rivet"]
    assert rivet_pairing("aluminium", ["carbon laminate", "glass ply", "aluminium"], wet=False).needs_maker


def test_an_unknown_material_is_refused_with_the_known_ones() -> None:
    with pytest.raises(Refused, match="stainless steel, steel, titanium"):
        pair("bronze", "steel")


@calm
@given(st.integers(0, 40), st.lists(st.integers(0, 40), min_size=3, max_size=3))
def test_a_surplus_of_one_kind_never_cancels_a_loss_of_another(removed: int, taken: list[int]) -> None:
    found = count_pieces(40, removed, dict(zip(KINDS, taken, strict=True)))
    assert found.hold is any(count < removed for count in taken)
    assert set(found.missing) & set(found.surplus) == set()
    assert found.complete is (removed == 40 and taken == [40, 40, 40])


def test_a_second_piece_of_a_position_stays_missing_when_the_first_is_found() -> None:
    events = [
        PieceEvent("12", "not found", "shank"),
        PieceEvent("12", "not found", "head"),
        PieceEvent("12", "found", "head"),
    ]
    assert story_of(events).held_positions == ["12"]


@calm
@given(st.integers(0, 200), st.integers(1, 50), st.sets(st.integers(1, 200), max_size=6))
def test_every_hole_was_drilled_by_one_bit(holes: int, limit: int, changes: set[int]) -> None:
    marks = sorted(change for change in changes if change <= holes)
    used = holes_per_bit(holes, limit, marks)
    assert sum(used.holes_per_bit) == holes
    assert used.bits_over_limit == [n for n, count in enumerate(used.holes_per_bit, 1) if count > limit]


@pytest.mark.parametrize("changes", [[20, 20], [30, 20], [0], [60]])
def test_bit_changes_out_of_order_are_refused(changes: list[int]) -> None:
    with pytest.raises(Refused, match="changed_after_hole"):
        holes_per_bit(50, 20, changes)


@calm
@given(st.integers(1, 500), st.integers(0, 100))
def test_spares_are_the_share_rounded_up_once(count: int, percent: int) -> None:
    found = pick(count, SpareRule(percent / 100, 0, 0))
    assert found.spares == -(-count * percent // 100)


@calm
@given(st.lists(st.tuples(st.sampled_from([4.0, 4.8]), st.sampled_from([10, 12]), st.integers(0, 9))))
def test_a_pick_list_loses_no_rivet(needs: list[tuple[float, int, int]]) -> None:
    lines = lines_of([Need(*one) for one in needs])
    assert sum(line.count for line in lines) == sum(count for _, _, count in needs)
    assert len({(line.diameter_mm, line.length_mm) for line in lines}) == len(lines)


def test_two_good_trials_one_cut_open_let_a_length_be_used() -> None:
    good = TrialRivet(0.0, mandrel_locked_inside=True, cut_open=False)
    opened = TrialRivet(0.05, mandrel_locked_inside=True, cut_open=True, blind_head_formed=True)
    assert trial_faults([good, opened], TrialRule()) == []
    assert trial_faults([good], TrialRule()) == [
        "1 trials made, 2 are asked for",
        "0 cut open, 1 is asked for",
    ]
    loose = TrialRivet(0.2, mandrel_locked_inside=False, cut_open=True)
    assert len(trial_faults([loose, opened], TrialRule())) == 3


@calm
@given(VINS, st.integers(0, 16), st.sampled_from(sorted(VALUES)))
def test_one_wrong_character_is_caught_unless_it_has_the_same_value(vin: str, place: int, other: str) -> None:
    good = vin[: CHECK_PLACE - 1] + check_digit(vin) + vin[CHECK_PLACE:]
    if place == CHECK_PLACE - 1 or other == good[place]:
        return
    mistaken = good[:place] + other + good[place + 1 :]
    assert check_vin(good).check_digit_right
    assert check_vin(mistaken).check_digit_right is (VALUES[other] == VALUES[good[place]])


@calm
@given(st.text(max_size=30))
def test_any_text_is_taken_as_a_vin_with_a_remark(typed: str) -> None:
    found = check_vin(typed)
    assert found.remarks
    assert found.well_formed is (found.check_digit is not None)
