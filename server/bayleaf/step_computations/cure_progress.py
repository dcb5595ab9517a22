"""How far a cure is, and when it may be called done: the slowest of computation, data sheet and blob.

Without a blob the answer only tells how far it is. With a blob and the least it must have, it judges handling
cure; with a blob alone, full cure. Full cure is never shorter than the sheet says. Handling cure is not
either, but where the method's own warm hold was soaked in full: that is the method's time at that heat.
Under the sheet's minimum, where the method gives it, time counts nothing; minutes left are then those at it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal

from bayleaf.bonding.cure_verdict import MODEL
from bayleaf.bonding.rate_laws import Arrhenius, arrhenius_of
from bayleaf.step_computations.cure_log import Cured, Reading, cured
from bayleaf.step_computations.cure_warming import Cold, warming
from bayleaf.step_computations.figures import MS_PER_MIN, figure, is_over, left, number_of, reached, ten_to
from bayleaf.step_computations.inputs import Moment, Quantity, Run, Runs
from bayleaf.step_computations.lots import lot_lines
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value, Verdict

Stage = Literal["handling", "full"]
_MIN_PER_H: Final = 60
_S_PER_MIN: Final = 60


@dataclass(frozen=True, slots=True)
class _Stand:
    """What one stage still needs, minutes: by the computed cure, by the sheet."""

    computed_min: float
    sheet_min: float
    share: float

    @property
    def left_min(self) -> int:
        return left(max(self.computed_min, self.sheet_min))


def cure_progress(question: Question) -> Answer:
    """Elapsed and equivalent minutes, shares, minutes left at the newest reading, and the verdict.

    Beside a run, minutes left are those at the coldest reading.
    """
    coldest = question.quantity("coldest")
    law = _law(question)
    elapsed = (question.asked_at_ms - question.want("started", Moment).at_ms) / MS_PER_MIN
    if elapsed < 0:
        raise Unanswerable("started", "later_than_now")
    found_runs = question.find("run", Runs)
    runs = () if found_runs is None else found_runs.runs
    flange = _flange(question, coldest)
    lowest = min([coldest.value, *(value for _, value in question.log)])
    minimum = question.find("minimum_cure", Quantity)
    minimum_C = None if minimum is None else number_of(minimum)
    found = cured(elapsed, flange, law, runs, minimum_C)
    now_C = flange[-1][1] if found.run is None else lowest / ten_to(coldest.decimals)
    stands_still = minimum_C is not None and now_C < minimum_C
    rate = law.rate(now_C if minimum_C is None else max(now_C, minimum_C))
    handling = _stand(question, "handling", elapsed, found.equivalent_min, rate)
    full = _stand(question, "full", elapsed, found.equivalent_min, rate)
    if _soaked(runs):
        handling = _Stand(handling.computed_min, 0.0, handling.share)
    values = (
        Value("elapsed", reached(elapsed), "min", 0),
        Value("equivalent", reached(found.equivalent_min), "min", 0),
        figure("speed", 0.0 if stands_still else rate * 100, "%", 0),
        Value("handling_share", reached(min(1.0, handling.share) * 100), "%", 0),
        Value("handling_left", handling.left_min, "min", 0),
        Value("full_share", reached(min(1.0, full.share) * 100), "%", 0),
        Value("full_left", full.left_min, "min", 0),
        Value("coldest", lowest, "C", coldest.decimals),
    )
    verdict, waits = _verdict(question, handling, full)
    needed = number_of(question.quantity("handling_time")) * _MIN_PER_H
    unwarmed = Cold(needed, found.equivalent_min, handling.left_min, now_C, minimum_C)
    warm_values, warm = warming(question, law, unwarmed) if found.run is None else ([], [])
    cold = _cold_lines(found.cold_min, minimum if stands_still else None)
    lines = (*waits, *cold, *warm, *_run_lines(found, runs), *lot_lines(question, "adhesive"))
    return Answer(MODEL, (*values, *warm_values), verdict, lines, ("arrhenius", "slowest"))


def _flange(question: Question, coldest: Quantity) -> list[Reading]:
    """(minutes since the first gram, C); the shown reading alone where the question brings no log."""
    started_ms, steps = question.want("started", Moment).at_ms, ten_to(coldest.decimals)
    log = question.log or ((started_ms, coldest.value),)
    return [((at_ms - started_ms) / MS_PER_MIN, value / steps) for at_ms, value in log]


def _law(question: Question) -> Arrhenius:
    energy = number_of(question.quantity("activation_energy"))
    if energy <= 0:
        raise Unanswerable("activation_energy", "not_above_zero")
    return arrhenius_of(energy * 1000, number_of(question.quantity("sheet_temperature")))


def _stand(question: Question, stage: Stage, elapsed: float, equivalent: float, rate: float) -> _Stand:
    hours = question.quantity(f"{stage}_time")
    if hours.value <= 0:
        raise Unanswerable(f"{stage}_time", "not_above_zero")
    needed = number_of(hours) * _MIN_PER_H
    return _Stand(max(0.0, needed - equivalent) / rate, max(0.0, needed - elapsed), equivalent / needed)


def _soaked(runs: tuple[Run, ...]) -> bool:
    return any(run.soak_ms >= run.soak_s * 1000 > 0 for run in runs)


def _verdict(question: Question, handling: _Stand, full: _Stand) -> tuple[Verdict, tuple[Line, ...]]:
    blob, least = question.find("blob", Quantity), question.find("blob_least", Quantity)
    if blob is None:
        return "none", tuple(_slowest(handling))
    if least is None:
        waits = tuple(_waits(full))
        return ("outside" if waits else "inside"), waits
    soft = [Line("waits_blob", "stop", (), (_as_value("blob", blob), _as_value("least", least)))]
    waits = (*_waits(handling), *(soft if is_over(least, blob) else []))
    return ("outside" if waits else "inside"), waits


def _waits(stand: _Stand) -> Iterator[Line]:
    for code, minutes in (("waits_computed", stand.computed_min), ("waits_sheet", stand.sheet_min)):
        if left(minutes):
            yield Line(code, "stop", (), (Value("left", left(minutes), "min", 0),))


def _slowest(stand: _Stand) -> Iterator[Line]:
    if stand.left_min:
        by_sheet = left(stand.sheet_min) >= left(stand.computed_min)
        yield Line("slowest_sheet" if by_sheet else "slowest_computed")


def _cold_lines(cold_min: float, stands_still_under: Quantity | None) -> Iterator[Line]:
    if stands_still_under is not None:
        yield Line("stands_still", "note", (), (_as_value("minimum", stands_still_under),))
    if left(cold_min):
        yield Line("cold_counts_nothing", "note", (), (Value("cold", left(cold_min), "min", 0),))


def _run_lines(found: Cured, runs: tuple[Run, ...]) -> Iterator[Line]:
    if found.run is None:
        yield Line("run_not_read" if runs else "from_coldest")
        return
    yield Line("run_counted", "note", (), (Value("span", reached(found.run.span_min), "min", 0),))
    if left(found.run.unmeasured_min):
        yield Line("run_gaps", "note", (), (Value("gaps", left(found.run.unmeasured_min), "min", 0),))


def _as_value(name: str, quantity: Quantity) -> Value:
    return Value(name, quantity.value, quantity.unit, quantity.decimals)
