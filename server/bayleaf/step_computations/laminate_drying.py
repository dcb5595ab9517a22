"""Drying of a laminate before hot work, from the time and the two ends of its temperature that were recorded.

All of the time counts at the coldest reading: if that lies under the band nobody knows for how long, so
nothing counts. No moisture content is claimed.
"""

from __future__ import annotations

from bayleaf.bonding import drying
from bayleaf.step_computations.figures import is_over, left, number_of, reached
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value, verdict_of


def laminate_drying(question: Question) -> Answer:
    """Minutes inside `from` to `to` against `least`; over the band at any time is outside."""
    time, coldest, hottest, first, last, least = (
        question.quantity(name) for name in ("time", "coldest", "hottest", "from", "to", "least")
    )
    if time.value <= 0:
        raise Unanswerable("time", "not_above_zero")
    if is_over(first, last):
        raise Unanswerable("from", "band_turned")
    if is_over(coldest, hottest):
        raise Unanswerable("hottest", "under_coldest")
    rule = drying.DryingRule(number_of(first), number_of(last), number_of(least))
    flat = [(0.0, number_of(coldest)), (number_of(time), number_of(coldest))]
    record = drying.drying_record(flat, rule, longest_interval_min=None)
    in_band = Value("in_band", reached(record.in_band_min), "min", 0)
    short = Value("still_to_dry", left(record.required_min - in_band.value), "min", 0)
    limits = tuple(Value(name, one.value, "C", one.decimals) for name, one in (("from", first), ("to", last)))
    lines = []
    if is_over(first, coldest):
        lines.append(
            Line("drying_cold", "stop", (), (Value("coldest", coldest.value, "C", coldest.decimals), *limits))
        )
    if is_over(hottest, last):
        lines.append(
            Line("drying_hot", "stop", (), (Value("hottest", hottest.value, "C", hottest.decimals), *limits))
        )
    if short.value > 0:
        lines.append(Line("drying_short", "stop", (), (short,)))
    return Answer(
        drying.MODEL,
        (in_band, short),
        verdict_of(lines),
        (*lines, Line("no_moisture_told")),
        ("drying", "method_limits"),
    )
