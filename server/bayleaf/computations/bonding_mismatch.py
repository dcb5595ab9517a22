"""Documents about heat and cold in a joint: travel, upper bound, shear lag."""

from __future__ import annotations

from bayleaf.bonding import mismatch
from bayleaf.bonding.mismatch import Pairing
from bayleaf.bonding.refusal import Refused
from bayleaf.computations import bonding_sources as src
from bayleaf.computations.fields import celsius, mm, number, text
from bayleaf.computations.shapes import Computation, Inputs, Outcome, Schema

BOUND_SAID = (
    "free travel over thickness is only an upper bound: true of a soft sealant, absurd for stiff epoxy"
)


LAG_SAID = "elastic shear lag: no peel, no bending, no creep"


def _pairing(asked: Inputs) -> Pairing:
    return Pairing(asked["expansion_metal_per_K"], asked["expansion_composite_per_K"], asked["length_mm"])


def _travel(asked: Inputs) -> Outcome:
    low, high = asked["temperature_low_C"], asked["temperature_high_C"]
    if low > high:
        raise Refused("temperature_low_C", f"{low} C", f"at most temperature_high_C, {high} C")
    found = mismatch.travel(_pairing(asked), low, high)
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


INCH = number("inch", above=0, high=1000)


PSI = number("psi", above=0, high=1e9)


PER_F = number("expansion, 1/F", low=-1e-3, high=1e-3)


DEGREE_F = number("F", low=-200, high=800)

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
)
