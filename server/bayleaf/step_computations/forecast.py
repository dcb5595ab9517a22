"""When a cure that is under way will be there, from the log of what the flange was read at.

Between two readings the colder one counts, after the last one it stays as it is: a forecast that errs, errs
late. Never earlier than the data sheet's own time. It moves with every reading. Time under the sheet's
minimum counts nothing, and while it stands still there nothing is forecast.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from bayleaf.bonding.rate_laws import RateLaw, arrhenius_of
from bayleaf.domain.asks import AnswerRef, ComputeAsk, ComputeInput
from bayleaf.domain.method import MethodDoc, StepDoc
from bayleaf.step_computations import inputs as given
from bayleaf.step_computations.figures import MS_PER_MIN, number_of, ten_to
from bayleaf.step_computations.gathering import gather
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.record import Record
from bayleaf.step_computations.shapes import Unanswerable

_MIN_PER_H: Final = 60
COLDER_THAN_ALL: Final = -math.inf
Reading = tuple[int, float]


@dataclass(frozen=True, slots=True)
class CureForecast:
    """When clamps and brace may come off, and when the vehicle may go; times of the wall, ms."""

    zone: str
    handling_ms: int
    full_ms: int


def ready_at_ms(
    started_ms: int,
    readings: Sequence[Reading],
    needed_min: float,
    law: RateLaw,
    minimum_C: float = COLDER_THAN_ALL,
) -> int | None:
    """When the needed minutes at the sheet's temperature are reached; readings are (at_ms, C), in order.

    None where the last reading is under the sheet's minimum: it stands still.
    """
    by_sheet = started_ms + round(needed_min * MS_PER_MIN)
    if not readings:
        return by_sheet
    reached = 0.0
    for start, end, at_C in _stretches(started_ms, readings):
        rate = law.rate(at_C) if at_C >= minimum_C else 0.0
        gained = (end - start) / MS_PER_MIN * rate
        if reached + gained >= needed_min:
            return max(by_sheet, start + math.ceil((needed_min - reached) / rate * MS_PER_MIN))
        reached += gained
    last_ms, last_C = readings[-1]
    if last_C < minimum_C:
        return None
    left_ms = math.ceil((needed_min - reached) / law.rate(last_C) * MS_PER_MIN)
    return max(by_sheet, max(started_ms, last_ms) + left_ms)


def _stretches(started_ms: int, readings: Sequence[Reading]) -> Iterator[tuple[int, int, float]]:
    first_ms, first_C = readings[0]
    if first_ms > started_ms:
        yield started_ms, first_ms, first_C
    for (start, a), (end, b) in pairwise(readings):
        if end > max(start, started_ms):
            yield max(start, started_ms), end, min(a, b)


def cure_forecasts(record: Record) -> list[CureForecast]:
    """Of every cure that was begun and has not been proved yet, one a method."""
    found = (_forecast(record, method) for method in record.methods)
    return [one for one in found if one is not None]


def _forecast(record: Record, method: MethodDoc) -> CureForecast | None:
    asks = [
        (step, ask)
        for step in method.steps()
        for ask in step.asks
        if isinstance(ask, ComputeAsk) and ask.computation == "cure_progress"
    ]
    proof = next((step for step, ask in asks if any(one.name == "blob_least" for one in ask.inputs)), None)
    if not asks or (proof is not None and _is_done(record, method, proof)):
        return None
    _, ask = asks[0]
    question = gather(record, method, ask).question
    started = question.find("started", given.Moment)
    if started is None:
        return None
    readings = sorted(_flange_readings(record, ask, question, started.at_ms))
    try:
        law = arrhenius_of(
            number_of(question.quantity("activation_energy")) * 1000,
            number_of(question.quantity("sheet_temperature")),
        )
        minimum = question.find("minimum_cure", given.Quantity)
        minimum_C = COLDER_THAN_ALL if minimum is None else number_of(minimum)
        handling, full = (
            ready_at_ms(
                started.at_ms, readings, number_of(question.quantity(name)) * _MIN_PER_H, law, minimum_C
            )
            for name in ("handling_time", "full_time")
        )
    except Unanswerable:
        return None
    if handling is None or full is None:
        return None
    return CureForecast(_zone(method), handling, full)


def _is_done(record: Record, method: MethodDoc, step: StepDoc) -> bool:
    return any(
        one["done"] == "done"
        for one in record.state["steps"]
        if (one["method"], one["step"]) == (method.id, step.id)
    )


def _flange_readings(
    record: Record, ask: ComputeAsk, question: Question, started_ms: int
) -> Iterator[Reading]:
    """Every unstruck reading of the flange since the start, also those that a later one replaced."""
    out = {struck["target"] for struck in record.state["struck"]} | set(record.state["aside"])
    refs = _refs(ask, "coldest")
    for entry in record.entries.values():
        body = entry.body
        if entry.kind != "reading" or "run" in body or entry.hash in out or entry.at_ms < started_ms:
            continue
        if (body["method"], body["step"], body["ask"]) in {(one.method, one.step, one.ask) for one in refs}:
            yield entry.at_ms, body["value"] / ten_to(body["decimals"])
    runs = question.find("run", given.Runs)
    for run in runs.runs if runs is not None else ():
        yield from _run_readings(run)


def _run_readings(run: given.Run) -> Iterator[Reading]:
    """The coldest bond sensor at each moment at which all of them were read."""
    bond = [dict(one.points) for one in run.sensors if one.of == "bond"]
    moments = set.intersection(*(set(one) for one in bond)) if bond else set()
    for run_ms in sorted(moments):
        yield run.on_ms + run_ms, min(one[run_ms] for one in bond) / ten_to(run.decimals)


def _refs(ask: ComputeAsk, name: str) -> Sequence[AnswerRef]:
    found: ComputeInput | None = next((one for one in ask.inputs if one.name == name), None)
    return found.sources if found is not None else ()


def _zone(method: MethodDoc) -> str:
    """The zone that is cured: the one that is made of the others, else the method's own word."""
    joint = next((one for one in method.zones if one.made_of), None)
    return joint.name if joint is not None else method.title
