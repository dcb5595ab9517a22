"""Travel between aluminium and laminate since the bond set, and what the bondline sees of it.

Travel over thickness is an upper bound: it holds for an adhesive that bends neither part. Elastic shear lag
is what a stiff one sees. The thinnest bondline counts, and the temperature farther from where it set.
"""

from __future__ import annotations

from bayleaf.bonding import mismatch
from bayleaf.step_computations.figures import figure, number_of
from bayleaf.step_computations.inputs import Points, Quantity
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.shapes import Answer, Line, Unanswerable

_LENGTHS = ("length", "flange_modulus", "laminate_modulus", "shear_modulus")


def thermal_mismatch(question: Question) -> Answer:
    """No verdict: what an adhesive bears is its sheet's affair."""
    for name in _LENGTHS:
        if question.quantity(name).value <= 0:
            raise Unanswerable(name, "not_above_zero")
    pairing = mismatch.Pairing(
        number_of(question.quantity("flange_expansion")) * 1e-6,
        number_of(question.quantity("laminate_expansion")) * 1e-6,
        number_of(question.quantity("length")),
    )
    set_C = number_of(question.quantity("set_at"))
    at_C = _farther(set_C, *(number_of(question.quantity(name)) for name in ("coldest", "hottest")))
    thinnest = min(_thicknesses(question, "bondline"))
    joint = mismatch.ElasticJoint(
        bondline_mm=thinnest,
        shear_modulus_MPa=number_of(question.quantity("shear_modulus")),
        metal_modulus_MPa=number_of(question.quantity("flange_modulus")),
        metal_mm=_mean(_thicknesses(question, "flange")),
        composite_modulus_MPa=number_of(question.quantity("laminate_modulus")),
        composite_mm=_mean(_thicknesses(question, "laminate")),
    )
    bound = mismatch.upper_bound(pairing, set_C, at_C, thinnest)
    lag = mismatch.shear_lag(pairing, set_C, at_C, joint)
    values = (
        figure("at", at_C, "C", 1),
        figure("travel", abs(mismatch.travel(pairing, set_C, at_C).differential_mm), "mm", 2),
        figure("end_travel", abs(bound.end_travel_mm), "mm", 2),
        figure("upper_bound", abs(bound.shear_strain) * 100, "%", 0),
        figure("end_strain", abs(lag.end_strain) * 100, "%", 1),
        figure("end_stress", abs(lag.end_stress_MPa), "MPa", 1),
        figure("thinnest", thinnest, "mm", 2),
    )
    return Answer(mismatch.MODEL, values, "none", (Line("upper_bound"), Line("elastic_only")), ("shear_lag",))


def _farther(set_C: float, coldest_C: float, hottest_C: float) -> float:
    return coldest_C if abs(coldest_C - set_C) >= abs(hottest_C - set_C) else hottest_C


def _thicknesses(question: Question, name: str) -> list[float]:
    found = question.find(name, Points)
    read = list(found.quantities().values()) if found is not None else [question.want(name, Quantity)]
    if not read or any(one.value <= 0 for one in read):
        raise Unanswerable(name, "not_above_zero")
    return [number_of(one) for one in read]


def _mean(thicknesses_mm: list[float]) -> float:
    return sum(thicknesses_mm) / len(thicknesses_mm)
