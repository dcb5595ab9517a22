"""Body points against their nominal places, and against themselves before, both by rigid best fit.

What the fit takes away is how the body stood under the measuring system; what it leaves is how the body
changed its shape. Deviations are added to the nominal places, so that the fit sees places.
"""

from __future__ import annotations

import math
from typing import Final

from bayleaf.bonding import best_fit as bonding
from bayleaf.bonding.refusal import Refused
from bayleaf.step_computations.figures import figure, is_over, number_of
from bayleaf.step_computations.inputs import Points
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable, Value, verdict_of

_AXES: Final = ("dx", "dy", "dz")
_MM: Final = 2
Places = dict[str, tuple[float, float, float]]


def best_fit(question: Question) -> Answer:
    """Residuals after the fit, each length against `largest_allowed`; with `before_d*` also what moved."""
    nominal = {place.id: place.at_mm for place in question.places}
    if not nominal:
        raise Unanswerable("places", "not_there")
    now = _measured(question, nominal, "")
    fit = _fitted(nominal, now)
    values = [
        figure("largest_residual", max(fit.residual_length_mm.values()), "mm", _MM),
        figure("rms", fit.rms_mm, "mm", _MM),
        figure("turned", fit.angle_deg, "deg", 3),
        figure("largest_deviation", _largest_apart(nominal, now), "mm", _MM),
    ]
    values += [figure(f"residual_{name}", mm, "mm", _MM) for name, mm in fit.residual_length_mm.items()]
    lines = _notes(fit)
    lines += _over(question, values[0], fit.residual_length_mm, "residual_over")
    if question.find("before_dx", Points) is not None:
        moved = _fitted(_measured(question, nominal, "before_"), now).residual_length_mm
        largest = figure("largest_moved", max(moved.values()), "mm", _MM)
        values += [largest, *(figure(f"moved_{name}", mm, "mm", _MM) for name, mm in moved.items())]
        lines += _over(question, largest, moved, "moved_over")
    return Answer(bonding.MODEL, tuple(values), verdict_of(lines), tuple(lines), ("kabsch",))


def _measured(question: Question, nominal: Places, before: str) -> Places:
    axes = [question.points(f"{before}{axis}").quantities() for axis in _AXES]
    if any(set(axis) != set(nominal) for axis in axes):
        raise Unanswerable(f"{before}dx", "other_points")
    off = [{name: number_of(one) for name, one in axis.items()} for axis in axes]
    return {
        name: (x + off[0][name], y + off[1][name], z + off[2][name]) for name, (x, y, z) in nominal.items()
    }


def _fitted(first: Places, second: Places) -> bonding.BestFit:
    try:
        return bonding.best_fit(first, second)
    except Refused as refused:
        raise Unanswerable("places", "on_a_line") from refused


def _largest_apart(nominal: Places, now: Places) -> float:
    return max(math.dist(nominal[name], now[name]) for name in nominal)


def _notes(fit: bonding.BestFit) -> list[Line]:
    near = [Line("near_a_line")] if fit.near_a_line else []
    return near + ([Line("mirrored")] if fit.mirrored else [])


def _over(question: Question, largest: Value, by_point: dict[str, float], code: str) -> list[Line]:
    allowed = question.quantity("largest_allowed")
    named = [figure(name, mm, "mm", _MM) for name, mm in by_point.items()]
    over = [one for one in named if is_over(one, allowed)]
    if not over:
        return []
    limit = Value("allowed", allowed.value, allowed.unit, allowed.decimals)
    return [Line(code, "stop", tuple(one.name for one in over), (largest, limit))]
