"""Air: second and third opinions on the dew point, and the laws that margin and limits keep."""

import math

import psychrolib
import pytest
from CoolProp.CoolProp import HAPropsSI
from hypothesis import given, settings
from hypothesis import strategies as st

from bayleaf.bonding.dew_point import Air, dew_point, dew_uncertainty
from bayleaf.bonding.limits import Limit, judge
from bayleaf.bonding.margin import coldest, margin, trend
from bayleaf.bonding.refusal import Refused

psychrolib.SetUnitSystem(psychrolib.SI)
AIRS = st.builds(Air, temperature_C=st.floats(-40, 60), humidity_percent=st.floats(5, 100, exclude_min=True))
TENTHS = st.integers(-300, 600).map(lambda tenths: tenths / 10)
calm = settings(derandomize=True, max_examples=50, deadline=None)


@calm
@given(temperature_C=st.floats(5, 45), humidity_percent=st.floats(40, 100))
def test_the_dew_point_agrees_with_two_libraries(temperature_C: float, humidity_percent: float) -> None:
    found = dew_point(Air(temperature_C, humidity_percent))
    if found.over_water_C < 0:
        return
    by_ashrae = psychrolib.GetTDewPointFromRelHum(temperature_C, humidity_percent / 100)
    by_real_gas = (
        HAPropsSI("D", "T", temperature_C + 273.15, "P", 101325, "R", humidity_percent / 100) - 273.15
    )
    assert found.counts_C == pytest.approx(by_ashrae, abs=0.05)
    assert found.counts_C == pytest.approx(by_real_gas, abs=0.07)


@calm
@given(temperature_C=st.floats(0, 25), humidity_percent=st.floats(6, 60))
def test_below_zero_the_frost_point_agrees_with_a_library(
    temperature_C: float, humidity_percent: float
) -> None:
    found = dew_point(Air(temperature_C, humidity_percent))
    if found.over_water_C >= -0.1:
        return
    by_ashrae = psychrolib.GetTDewPointFromRelHum(temperature_C, humidity_percent / 100)
    assert found.counts_as == "frost point"
    assert found.counts_C == pytest.approx(by_ashrae, abs=0.12)


@calm
@given(AIRS)
def test_the_dew_point_never_stands_over_the_air_and_the_frost_point_never_under_it(air: Air) -> None:
    found = dew_point(air)
    assert found.over_water_C <= air.temperature_C + 1e-9
    assert found.counts_C >= found.over_water_C


@calm
@given(AIRS, st.floats(0.1, 5))
def test_damper_or_warmer_air_has_a_higher_dew_point(air: Air, more: float) -> None:
    here = dew_point(air).over_water_C
    if air.humidity_percent + more <= 100:
        assert dew_point(Air(air.temperature_C, air.humidity_percent + more)).over_water_C > here
    if air.temperature_C + more <= 60:
        assert dew_point(Air(air.temperature_C + more, air.humidity_percent)).over_water_C > here


@calm
@given(AIRS)
def test_the_derivatives_are_those_of_small_differences(air: Air) -> None:
    if abs(dew_point(air).over_water_C) < 0.1 or air.humidity_percent > 99.9:
        return
    off, step = dew_uncertainty(air, 1, 1), 1e-5
    up = dew_point(Air(air.temperature_C, air.humidity_percent + step)).counts_C
    down = dew_point(Air(air.temperature_C, air.humidity_percent - step)).counts_C
    assert off.per_percent == pytest.approx((up - down) / (2 * step), rel=1e-4)
    assert off.combined_K == pytest.approx(math.hypot(off.per_air_K, off.per_percent))


def test_at_full_humidity_the_dew_point_is_the_air_and_three_kelvin_over_it_is_enough() -> None:
    found = dew_point(Air(20, 100))
    assert found.counts_C == pytest.approx(20, abs=1e-9)
    assert margin(23, found.counts_C).meets_rule


@pytest.mark.parametrize(("air_C", "humidity"), [(20, 0), (20, -1), (20, 100.1), (-45.1, 50), (60.1, 50)])
def test_air_outside_the_form_is_refused_with_its_range(air_C: float, humidity: float) -> None:
    with pytest.raises(Refused, match=r"allowed: .*(-45 to 60 C|above 0 up to 100 %)"):
        Air(air_C, humidity)


def test_air_too_dry_for_the_form_over_ice_is_refused() -> None:
    with pytest.raises(Refused, match="frost point of -65 C or more"):
        dew_point(Air(-40, 0.5))


@calm
@given(TENTHS, TENTHS)
def test_a_margin_is_counted_in_whole_steps_and_moves_with_both_sides(surface: float, dew: float) -> None:
    found = margin(surface, dew)
    tenths = round(surface * 10) - round(dew * 10)
    assert found.margin_K == tenths / 10
    assert found.meets_rule is (tenths >= 30)
    assert found.water_on_surface is (tenths <= 0)
    assert margin(dew, surface).margin_K == -found.margin_K


def test_the_coldest_surface_decides() -> None:
    assert coldest({"sill": 14.2, "post": 13.9, "header": 16.0}) == ("post", 13.9)


def test_a_margin_that_does_not_fall_has_no_time_to_its_limit() -> None:
    assert trend(3.5, 3.5, 10).time_to_limit_min is None
    assert trend(3.5, 3.9, 10).time_to_limit_min is None
    assert trend(4.0, 2.9, 10).time_to_limit_min == 0


@calm
@given(st.integers(-10_000, 10_000), st.integers(-10_000, 10_000), st.integers(0, 4))
def test_a_limit_in_another_unit_judges_the_same(found: int, limit: int, decimals: int) -> None:
    """Unit-safe: the same reading and limit in steps a thousand times as large."""
    scale = 10**decimals
    small = judge([Limit("r", found / scale, "mm", decimals, maximum=limit / scale)])[0]
    large = judge([Limit("r", float(found), "steps", 0, maximum=float(limit))])[0]
    assert (small.inside, small.whole) == (large.inside, large.whole) == (found <= limit, found)
