"""Mismatch, fit, bead and clocks: symmetric where nature is, monotone, and careful at the rim."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from bayleaf.bonding.bead import bondline_mL, gap_verdict, mean_gap_mm, press, triangle_height_mm
from bayleaf.bonding.best_fit import best_fit
from bayleaf.bonding.burn import burn_row, can_burn
from bayleaf.bonding.cartridges import Cartridge, cartridges_for
from bayleaf.bonding.clocks import Stand, Window, read_clock
from bayleaf.bonding.dry_fit import FitPoint, FitRule, judge_body, judge_fit
from bayleaf.bonding.expansion import (
    Lamina,
    aluminium_6061,
    carbon_steel,
    laminate_per_K,
    quasi_isotropic_per_K,
)
from bayleaf.bonding.mismatch import ElasticJoint, Pairing, shear_lag, travel, upper_bound
from bayleaf.bonding.open_time import OpenTimeSheet, open_time_min, remaining_min, used_fraction
from bayleaf.bonding.refusal import Refused

calm = settings(derandomize=True, max_examples=50, deadline=None)
LENGTHS = st.floats(50, 3000)
JOINTS = st.builds(
    ElasticJoint,
    bondline_mm=st.floats(0.1, 3),
    shear_modulus_MPa=st.floats(0.5, 1200),
    metal_modulus_MPa=st.floats(60_000, 210_000),
    metal_mm=st.floats(0.8, 5),
    composite_modulus_MPa=st.floats(30_000, 120_000),
    composite_mm=st.floats(1, 8),
)
COORDINATES = st.integers(-1000, 1000).map(float)
POINTS = st.lists(st.tuples(COORDINATES, COORDINATES, COORDINATES), min_size=4, max_size=8, unique=True)
PLY = Lamina(181e3, 10.3e3, 0.28, 7.17e3, 0.02e-6, 22.5e-6)


@calm
@given(LENGTHS, JOINTS, st.floats(-60, 120))
def test_shear_lag_stays_under_the_upper_bound_and_turns_sign_with_the_change(
    length: float, joint: ElasticJoint, at_C: float
) -> None:
    pairing = Pairing(23.6e-6, 3e-6, length)
    found = shear_lag(pairing, 20, at_C, joint)
    bound = upper_bound(pairing, 20, at_C, joint.bondline_mm)
    mirrored = shear_lag(pairing, 20, 40 - at_C, joint)
    assert abs(found.end_strain) <= abs(bound.shear_strain) * (1 + 1e-12)
    assert 0 < found.share_of_upper_bound <= 1
    assert mirrored.end_strain == pytest.approx(-found.end_strain)


@calm
@given(LENGTHS, JOINTS)
def test_shear_lag_does_not_mind_which_part_is_named_first(length: float, joint: ElasticJoint) -> None:
    turned = ElasticJoint(
        joint.bondline_mm,
        joint.shear_modulus_MPa,
        joint.composite_modulus_MPa,
        joint.composite_mm,
        joint.metal_modulus_MPa,
        joint.metal_mm,
    )
    first = shear_lag(Pairing(23.6e-6, 3e-6, length), 20, 80, joint)
    second = shear_lag(Pairing(3e-6, 23.6e-6, length), 20, 80, turned)
    assert second.end_strain == pytest.approx(-first.end_strain)


@calm
@given(LENGTHS)
def test_equal_parts_do_not_strain_and_metres_are_a_thousand_millimetres(length: float) -> None:
    assert travel(Pairing(12e-6, 12e-6, length), -40, 80).differential_mm == 0
    in_mm = travel(Pairing(23e-6, 3e-6, length), -40, 80).differential_mm
    in_m = travel(Pairing(23e-6, 3e-6, length / 1000), -40, 80).differential_mm
    assert in_mm == pytest.approx(in_m * 1000)


def test_a_laminate_of_one_direction_is_its_ply_and_a_quasi_isotropic_one_has_no_direction() -> None:
    assert laminate_per_K(PLY, [0, 0]) == pytest.approx((0.02e-6, 22.5e-6), abs=1e-15)
    assert laminate_per_K(PLY, [90, 90]) == pytest.approx((22.5e-6, 0.02e-6), abs=1e-15)
    along, across = laminate_per_K(PLY, [0, 60, -60, -60, 60, 0])
    assert (along, across) == pytest.approx((quasi_isotropic_per_K(PLY),) * 2, abs=1e-15)


def test_a_stack_that_would_bend_is_refused() -> None:
    with pytest.raises(Refused, match="both faces"):
        laminate_per_K(PLY, [0, 45, 90])


@pytest.mark.parametrize(
    ("growth", "too_far_C"), [(aluminium_6061, 27), (carbon_steel, 19.9), (carbon_steel, 751)]
)
def test_a_polynomial_is_not_asked_beyond_its_range(growth: object, too_far_C: float) -> None:
    assert callable(growth)
    with pytest.raises(Refused, match="range of the"):
        growth(too_far_C)


@calm
@given(POINTS, st.tuples(*[st.floats(-3, 3)] * 3), st.tuples(COORDINATES, COORDINATES, COORDINATES))
def test_a_moved_part_is_found_again_by_two_roads_and_never_mirrored(
    points: list[tuple[float, float, float]],
    turn: tuple[float, float, float],
    shift: tuple[float, float, float],
) -> None:
    nominal = {str(n): point for n, point in enumerate(points)}
    spread = np.linalg.svd(np.array(points) - np.mean(points, axis=0), compute_uv=False)
    if spread[1] < 0.05 * spread[0] or spread[2] < 1e-3 * spread[0]:
        return
    R = Rotation.from_rotvec(turn)
    moved = R.apply(np.array(points)) + np.array(shift)
    found = best_fit(nominal, {str(n): tuple(at) for n, at in enumerate(moved.tolist())})
    by_scipy, _ = Rotation.align_vectors(
        moved - moved.mean(axis=0), np.array(points) - np.mean(points, axis=0)
    )
    assert found.rotation == pytest.approx(by_scipy.as_matrix(), abs=1e-7)
    assert found.determinant == pytest.approx(1)
    assert found.rms_mm < 1e-6
    assert found.angle_deg == pytest.approx(math.degrees(R.magnitude()), abs=1e-4)


@calm
@given(POINTS, st.integers(0, 7), st.floats(1, 20))
def test_the_fit_is_blind_to_order_and_its_residuals_add_to_nothing(
    points: list[tuple[float, float, float]], place: int, off: float
) -> None:
    nominal = {str(n): point for n, point in enumerate(points)}
    bent = str(place % len(points))
    measured = {n: (x, y, z + off if n == bent else z) for n, (x, y, z) in nominal.items()}
    try:
        found = best_fit(nominal, measured)
    except Refused:
        return
    turned = best_fit(dict(reversed(nominal.items())), measured)
    sums = np.array(list(found.residual_mm.values())).sum(axis=0)
    assert sums == pytest.approx([0, 0, 0], abs=1e-6)
    assert turned.rms_mm == pytest.approx(found.rms_mm, abs=1e-7)
    assert found.rms_mm <= off / math.sqrt(len(points)) + 1e-9


def test_points_near_a_line_are_warned_of_and_other_names_are_refused() -> None:
    near = {"a": (0.0, 0.0, 0.0), "b": (500.0, 8.0, 0.0), "c": (1000.0, 0.0, 0.0)}
    assert best_fit(near, near).near_a_line
    with pytest.raises(Refused, match="without a partner: d"):
        best_fit(near, {**near, "d": (1.0, 1.0, 1.0)})


def test_a_flat_part_is_never_called_a_mirror_image_but_a_deep_one_is() -> None:
    flat = {"a": (0.0, 0.0, 0.0), "b": (500.0, 0.0, 0.0), "c": (500.0, 300.0, 0.0), "d": (0.0, 300.0, 0.0)}
    assert not best_fit(flat, {name: (x, -y, z) for name, (x, y, z) in flat.items()}).mirrored
    deep = {**flat, "e": (100.0, 100.0, 200.0)}
    assert best_fit(deep, {name: (x, -y, z) for name, (x, y, z) in deep.items()}).mirrored


@calm
@given(st.floats(1, 200), st.floats(5, 60), st.floats(0.1, 3), st.floats(10, 3000))
def test_what_is_laid_is_what_fills_and_what_comes_out(
    section: float, width: float, bondline: float, length: float
) -> None:
    pressed = press(section, width, bondline, length)
    assert pressed.fills_flange is (pressed.missing_mL == 0)
    if pressed.fills_flange:
        out = pressed.bead_mL * pressed.squeeze_out_of_bead
        assert out + pressed.bondline_mL == pytest.approx(pressed.bead_mL, rel=1e-4)
    else:
        assert pressed.bead_mL + pressed.missing_mL == pytest.approx(pressed.bondline_mL)


@calm
@given(st.floats(0, 0.9))
def test_the_height_for_a_share_gives_that_share(share: float) -> None:
    height = triangle_height_mm(10, 25, 1.5, share)
    assert press(10 * height / 2, 25, 1.5, 1000).squeeze_out_of_bead == pytest.approx(share, abs=1e-9)


def test_stations_must_rise_and_an_even_gap_is_its_own_mean() -> None:
    assert mean_gap_mm([(0, 1.2), (300, 1.2), (1000, 1.2)]) == pytest.approx(1.2)
    assert bondline_mL([(0, 1.0), (1000, 1.0)], 30) == pytest.approx(30)
    with pytest.raises(Refused, match="places rise"):
        mean_gap_mm([(0, 1.0), (0, 1.2)])


@pytest.mark.parametrize(
    ("gap", "verdict"), [(0.79, "too_thin"), (0.8, "ok"), (2.0, "ok"), (2.01, "too_thick")]
)
def test_both_limits_of_a_bondline_are_good(gap: float, verdict: str) -> None:
    assert gap_verdict(gap, 0.8, 2.0) == verdict


@calm
@given(st.integers(0, 5000), st.integers(100, 4000), st.integers(0, 80), st.integers(1, 3))
def test_cartridges_are_enough_and_one_less_is_not(need: int, size: int, left: int, mixers: int) -> None:
    cartridge = Cartridge(size / 10, left / 10 / mixers, 0.5, mixers)
    try:
        wanted = cartridges_for(need / 10, cartridge)
    except Refused:
        return
    assert wanted.spare_mL >= 0
    assert wanted.spare_mL < wanted.usable_per_cartridge_mL
    assert wanted.mixers == wanted.cartridges * mixers


@calm
@given(st.floats(-20, 60), st.floats(0.1, 20))
def test_open_time_only_shortens_as_it_warms_and_never_passes_the_sheet(at: float, rise: float) -> None:
    for sheet in (OpenTimeSheet({23: 60}), OpenTimeSheet({15: 90, 23: 60, 30: 35})):
        here = open_time_min(sheet, at)
        assert open_time_min(sheet, at + rise) <= here <= max(sheet.minutes_by_C.values())


@calm
@given(st.lists(st.tuples(st.floats(0, 40), st.floats(5, 40)), max_size=6))
def test_used_open_time_does_not_mind_the_order_and_runs_out_at_nothing(
    steps: list[tuple[float, float]],
) -> None:
    sheet = OpenTimeSheet({23: 60})
    used = used_fraction(sheet, steps)
    assert used_fraction(sheet, steps[::-1]) == pytest.approx(used)
    assert remaining_min(sheet, used, 23) >= 0


def test_a_sheet_that_stays_open_longer_when_warmer_is_refused() -> None:
    with pytest.raises(Refused, match="no longer open when it is warmer"):
        OpenTimeSheet({15: 40, 23: 60})


@pytest.mark.parametrize(
    ("since", "step", "stand", "warns"),
    [
        (4.9, 0, Stand.TOO_EARLY, True),
        (5, 0, Stand.OPEN, False),
        (240, 0, Stand.OPEN, False),
        (230, 10, Stand.OPEN, False),
        (230, 10.1, Stand.OPEN, True),
        (240.1, 0, Stand.OVER, True),
    ],
)
def test_a_primer_is_ready_from_its_minimum_to_its_maximum(
    since: float, step: float, stand: Stand, warns: bool
) -> None:
    view = read_clock(Window(maximum_min=240, minimum_min=5), since, step)
    assert (view.stand, view.warns) == (stand, warns)


def test_a_clock_without_an_end_only_waits() -> None:
    view = read_clock(Window(None, 5), 500)
    assert (view.stand, view.minutes_left_min, view.warns) == (Stand.OPEN, None, False)


def test_gaps_and_steps_are_judged_in_hundredths_and_a_limit_is_good() -> None:
    rule = FitRule(gap_mm=4.0, gap_tolerance_mm=0.5, step_tolerance_mm=1.0)
    good, bad = judge_fit([FitPoint("g1", 4.5, -1.0), FitPoint("g2", 3.49, 1.2)], rule)
    assert good.good
    assert (bad.gap_over_mm, bad.step_over_mm) == (0.01, 0.2)


def test_the_largest_deviation_of_the_body_is_found_and_the_diagonals_compared() -> None:
    found = judge_body({"d1": 1.0, "d2": -3.1, "d3": 3.0}, (1502.0, 1500.0), (3.0, 2.0))
    assert (found.largest_at, found.largest_mm, found.points_over) == ("d2", 3.1, ("d2",))
    assert found.diagonals_good
    assert not found.good


@calm
@given(st.floats(0.1, 28_800), st.floats(0.1, 28_800), st.floats(20, 100))
def test_a_longer_touch_never_burns_less(a: float, b: float, surface: float) -> None:
    short, long = sorted((a, b))
    if can_burn(surface, burn_row(short, "bare metal")):
        assert can_burn(surface, burn_row(long, "bare metal"))
