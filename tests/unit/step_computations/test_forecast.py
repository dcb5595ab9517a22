"""Forecast of a cure from the log of the flange: it moves with every reading, and never before the sheet."""

import math

from hypothesis import given
from hypothesis import strategies as st

from bayleaf.bonding.rate_laws import arrhenius_of
from bayleaf.step_computations.forecast import ready_at_ms

HOUR = 3_600_000
START = 1_800_000_000_000 // HOUR * HOUR
HANDLING_MIN = 16 * 60
LAW = arrhenius_of(60_000, 23)


def ready(log: list[tuple[int, float]]) -> int:
    found = ready_at_ms(START, log, HANDLING_MIN, LAW)
    assert found is not None
    return found


def rate(at_C: float) -> float:
    """Written out anew: 60 kJ/mol over 8.314462618 J/(mol K), from 23 C."""
    return math.exp(-60_000 / 8.314462618 * (1 / (at_C + 273.15) - 1 / 296.15))


def test_without_a_reading_the_sheets_own_time_stands() -> None:
    assert ready([]) == START + 16 * HOUR


def test_a_cold_night_moves_it_and_a_warm_morning_does_not_bring_it_back_before_the_sheet() -> None:
    evening = [(START, 23.0)]
    night = [*evening, (START + 2 * HOUR, 12.0)]
    morning = [*night, (START + 14 * HOUR, 21.0)]
    first, second, third = (ready(log) for log in (evening, night, morning))
    # 14 h at 12 C count 14 x 0.39 h; at 21 C the rest runs at 0.85.
    cold = 14 * 60 * rate(12)
    assert first == START + 16 * HOUR
    assert second == START + 2 * HOUR + math.ceil((HANDLING_MIN - 2 * 60 * rate(12)) / rate(12) * 60_000)
    assert third == START + 14 * HOUR + math.ceil((HANDLING_MIN - cold) / rate(21) * 60_000)
    assert first < third < second


def test_a_warm_flange_gains_nothing_over_the_sheet() -> None:
    assert ready([(START, 35.0)]) == START + 16 * HOUR


@given(st.floats(5, 40), st.floats(0, 20), st.integers(1, 30))
def test_a_colder_reading_never_makes_it_earlier(at_C: float, colder_K: float, hours: int) -> None:
    log = [(START, 23.0), (START + hours * HOUR, at_C)]
    colder = [(START, 23.0), (START + hours * HOUR, at_C - colder_K)]
    assert ready(colder) >= ready(log)


def test_under_the_sheets_minimum_it_stands_still_and_nothing_is_forecast_until_it_is_warm_again() -> None:
    night = [(START, 23.0), (START + 2 * HOUR, 12.0)]
    morning = [*night, (START + 14 * HOUR, 23.0)]
    assert ready_at_ms(START, night, HANDLING_MIN, LAW, minimum_C=15) is None
    # Between two readings the colder counts: nothing has counted until the morning.
    assert ready_at_ms(START, morning, HANDLING_MIN, LAW, minimum_C=15) == START + 30 * HOUR
    assert ready_at_ms(START, morning, HANDLING_MIN, LAW, minimum_C=12) == ready(morning)
