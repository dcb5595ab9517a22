"""The same question in other units, from the other side or in parts has the same answer."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bayleaf.bonding.bead import bondline_mL, press
from bayleaf.bonding.best_fit import best_fit
from bayleaf.bonding.cartridges import Cartridge, cartridges_for
from bayleaf.bonding.cure_forecast import Warming, forecast
from bayleaf.bonding.cure_log import CountRule, count_log
from bayleaf.bonding.dry_fit import FitPoint, FitRule, judge_fit
from bayleaf.bonding.margin import trend
from bayleaf.bonding.mismatch import DoubleLap, ElasticJoint, Pairing, double_lap, shear_lag
from bayleaf.bonding.open_time import OpenTimeSheet, used_fraction
from bayleaf.bonding.rate_laws import arrhenius_of
from bayleaf.bonding.refusal import Refused
from bayleaf.computations import BONDING, answer_document

calm = settings(derandomize=True, max_examples=40, deadline=None)
LAW = arrhenius_of(60_000, 23)
WARM = {"activation_energy_J_per_mol": 60_000, "reference_temperature_C": 23}
MM_PER_INCH, MPA_PER_PSI = 25.4, 0.006894757293168  # NIST SP 811, appendix B
COORDINATES = st.integers(-900, 900).map(float)
PLACES = st.lists(st.tuples(COORDINATES, COORDINATES, COORDINATES), min_size=4, max_size=6, unique=True)


@calm
@given(st.lists(st.tuples(st.integers(0, 48), st.integers(0, 80)), min_size=1, max_size=5))
def test_hours_are_sixty_minutes(steps: list[tuple[int, int]]) -> None:
    in_h = answer_document(BONDING["cure-time"], {**WARM, "steps_h_C": [[h, at] for h, at in steps]})
    in_min = answer_document(BONDING["cure-time"], {**WARM, "steps_min_C": [[60 * h, at] for h, at in steps]})
    minutes = in_min["result"]["equivalent_time_min"]
    assert in_h["result"]["equivalent_age_h"] * 60 == pytest.approx(minutes, rel=1e-9)
    assert in_h["result"]["gaps_min"] == in_min["result"]["gaps_min"]


@calm
@given(st.integers(0, 5000), st.integers(1, 600))
def test_an_interval_of_exactly_the_limit_is_no_gap_wherever_the_clock_stands(start: int, long: int) -> None:
    """In tenths of a minute, as they are written: 18.6 - 3.6 is 15.0."""
    log = [(start / 10, 23.0), ((start + long) / 10, 23.0)]
    assert count_log(log, LAW, CountRule(long / 10)).gaps_min == ()
    assert count_log(log, LAW, CountRule((long - 1) / 10)).gaps_min == ((log[0][0], log[1][0]),)


@calm
@given(st.floats(1, 2000), st.floats(-5, 30), st.floats(0.1, 10), st.floats(35, 90))
def test_a_warmer_shop_never_waits_longer(needed: float, present: float, rise: float, heated: float) -> None:
    here = forecast(LAW, needed, 0, present, Warming(heated, minimum_C=10)).remaining_at_present_min
    there = forecast(LAW, needed, 0, present + rise, Warming(heated, minimum_C=10)).remaining_at_present_min
    assert (here is None) is (present < 10)
    assert here is None or (there is not None and there <= here)


@calm
@given(st.floats(1, 2000), st.floats(-5, 30), st.floats(35, 90))
def test_a_forecast_over_a_minimum_holds_when_it_is_played_through(
    needed: float, present: float, heated: float
) -> None:
    found = forecast(LAW, needed, 0, present, Warming(heated, 2, 4, minimum_C=10))
    up, down = (heated - present) / 2, (heated - present) / 4
    ends = np.cumsum([0, up, found.soak_min, down]).tolist()
    played = list(zip(ends, (present, heated, heated, present), strict=True))
    gained = count_log(played, LAW, CountRule(minimum_C=10)).equivalent_min
    assert gained >= needed * (1 - 1e-7)
    assert found.soak_min == 0 or gained == pytest.approx(needed)


@calm
@given(PLACES, PLACES)
def test_a_fit_from_the_other_side_turns_back_and_leaves_as_much(
    first: list[tuple[float, float, float]], second: list[tuple[float, float, float]]
) -> None:
    count = min(len(first), len(second))
    a, b = ({str(n): one[n] for n in range(count)} for one in (first, second))
    try:
        there, back = best_fit(a, b), best_fit(b, a)
    except Refused:
        return
    assert np.array(back.rotation) == pytest.approx(np.array(there.rotation).T, abs=1e-6)
    assert back.rms_mm == pytest.approx(there.rms_mm)
    in_m = [{name: (x / 1e3, y / 1e3, z / 1e3) for name, (x, y, z) in one.items()} for one in (a, b)]
    assert best_fit(*in_m).rms_mm * 1e3 == pytest.approx(there.rms_mm)


@calm
@given(st.floats(-3, 3), st.sampled_from([(0, 1), (1, 2), (2, 3), (0, 3)]))
def test_two_corners_of_a_square_exchanged_are_refused_however_it_stands(
    turn: float, exchanged: tuple[int, int]
) -> None:
    corners = [(300.0, 0.0, 0.0), (0.0, 300.0, 0.0), (-300.0, 0.0, 0.0), (0.0, -300.0, 0.0)]
    c, s = math.cos(turn), math.sin(turn)
    turned = [(c * x - s * y, s * x + c * y, z) for x, y, z in corners]
    one, other = exchanged
    turned[one], turned[other] = turned[other], turned[one]
    with pytest.raises(Refused, match="names exchanged"):
        best_fit({str(n): p for n, p in enumerate(corners)}, {str(n): p for n, p in enumerate(turned)})


def test_noise_over_a_flat_part_is_not_called_a_mirror_image_and_a_mirror_image_is() -> None:
    flat = {"a": (0.0, 0.0, 0.1), "b": (800.0, 0.0, -0.1), "c": (800.0, 300.0, 0.1), "d": (0.0, 300.0, 0.0)}
    noise = {"a": -0.3, "b": 0.2, "c": -0.3, "d": 0.1}
    noisy = {name: (x, y, noise[name]) for name, (x, y, _) in flat.items()}
    assert not best_fit(flat, noisy).mirror_fits_better
    deep = {**flat, "e": (100.0, 100.0, 200.0)}
    assert best_fit(deep, {name: (-x, y, z) for name, (x, y, z) in deep.items()}).mirror_fits_better


@calm
@given(st.floats(0.2, 3), st.floats(0.005, 0.05), st.floats(-200, 200), st.floats(-3000, 3000))
def test_a_double_lap_is_as_strong_in_millimetres_as_in_inches(
    length: float, bondline: float, change_F: float, load_lbf: float
) -> None:
    def lap(mm: float, mpa: float, per_degree: float) -> DoubleLap:
        outer, inner = (
            (0.150 * mm, 10e6 * mpa, 13.3e-6 * per_degree),
            (0.1 * mm, 30e6 * mpa, 6e-6 * per_degree),
        )
        return DoubleLap(length * mm, 1.0 * mm, bondline * mm, 0.2e6 * mpa, *outer, *inner)

    in_inches = double_lap(lap(1, 1, 1), change_F, load_lbf)
    newton = load_lbf * MPA_PER_PSI * MM_PER_INCH**2
    in_mm = double_lap(lap(MM_PER_INCH, MPA_PER_PSI, 1.8), change_F / 1.8, newton)
    assert in_mm.largest == pytest.approx(in_inches.largest * MPA_PER_PSI, rel=1e-9)
    assert in_inches.largest >= max(abs(in_inches.thermal_end), abs(in_inches.load_end))


@calm
@given(st.floats(100, 2000), st.floats(1.01, 3), st.floats(0.1, 2))
def test_a_longer_joint_strains_its_end_more_and_a_thicker_bondline_less(
    length: float, more: float, bondline: float
) -> None:
    def end(length_mm: float, bondline_mm: float) -> float:
        joint = ElasticJoint(bondline_mm, 700, 70_000, 2, 50_000, 3)
        return shear_lag(Pairing(23.6e-6, 3e-6, length_mm), 20, 80, joint).end_strain

    assert end(length * more, bondline) >= end(length, bondline) * (1 - 1e-12)
    assert end(length, bondline * more) < end(length, bondline)


@calm
@given(st.floats(0, 30), st.floats(0, 30), st.floats(5, 40))
def test_a_step_in_two_parts_uses_as_much_open_time(first: float, second: float, at: float) -> None:
    sheet = OpenTimeSheet({15: 90, 23: 60, 30: 35})
    parts = used_fraction(sheet, [(first, at), (second, at)])
    assert parts == pytest.approx(used_fraction(sheet, [(first + second, at)]))


@calm
@given(st.integers(0, 3000), st.integers(0, 500))
def test_more_to_fill_never_takes_fewer_cartridges(need: int, more: int) -> None:
    size = Cartridge(50, 5, 3)
    assert cartridges_for((need + more) / 10, size).cartridges >= cartridges_for(need / 10, size).cartridges


@calm
@given(st.integers(1, 400), st.integers(5, 60), st.integers(1, 30))
def test_volumes_grow_with_the_cube_of_the_scale(section: int, width: int, tenths: int) -> None:
    small = press(section, width, tenths / 10, 1000)
    large = press(section * 100, width * 10, tenths, 10_000)
    assert large.fills_flange is small.fills_flange
    assert large.missing_mL == pytest.approx(small.missing_mL * 1000)
    assert bondline_mL([(0, tenths), (100, 2 * tenths)], width) == pytest.approx(1.5 * tenths * width / 10)


@calm
@given(st.integers(31, 99), st.integers(1, 60), st.integers(1, 60))
def test_a_falling_margin_is_at_the_limit_when_the_trend_says(first: int, fall: int, between: int) -> None:
    second = (first - fall) / 10
    found = trend(first / 10, second, between)
    assert found.time_to_limit_min is not None
    then = second + found.slope_K_per_min * found.time_to_limit_min
    assert then == pytest.approx(min(3.0, second))


@calm
@given(st.integers(-300, 300))
def test_a_step_proud_or_sunk_is_judged_alike(hundredths: int) -> None:
    rule = FitRule(4.0, 0.5, 1.0)
    proud, sunk = judge_fit(
        [FitPoint("p", 4.0, hundredths / 100), FitPoint("p", 4.0, -hundredths / 100)], rule
    )
    assert proud == sunk
    assert proud.good is (abs(hundredths) <= 100)
