"""Documents about shape: dry fit, body, best fit."""

from __future__ import annotations

from bayleaf.bonding import best_fit, dry_fit
from bayleaf.computations import bonding_sources as src
from bayleaf.computations.fields import POINT_3D_MM, mapped, mm, number, record, tupled
from bayleaf.computations.shapes import Computation, Inputs, Outcome


def _dry_fit(asked: Inputs) -> Outcome:
    rule = dry_fit.FitRule(asked["gap_mm"], asked["gap_tolerance_mm"], asked["step_tolerance_mm"])
    points = [dry_fit.FitPoint(name, one["gap_mm"], one["step_mm"]) for name, one in asked["points"].items()]
    verdicts = dry_fit.judge_fit(points, rule)
    told = {
        one.point: {"good": one.good, "gap_over_mm": one.gap_over_mm, "step_over_mm": one.step_over_mm}
        for one in verdicts
    }
    return Outcome({"good": all(one.good for one in verdicts), "points": told})


def _body(asked: Inputs) -> Outcome:
    first, second = asked["diagonals_mm"]
    limits = (asked["deviation_limit_mm"], asked["diagonal_difference_limit_mm"])
    found = dry_fit.judge_body(asked["deviations_mm"], (first, second), limits)
    result = {
        "largest_at": found.largest_at,
        "largest_mm": found.largest_mm,
        "points_over": list(found.points_over),
        "diagonal_difference_mm": found.diagonal_difference_mm,
        "diagonals_good": found.diagonals_good,
        "good": found.good,
    }
    return Outcome(result)


def _best_fit(asked: Inputs) -> Outcome:
    nominal, measured = (
        {name: (x, y, z) for name, (x, y, z) in asked[field].items()}
        for field in ("nominal_mm", "measured_mm")
    )
    found = best_fit.best_fit(nominal, measured)
    result = {
        "rotation_matrix": found.rotation,
        "translation_mm": found.translation_mm,
        "rms_residual_mm": found.rms_mm,
        "residual_mm": found.residual_mm,
        "residual_length_mm": found.residual_length_mm,
        "largest_residual_at": found.largest_at,
        "determinant": found.determinant,
        "rotation_angle_deg": found.angle_deg,
        "second_singular_value_mm": found.second_singular_mm,
        "near_a_line": found.near_a_line,
        "uncorrected_determinant_is_minus_one": found.mirrored,
    }
    return Outcome(result, remarks=_fit_remarks(found, len(nominal)))


def _fit_remarks(found: best_fit.BestFit, points: int) -> tuple[str, ...]:
    said = ["least squares spreads one bent corner over all points; rms is over points"]
    if found.mirror_fits_better:
        said.append("a mirror image would fit better: sides swapped, or a sign lost?")
    if found.near_a_line:
        said.append("the points lie near a line: the turn about it is poorly held")
    if points == best_fit.LEAST_POINTS:
        said.append("three points leave no check: a small residual says nothing")
    return tuple(said)


OFF = number("mm, signed", low=-1000, high=1000)

COMPUTATIONS = (
    Computation(
        "dry-fit",
        "Gaps and steps of the dry fit against tolerances",
        dry_fit.MODEL,
        ("tolerances of the method, as given",),
        _dry_fit,
        asks={
            "gap_mm": mm("gap asked for, mm", zero=True),
            "gap_tolerance_mm": mm("either way, mm", zero=True),
            "step_tolerance_mm": mm("either way, mm", zero=True),
            "points": mapped("points by name", record("a point", {"gap_mm": OFF, "step_mm": OFF})),
        },
    ),
    Computation(
        "body",
        "Datum deviations and diagonals of the aperture: the largest, and what is over",
        dry_fit.MODEL,
        (f"limits: {src.PRACTICE}; the maker's figures override",),
        _body,
        asks={
            "deviations_mm": mapped("deviation of each datum point, mm", OFF),
            "diagonals_mm": tupled("both diagonals, mm", mm("mm"), mm("mm")),
        },
        may={
            "deviation_limit_mm": number("mm; common practice", above=0, high=100, default=3.0),
            "diagonal_difference_limit_mm": number("mm; common practice", above=0, high=100, default=2.0),
        },
    ),
    Computation(
        "best-fit",
        "Rigid best fit of named points, with what is left at each",
        best_fit.MODEL,
        (src.KABSCH,),
        _best_fit,
        asks={
            "nominal_mm": mapped("points as drawn, mm", POINT_3D_MM),
            "measured_mm": mapped("points as measured, mm", POINT_3D_MM),
        },
    ),
)
