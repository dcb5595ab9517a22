"""Documents about shape: expansion, thermal mismatch, dry fit, body, best fit."""

from __future__ import annotations

from typing import Any

from bayleaf.bonding import best_fit, dry_fit, expansion, mismatch
from bayleaf.bonding.expansion import Growth, Lamina
from bayleaf.bonding.mismatch import Pairing
from bayleaf.computations import bonding_sources as src
from bayleaf.computations.fields import POINT_3D_MM, celsius, listed, mapped, mm, number, record, text, tupled
from bayleaf.computations.shapes import Computation, Inputs, Outcome, Schema

BOUND_SAID = (
    "free travel over thickness is only an upper bound: true of a soft sealant, absurd for stiff epoxy"
)
LAG_SAID = "elastic shear lag: no peel, no bending, no creep"


def _pairing(asked: Inputs) -> Pairing:
    return Pairing(asked["expansion_metal_per_K"], asked["expansion_composite_per_K"], asked["length_mm"])


def _travel(asked: Inputs) -> Outcome:
    found = mismatch.travel(_pairing(asked), asked["temperature_low_C"], asked["temperature_high_C"])
    result = {
        "differential_expansion_mm": found.differential_mm,
        "each_end_if_middle_held_mm": found.each_end_mm,
        f"{asked['metal']}_mm": found.metal_mm,
        "composite_mm": found.composite_mm,
    }
    return Outcome(
        result, remarks=("between the two extremes; what strains a bond is the travel since it set",)
    )


def _bound(asked: Inputs) -> Outcome:
    found = mismatch.upper_bound(
        _pairing(asked), asked["set_temperature_C"], asked["temperature_C"], asked["bondline_mm"]
    )
    result = {
        "end_travel_mm": found.end_travel_mm,
        "shear_strain_end_upper_bound": found.shear_strain,
        "elongation_of_layer_fibre_upper_bound": found.elongation,
    }
    return Outcome(result, remarks=(BOUND_SAID,))


def _lag(asked: Inputs) -> Outcome:
    joint = mismatch.ElasticJoint(
        asked["bondline_mm"],
        asked["adhesive_shear_modulus_MPa"],
        asked["metal_modulus_MPa"],
        asked["metal_thickness_mm"],
        asked["composite_modulus_MPa"],
        asked["composite_thickness_mm"],
    )
    found = mismatch.shear_lag(_pairing(asked), asked["set_temperature_C"], asked["temperature_C"], joint)
    bound = _bound(asked).result
    result = {
        "shear_lag_parameter_per_mm": found.parameter_per_mm,
        "shear_strain_end": found.end_strain,
        "shear_stress_end_MPa": found.end_stress_MPa,
        "share_of_upper_bound": found.share_of_upper_bound,
        **bound,
    }
    return Outcome(result, remarks=(LAG_SAID, BOUND_SAID))


def _double_lap(asked: Inputs) -> Outcome:
    lap = mismatch.DoubleLap(
        length=asked["bond_length_in"],
        width=asked["width_in"],
        bondline=asked["adhesive_thickness_in"],
        shear_modulus=asked["adhesive_shear_modulus_psi"],
        outer_thickness=asked["outer_thickness_in"],
        outer_modulus=asked["outer_modulus_psi"],
        outer_per_degree=asked["outer_expansion_per_F"],
        inner_thickness=asked["inner_thickness_in"],
        inner_modulus=asked["inner_modulus_psi"],
        inner_per_degree=asked["inner_expansion_per_F"],
    )
    found = mismatch.double_lap(lap, asked["temperature_F"] - asked["set_temperature_F"], asked["load_lbf"])
    result = {
        "shear_lag_parameter_per_in": found.parameter,
        "thermal_amplitude_psi": found.thermal_amplitude,
        "thermal_shear_stress_end_psi": found.thermal_end,
        "load_shear_stress_end_psi": found.load_end,
        "largest_total_psi": found.largest,
    }
    return Outcome(result, remarks=("a textbook's worked example, in its own units",))


def _aluminium(asked: Inputs) -> Outcome:
    growth = expansion.aluminium_6061(asked["temperature_C"])
    return Outcome(_grown(growth, asked), {"relative_error": [-0.04, 0.04]})


def _steel(asked: Inputs) -> Outcome:
    return Outcome(_grown(expansion.carbon_steel(asked["temperature_C"]), asked))


def _grown(growth: Growth, asked: Inputs) -> dict[str, Any]:
    to = f"{asked['temperature_C']:g}".replace("-", "minus")
    return {
        "strain": growth.strain,
        "length_change_mm": growth.change_mm(asked["length_mm"]),
        "mean_expansion_per_K": growth.mean_per_K,
        f"mean_expansion_20_to_{to}_per_K": growth.mean_per_K,
    }


