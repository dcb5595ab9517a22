"""What warming a cure would save: minutes to handling cure with heating up and cooling down counted.

By the computation alone: what the sheet says at that heat stands above it. Told only where no run has warmed
the joint yet, there is something left, and the heat asked about is over the present temperature and the
sheet's minimum.
"""

from __future__ import annotations

from dataclasses import dataclass

from bayleaf.bonding.cure_forecast import Warming, forecast
from bayleaf.bonding.rate_laws import RateLaw
from bayleaf.step_computations.figures import left, number_of
from bayleaf.step_computations.inputs import Quantity
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Line, Unanswerable, Value


@dataclass(frozen=True, slots=True)
class Cold:
    """How the cure stands unwarmed: minutes needed and reached at the sheet's temperature, minutes left."""

    needed_min: float
    reached_min: float
    left_min: int
    now_C: float
    minimum_C: float | None


def warming(question: Question, law: RateLaw, cold: Cold) -> tuple[list[Value], list[Line]]:
    """With `warm_to`, `heating` and `cooling`: minutes left if warmed, and those saved; else nothing."""
    warm_to = question.find("warm_to", Quantity)
    if warm_to is None or not cold.left_min:
        return [], []
    warm_C = number_of(warm_to)
    if warm_C <= (cold.now_C if cold.minimum_C is None else max(cold.now_C, cold.minimum_C)):
        return [], []
    asked = Warming(warm_C, _rate(question, "heating"), _rate(question, "cooling"), cold.minimum_C)
    found = forecast(law, cold.needed_min, cold.reached_min, cold.now_C, asked)
    warm_left = Value("warm_left", left(found.remaining_with_ramps_min), "min", 0)
    saves = Value("warm_saves", cold.left_min - warm_left.value, "min", 0)
    to = Value("warm_to", warm_to.value, warm_to.unit, warm_to.decimals)
    if saves.value <= 0:
        return [warm_left], [Line("warming_saves_nothing", "note", (), (to,))]
    return [warm_left, saves], [Line("warming_saves", "note", (), (to, warm_left, saves))]


def _rate(question: Question, name: str) -> float:
    rate = question.quantity(name)
    if rate.value <= 0:
        raise Unanswerable(name, "not_above_zero")
    return number_of(rate)
