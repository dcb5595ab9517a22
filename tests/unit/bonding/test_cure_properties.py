"""Cure: the laws that an integral keeps, closed forms against quadrature, and what is refused."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, special

from bayleaf.bonding.coldest_sensor import count_sensors
from bayleaf.bonding.cure_forecast import Warming, forecast
from bayleaf.bonding.cure_log import CountRule, Sample, count_log
from bayleaf.bonding.cure_verdict import CureStand, against_sheet, cure_verdict, refuse_moisture
from bayleaf.bonding.drying import DryingRule, drying_record
from bayleaf.bonding.rate_laws import Doubling, RateLaw, arrhenius_of, implied_energy_J_per_mol, scaled_E1
from bayleaf.bonding.refusal import Refused

calm = settings(derandomize=True, max_examples=50, deadline=None)
LAWS = st.one_of(
    st.floats(20_000, 150_000).map(lambda energy: arrhenius_of(energy, 23.0)),
    st.floats(1.2, 4).map(lambda factor: Doubling(factor, 23.0)),
)
TEMPERATURES = st.floats(-10, 140)
ALL = CountRule()


@st.composite
def logs(draw: st.DrawFn) -> list[Sample]:
    steps = draw(st.lists(st.floats(0.5, 60), min_size=1, max_size=7))
    minutes = [sum(steps[:n]) for n in range(len(steps) + 1)]
    return [(minute, draw(TEMPERATURES)) for minute in minutes]


@calm
@given(LAWS, TEMPERATURES, TEMPERATURES)
def test_a_ramp_is_exact_to_quadrature_and_equal_up_and_down(law: RateLaw, a: float, b: float) -> None:
    by_quadrature, _ = integrate.quad(lambda x: law.rate(a + (b - a) * x), 0, 1, epsabs=0, epsrel=1e-11)
    assert law.mean_rate(a, b) == pytest.approx(by_quadrature, rel=1e-8)
    assert law.mean_rate(a, b) == pytest.approx(law.mean_rate(b, a), rel=1e-8)


@calm
@given(st.floats(1, 600))
def test_the_exponential_integral_agrees_with_a_library(x: float) -> None:
    assert scaled_E1(x) == pytest.approx(float(special.exp1(x) * math.exp(x)), rel=1e-12)


@calm
@given(LAWS, TEMPERATURES, st.floats(1e-7, 0.2))
def test_a_nearly_level_ramp_is_the_rate_between_its_ends(law: RateLaw, a: float, rise: float) -> None:
    low, high = sorted((law.rate(a), law.rate(a + rise)))
    assert low * (1 - 1e-9) <= law.mean_rate(a, a + rise) <= high * (1 + 1e-9)


@calm
@given(logs(), LAWS, st.integers(0, 7), st.floats(0.1, 20))
def test_warming_any_sample_never_lowers_the_equivalent_time(
    log: list[Sample], law: RateLaw, place: int, rise: float
) -> None:
    at = place % len(log)
    warmer = [(t, C + rise if n == at else C) for n, (t, C) in enumerate(log)]
    before, after = count_log(log, law, ALL), count_log(warmer, law, ALL)
    assert after.equivalent_min >= before.equivalent_min * (1 - 1e-9)


@calm
@given(logs(), LAWS, st.floats(0.05, 0.95))
def test_splitting_an_interval_on_its_line_changes_nothing(
    log: list[Sample], law: RateLaw, share: float
) -> None:
    (t0, a), (t1, b) = log[:2]
    split = [log[0], (t0 + share * (t1 - t0), a + share * (b - a)), *log[1:]]
    whole, parts = count_log(log, law, ALL), count_log(split, law, ALL)
    assert parts.equivalent_min == pytest.approx(whole.equivalent_min, rel=1e-7)
    assert parts.lower_bound_min >= whole.lower_bound_min * (1 - 1e-9)


@calm
@given(logs(), LAWS, st.floats(-1000, 1000))
def test_shifting_the_clock_changes_nothing(log: list[Sample], law: RateLaw, shift: float) -> None:
    shifted = [(t + shift, C) for t, C in log]
    first, second = count_log(log, law, ALL), count_log(shifted, law, ALL)
    assert second.equivalent_min == pytest.approx(first.equivalent_min, rel=1e-7)


@calm
@given(logs(), LAWS, TEMPERATURES, st.floats(1, 60))
def test_gaps_and_a_minimum_only_take_away_and_the_bound_stays_under(
    log: list[Sample], law: RateLaw, minimum: float, longest: float
) -> None:
    every, some = count_log(log, law, ALL), count_log(log, law, CountRule(longest, minimum))
    assert some.equivalent_min <= every.equivalent_min * (1 + 1e-9)
    assert some.lower_bound_min <= some.equivalent_min * (1 + 1e-9)
    assert 0 <= some.below_minimum_min <= log[-1][0] - log[0][0] + 1e-9


@calm
@given(logs(), logs(), LAWS)
def test_the_coldest_at_each_moment_is_never_over_the_sensor_with_least(
    a: list[Sample], b: list[Sample], law: RateLaw
) -> None:
    found = count_sensors({"a": a, "b": b}, law, ALL)
    swapped = count_sensors({"b": b, "a": a}, law, ALL)
    assert found.coldest_min <= found.least_min * (1 + 1e-7)
    assert swapped.coldest_min == pytest.approx(found.coldest_min, rel=1e-9)


def test_one_sensor_is_its_own_coldest_and_a_moment_that_one_missed_counts_nothing() -> None:
    law = arrhenius_of(60_000, 23)
    log: list[Sample] = [(0, 23), (60, 23)]
    assert count_sensors({"a": log}, law, ALL).coldest_min == pytest.approx(60)
    assert count_sensors({"a": log, "b": [(30, 23), (90, 23)]}, law, ALL).coldest_min == pytest.approx(30)


def test_an_interval_that_crosses_the_minimum_counts_its_warm_part_only() -> None:
    found = count_log([(0, 20), (20, 0)], Doubling(2, 20), CountRule(minimum_C=10))
    warm, _ = integrate.quad(lambda t: 2 ** (-t / 10), 0, 10)
    assert found.equivalent_min == pytest.approx(warm)
    assert found.below_minimum_min == pytest.approx(10)


def test_minutes_that_go_back_and_a_lone_sample_are_refused() -> None:
    with pytest.raises(Refused, match="never go back"):
        count_log([(0, 20), (10, 20), (9, 20)], Doubling(2, 20), ALL)
    with pytest.raises(Refused, match="two samples or more"):
        count_log([(0, 20)], Doubling(2, 20), ALL)


def test_a_doubling_implies_less_energy_cold_than_hot() -> None:
    energies = [implied_energy_J_per_mol(2, start) for start in (13, 23, 50, 60)]
    assert energies == sorted(energies)
    assert energies[1] == pytest.approx(52_600, abs=500)


@calm
@given(LAWS, st.floats(1, 500), st.floats(0, 500), st.floats(5, 25), st.floats(0, 50))
def test_a_forecast_with_ramps_holds_when_it_is_played_through(
    law: RateLaw, needed: float, reached: float, present: float, rise: float
) -> None:
    hot = present + rise
    found = forecast(law, needed, reached, present, Warming(hot, 2, 4))
    up, down = rise / 2, rise / 4
    played: list[Sample] = [
        (0, present),
        (up, hot),
        (up + found.soak_min, hot),
        (up + found.soak_min + down, present),
    ]
    gained = count_log(played, law, ALL).equivalent_min if found.remaining_with_ramps_min else 0.0
    assert reached + gained >= needed * (1 - 1e-7)
    assert found.remaining_at_present_min is not None
    assert found.remaining_heated_min <= found.remaining_at_present_min * (1 + 1e-9)


def test_heating_to_less_than_the_present_is_refused() -> None:
    with pytest.raises(Refused, match="heated_temperature_C"):
        forecast(Doubling(2, 23), 60, 0, 23, Warming(20))


@calm
@given(LAWS, st.floats(23, 100))
def test_shown_time_is_never_under_the_sheet(law: RateLaw, at: float) -> None:
    found = against_sheet(law, {23: 240, 40: 90, 60: 40}, 23, at)
    assert found.shown_min >= max(found.sheet_min, found.by_law_min)


def test_a_temperature_under_the_sheets_coldest_row_is_refused() -> None:
    with pytest.raises(Refused, match="23 C or more"):
        against_sheet(Doubling(2, 23), {23: 240}, 23, 15)


@pytest.mark.parametrize(
    ("stand", "waits"),
    [
        (CureStand(240, 240, 300, 300, blob_hard=True), ()),
        (CureStand(239.9, 240, 300, 300, blob_hard=True), ("computed cure",)),
        (CureStand(240, 240, 299, 300, blob_hard=None), ("data sheet", "sample blob")),
    ],
)
def test_the_slowest_of_three_decides(stand: CureStand, waits: tuple[str, ...]) -> None:
    assert cure_verdict(stand).waits_for == waits


def test_what_cures_by_moisture_is_refused_with_the_reason() -> None:
    with pytest.raises(Refused, match="edges inward"):
        refuse_moisture("moisture")


def test_a_drying_log_counts_its_band_names_its_gap_and_says_if_it_was_too_hot() -> None:
    rule = DryingRule(70, 90, 120)
    held = drying_record([(0, 20), (50, 70), (170, 70), (220, 20)], rule, 150)
    assert (held.in_band_min, held.dried, held.peak_C) == (120, True, 70)
    gap = drying_record([(0, 70), (30, 70), (200, 70), (230, 70)], rule, 60)
    assert (gap.in_band_min, gap.gaps_min, gap.dried) == (60, ((30, 200),), False)
    hot = drying_record([(0, 70), (200, 70), (210, 110), (220, 70)], rule, 250)
    assert hot.over_min == pytest.approx(10)
    assert not hot.dried
    beside_a_gap = drying_record([(0, 75), (130, 75), (400, 120)], rule, 150)
    assert (beside_a_gap.in_band_min, beside_a_gap.over_min, beside_a_gap.dried) == (130, 0, False)