def _laminate(asked: Inputs) -> Outcome:
    ply = Lamina(
        asked["E1_MPa"],
        asked["E2_MPa"],
        asked["nu12"],
        asked["G12_MPa"],
        asked["expansion_1_per_K"],
        asked["expansion_2_per_K"],
    )
    result = {"quasi_isotropic_per_K": expansion.quasi_isotropic_per_K(ply)}
    for field, prefix in (("stack_deg", ""), ("stack_ud_dominated_deg", "ud_dominated_")):
        if field in asked:
            along, across = expansion.laminate_per_K(ply, asked[field])
            result |= {f"{prefix}along_per_K": along, f"{prefix}across_per_K": across}
    if "stack_quasi_isotropic_deg" in asked:
        along, across = expansion.laminate_per_K(ply, asked["stack_quasi_isotropic_deg"])
        result |= {"quasi_isotropic_stack_along_per_K": along, "quasi_isotropic_stack_across_per_K": across}
    return Outcome(result)


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
    if found.mirrored:
        said.append("a mirror image would fit better: sides swapped, or a sign lost?")
    if found.near_a_line:
        said.append("the points lie near a line: the turn about it is poorly held")
    if points == best_fit.LEAST_POINTS:
        said.append("three points leave no check: a small residual says nothing")
    return tuple(said)


PER_K = number("expansion, 1/K", low=-1e-4, high=1e-3)
MODULUS = number("modulus, MPa", above=0, high=1e6)
LENGTH = mm("length of the joint, mm")
PAIRING: dict[str, Schema] = {
    "expansion_metal_per_K": PER_K,
    "expansion_composite_per_K": PER_K,
    "length_mm": LENGTH,
}
SET_AT: dict[str, Schema] = {
    "set_temperature_C": celsius("temperature at which the bond set, C", low=-100),
    "temperature_C": celsius("temperature that is asked about, C", low=-100),
    "bondline_mm": mm("bondline, mm"),
}
STACK = listed("ply angles from one face to the other, degrees", number("degrees", low=-360, high=360))
INCH = number("inch", above=0, high=1000)
PSI = number("psi", above=0, high=1e9)
PER_F = number("expansion, 1/F", low=-1e-3, high=1e-3)
DEGREE_F = number("F", low=-200, high=800)
OFF = number("mm, signed", low=-1000, high=1000)

COMPUTATIONS = (
    Computation(
        "mismatch-travel",
        "How far two parts grow apart between two temperatures if nothing holds them",
        mismatch.MODEL,
        (src.GEOMETRY,),
        _travel,
        asks={
            **PAIRING,
            "temperature_low_C": celsius("coldest, C", low=-100),
            "temperature_high_C": celsius("hottest, C", low=-100),
        },
        may={"metal": text("names its figure", choices=("aluminium", "steel", "metal"), default="aluminium")},
    ),
    Computation(
        "mismatch-bound",
        "Upper bound of the bondline's strain at the joint's end since it set",
        mismatch.MODEL,
        (src.GEOMETRY,),
        _bound,
        asks={**PAIRING, **SET_AT},
    ),
    Computation(
        "mismatch-shear-lag",
        "Shear at the joint's end with both parts elastic, beside its upper bound",
        mismatch.MODEL,
        (src.VOLKERSEN,),
        _lag,
        asks={
            **PAIRING,
            **SET_AT,
            "adhesive_shear_modulus_MPa": MODULUS,
            "metal_modulus_MPa": MODULUS,
            "metal_thickness_mm": mm("metal, mm"),
            "composite_modulus_MPa": MODULUS,
            "composite_thickness_mm": mm("composite, mm"),
        },
    ),
    Computation(
        "double-lap",
        "A textbook's double lap: thermal and load shear at the end, in inches, psi and F",
        mismatch.MODEL,
        (src.SHIGLEY,),
        _double_lap,
        asks={
            **{f"{name}_in": INCH for name in ("bond_length", "width", "adhesive_thickness")},
            "adhesive_shear_modulus_psi": PSI,
            "outer_thickness_in": INCH,
            "outer_modulus_psi": PSI,
            "outer_expansion_per_F": PER_F,
            "inner_thickness_in": INCH,
            "inner_modulus_psi": PSI,
            "inner_expansion_per_F": PER_F,
            "set_temperature_F": DEGREE_F,
            "temperature_F": DEGREE_F,
            "load_lbf": number("load along the joint, lbf"),
        },
    ),
    Computation(
        "expansion-aluminium",
        "Growth of 6061 aluminium from 20 C by a published polynomial",
        expansion.MODEL,
        (src.NIST_6061,),
        _aluminium,
        asks={
            "temperature_C": celsius(
                expansion.ALUMINIUM_C.why, low=expansion.ALUMINIUM_C.low, high=expansion.ALUMINIUM_C.high
            ),
            "length_mm": LENGTH,
        },
    ),
    Computation(
        "expansion-steel",
        "Growth of carbon steel from 20 C",
        expansion.MODEL,
        (src.EN_1993,),
        _steel,
        asks={
            "temperature_C": celsius(
                expansion.STEEL_C.why, low=expansion.STEEL_C.low, high=expansion.STEEL_C.high
            ),
            "length_mm": LENGTH,
        },
    ),
    Computation(
        "expansion-laminate",
        "Expansion of a symmetric laminate from its lamina",
        expansion.MODEL,
        (src.KAW,),
        _laminate,
        asks={
            "E1_MPa": MODULUS,
            "E2_MPa": MODULUS,
            "nu12": number("Poisson's ratio", low=0, below=1),
            "G12_MPa": MODULUS,
            "expansion_1_per_K": PER_K,
            "expansion_2_per_K": PER_K,
        },
        may={"stack_deg": STACK, "stack_quasi_isotropic_deg": STACK, "stack_ud_dominated_deg": STACK},
    ),
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
