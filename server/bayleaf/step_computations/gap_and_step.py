"""Gaps and steps of the fit against their limits, how even they are, and what moved since the dry fit."""

from __future__ import annotations

from collections.abc import Mapping

from bayleaf.bonding import dry_fit
from bayleaf.step_computations.figures import difference, finest, is_over, steps_of
from bayleaf.step_computations.inputs import Points, Quantity
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value, verdict_of

Measured = Mapping[str, Quantity]


def gap_and_step(question: Question) -> Answer:
    """Every point: |gap - gap_nominal| and |step| against what is allowed, in whole steps; on it is good."""
    gaps, steps = question.points("gap").quantities(), question.points("step").quantities()
    if set(gaps) != set(steps):
        raise Unanswerable("step", "other_points")
    nominal = question.quantity("gap_nominal")
    off = {name: _size(difference(name, gap, nominal, "mm")) for name, gap in gaps.items()}
    sizes = {name: _size(Value(name, step.value, "mm", step.decimals)) for name, step in steps.items()}
    lines = _over(off, question.quantity("gap_allowed"), "gap_over")
    lines += _over(sizes, question.quantity("step_allowed"), "step_over")
    widest, narrowest = _widest(gaps, "widest_gap"), _narrowest(gaps, "narrowest_gap")
    values = [
        widest,
        narrowest,
        difference("gap_spread", widest, narrowest, "mm"),
        _widest(sizes, "largest_step"),
    ]
    moved = [one for name, now in (("gap", gaps), ("step", steps)) for one in _moved(question, name, now)]
    return Answer(dry_fit.MODEL, (*values, *moved), verdict_of(lines), tuple(lines), ("method_limits",))


def _size(value: Value) -> Value:
    return Value(value.name, abs(value.value), value.unit, value.decimals)


def _over(found: Mapping[str, Value], allowed: Quantity, code: str) -> list[Line]:
    over = tuple(name for name, one in found.items() if is_over(one, allowed))
    limit = Value("allowed", allowed.value, allowed.unit, allowed.decimals)
    return [Line(code, "stop", over, (limit,))] if over else []


def _widest(found: Mapping[str, Quantity | Value], name: str) -> Value:
    decimals = finest(found.values())
    return Value(name, max(steps_of(one, decimals) for one in found.values()), "mm", decimals)


def _narrowest(found: Mapping[str, Quantity], name: str) -> Value:
    decimals = finest(found.values())
    return Value(name, min(steps_of(one, decimals) for one in found.values()), "mm", decimals)


def _moved(question: Question, name: str, now: Measured) -> list[Value]:
    dry = question.find(f"dry_{name}", Points)
    if dry is None:
        return []
    before = dry.quantities()
    both = {
        point: _size(difference(point, one, before[point], "mm"))
        for point, one in now.items()
        if point in before
    }
    return [_widest(both, f"{name}_moved")] if both else []
