"""The guess that a step starts from, and the error told from it, on curves that are known exactly."""

from __future__ import annotations

import math

import numpy as np
import pytest

from bayleaf.heat.stepping import Past

MIDDLE = 2 - math.sqrt(2)  # where TR-BDF2 has its first stage, as a share of the step
NOW_S = 3.0


def parabola(t_s: float) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    return np.array([1 + 2 * t_s - 0.5 * t_s**2, t_s**2])


@pytest.mark.parametrize("back_s", [0.25, 1.0, 4.0])
def test_a_parabola_is_guessed_exactly(back_s: float) -> None:
    begin_s = NOW_S - back_s
    past = Past(back_s, parabola(begin_s), parabola(begin_s + MIDDLE * back_s))
    now = parabola(NOW_S)
    assert past.ahead(now, 1.5) == pytest.approx(parabola(NOW_S + 1.5))
    assert past.end(now, parabola(NOW_S + MIDDLE), 1.0) == pytest.approx(parabola(NOW_S + 1))


def one_step_on_a_cubic(step_s: float) -> tuple[float, float]:
    """y' = 3 t^2 from y(3) = 27: middle by the trapezoidal rule, end by BDF2, as in Bank et al. (1985)."""
    middle_s = NOW_S + MIDDLE * step_s
    middle = NOW_S**3 + MIDDLE * step_s / 2 * (3 * NOW_S**2 + 3 * middle_s**2)
    part = 1 / (MIDDLE * (2 - MIDDLE))
    slope = 3 * (NOW_S + step_s) ** 2
    end = part * middle - (part - 1) * NOW_S**3 + (1 - MIDDLE) / (2 - MIDDLE) * step_s * slope
    return middle, end


@pytest.mark.parametrize("back_s", [0.25, 0.5, 1.0, 2.0, 4.0])
def test_the_error_of_a_step_is_told_whatever_the_step_before_was(back_s: float) -> None:
    step_s, begin_s = 1.0, NOW_S - back_s
    past = Past(back_s, np.array([begin_s**3]), np.array([(begin_s + MIDDLE * back_s) ** 3]))
    middle, end = one_step_on_a_cubic(step_s)
    made = abs(end - (NOW_S + step_s) ** 3)
    missed = abs(end - float(past.end(np.array([NOW_S**3]), np.array([middle]), step_s)[0]))
    assert past.error_K(missed, step_s) == pytest.approx(made, rel=0.05)
