"""Documents about how much materials grow: aluminium, steel, laminates."""

from __future__ import annotations

from typing import Any

from bayleaf.bonding import expansion
from bayleaf.bonding.expansion import Growth, Lamina
from bayleaf.computations import bonding_sources as src
from bayleaf.computations.fields import celsius, listed, mm, number
from bayleaf.computations.shapes import Computation, Inputs, Outcome


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
            along, across = expansion.laminate_per_K(ply, asked[field], field)
            result |= {f"{prefix}along_per_K": along, f"{prefix}across_per_K": across}
    if "stack_quasi_isotropic_deg" in asked:
        field = "stack_quasi_isotropic_deg"
        along, across = expansion.laminate_per_K(ply, asked[field], field)
        result |= {"quasi_isotropic_stack_along_per_K": along, "quasi_isotropic_stack_across_per_K": across}
    return Outcome(result)


PER_K = number("expansion, 1/K", low=-1e-4, high=1e-3)


MODULUS = number("modulus, MPa", above=0, high=1e6)


LENGTH = mm("length of the joint, mm")


STACK = listed("ply angles from one face to the other, degrees", number("degrees", low=-360, high=360))

COMPUTATIONS = (
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
)
