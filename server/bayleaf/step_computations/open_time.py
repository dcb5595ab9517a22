"""Open time at the warmest of air, flange and cartridges: half as long per 10 K warmer, never over the sheet.

Against a rehearsal it says how much of it may be used; from the first gram it says whether it still runs.
A changed mixer is no input: it does not restart the clock.
"""

from __future__ import annotations

from typing import Final

from bayleaf.bonding import open_time as bonding
from bayleaf.step_computations.figures import MS_PER_MIN, figure, is_over, number_of, reached, steps_of
from bayleaf.step_computations.inputs import Moment, Quantity
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value, Verdict

_READ: Final = ("air", "flange", "adhesive")


def open_time(question: Question) -> Answer:
    """Whole minutes, rounded down."""
    warmest = _warmest(question)
    sheet_min, sheet_C = question.quantity("sheet_time"), question.quantity("sheet_temperature")
    if sheet_min.value <= 0:
        raise Unanswerable("sheet_time", "not_above_zero")
    sheet = bonding.OpenTimeSheet({number_of(sheet_C): number_of(sheet_min)})
    minutes = bonding.open_time_min(sheet, number_of(warmest))
    open_for = Value("open_time", reached(minutes), "min", 0)
    temperature = Value("temperature", warmest.value, "C", warmest.decimals)
    lines = [Line("shortened" if is_over(warmest, sheet_C) else "by_sheet", "note", (), (temperature,))]
    more, verdict, said = _judged(question, minutes)
    return Answer(
        bonding.MODEL,
        (open_for, temperature, *more),
        verdict,
        (*lines, *said, Line("mixer_restarts_nothing")),
        ("per_10_kelvin",),
    )


def _warmest(question: Question) -> Quantity:
    read = [found for name in _READ if (found := question.find(name, Quantity)) is not None]
    if not read:
        raise Unanswerable("air", "not_there")
    decimals = max(one.decimals for one in read)
    return Quantity(max(steps_of(one, decimals) for one in read), "C", decimals)


def _judged(question: Question, minutes: float) -> tuple[list[Value], Verdict, list[Line]]:
    started = question.find("started", Moment)
    if started is not None:
        return _running(question.asked_at_ms - started.at_ms, minutes)
    rehearsal = question.find("rehearsal", Quantity)
    if rehearsal is None:
        return [], "none", []
    share = question.quantity("share")
    allowed = Value("allowed", reached(minutes * number_of(share) / 100), "min", 0)
    if is_over(rehearsal, allowed):
        took = Value("rehearsal", rehearsal.value, "min", rehearsal.decimals)
        return [allowed], "outside", [Line("rehearsal_long", "stop", (), (took, allowed))]
    return [allowed], "inside", []


def _running(since_ms: int, minutes: float) -> tuple[list[Value], Verdict, list[Line]]:
    used = figure("used", max(0, reached(since_ms / MS_PER_MIN)), "min", 0)
    left = Value("left", max(0, reached(minutes - since_ms / MS_PER_MIN)), "min", 0)
    if since_ms > minutes * MS_PER_MIN:
        return [used, left], "outside", [Line("open_time_over", "stop", (), (used,))]
    return [used, left], "inside", []
