"""Holes of each drill bit against what one may do, and how many the last one may still do.

Every bit is taken to have done as many holes as were counted for one, the last what is left over.
"""

from __future__ import annotations

from bayleaf.fastening import bits
from bayleaf.step_computations.figures import number_of
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value, verdict_of


def bit_use(question: Question) -> Answer:
    """`per_bit` of `holes` against `limit`; the limit itself is allowed."""
    holes, per_bit, limit = (_count(question, name) for name in ("holes", "per_bit", "limit"))
    if per_bit > holes:
        raise Unanswerable("per_bit", "more_than_holes")
    use = bits.holes_per_bit(holes, limit, range(per_bit, holes, per_bit))
    most, last = Value("per_bit", per_bit, "pcs", 0), Value("last_bit", use.holes_per_bit[-1], "pcs", 0)
    allowed = Value("limit", limit, "pcs", 0)
    still = Value("last_bit_left", max(0, limit - last.value), "pcs", 0)
    lines = [Line("bit_over", "stop", (), (most, allowed))] if use.bits_over_limit else []
    lines.append(Line("bit_change_now" if still.value == 0 else "bit_change_after", "note", (), (still,)))
    used = Value("bits_used", len(use.holes_per_bit), "pcs", 0)
    needed = Value("bits_needed", use.bits_needed_at_least, "pcs", 0)
    return Answer(
        bits.MODEL,
        (most, allowed, used, needed, last, still),
        verdict_of(lines),
        tuple(lines),
        ("bits",),
    )


def _count(question: Question, name: str) -> int:
    found = question.quantity(name)
    if found.value <= 0:
        raise Unanswerable(name, "not_above_zero")
    return int(number_of(found))
