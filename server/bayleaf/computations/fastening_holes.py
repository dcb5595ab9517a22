"""Documents about holes: measured size and ovality to a decision."""

from __future__ import annotations

from bayleaf.computations import fastening_sources as src
from bayleaf.computations.fields import (
    DIAMETER,
    EDGE_2D,
    NUMBER_KEY,
    PITCH_3D,
    listed,
    mapped,
    mm,
    number,
    tupled,
    whole,
)
from bayleaf.computations.numbered import by_number
from bayleaf.computations.shapes import Computation, Inputs, Outcome
from bayleaf.fastening import holes
from bayleaf.fastening.holes import Hole, HoleRules
from bayleaf.fastening.refusal import Refused


def _hole(asked: Inputs) -> Outcome:
    hole = _hole_asked(asked)
    decided = holes.decide(hole, _rules_asked(asked))
    result = {
        "decision": decided.decision,
        "rivet_diameter_mm": decided.rivet_mm,
        "ovality_mm": hole.ovality_mm,
        "drill_to_mm": decided.drill_to_mm,
        "reason": decided.reason,
    }
    remarks = (
        ("check edge distance and pitch of the neighbours again",) if decided.decision == "next_size" else ()
    )
    return Outcome(result, remarks=remarks)


def _hole_asked(asked: Inputs) -> Hole:
    largest, smallest = asked.get("measured_max_mm"), asked.get("measured_min_mm")
    if largest is None or smallest is None:
        largest, smallest = max(asked["diameters_mm"]), min(asked["diameters_mm"])
    return Hole(
        asked["nominal_diameter_mm"],
        largest,
        smallest,
        asked.get("edge_distance_mm"),
        asked.get("pitch_mm"),
    )


def _rules_asked(asked: Inputs) -> HoleRules:
    field = "hole_ranges_mm"
    makers = by_number(field, asked.get(field, {}))
    for nominal, (low, high) in makers.items():
        if low > high:
            raise Refused(f"{field}.{nominal:g}", f"{low} to {high} mm", "the smallest hole first")
    return HoleRules(
        asked["ovality_limit_mm"],
        asked["sizes_up_allowed"],
        asked["edge_minimum_in_diameters"],
        asked["pitch_minimum_in_diameters"],
        tuple(asked["sizes_kept_mm"]),
        {nominal: (low, high) for nominal, (low, high) in makers.items()},
    )


# Not bounded at zero here: what is no diameter at all is refused with the reason that it is a slip.
MEASURED = number("measured diameter of the hole, mm")

COMPUTATIONS = (
    Computation(
        "hole",
        "A measured hole to a decision: use it, open it, next size, or ask the maker",
        holes.MODEL,
        (src.AC_HOLE, f"how size and ovality decide: {src.PRACTICE}", src.ISO_15977_HOLES),
        _hole,
        asks={"nominal_diameter_mm": DIAMETER},
        may={
            "measured_max_mm": MEASURED,
            "measured_min_mm": MEASURED,
            "diameters_mm": tupled("two diameters at right angles, mm, in any order", MEASURED, MEASURED),
            "ovality_limit_mm": number("largest ovality, mm; common practice", low=0, high=5, default=0.1),
            "edge_distance_mm": mm("hole's centre to the edge, mm", zero=True),
            "pitch_mm": mm("to the nearest hole's centre, mm", zero=True),
            "sizes_kept_mm": listed("diameters that the shop has, mm", DIAMETER, least=0, default=[]),
            "sizes_up_allowed": whole("sizes that the maker lets one go up", high=10, default=1),
            "edge_minimum_in_diameters": EDGE_2D,
            "pitch_minimum_in_diameters": PITCH_3D,
            "hole_ranges_mm": mapped(
                "the maker's smallest and largest hole by nominal diameter, mm",
                tupled("smallest, largest", DIAMETER, DIAMETER),
                keys=NUMBER_KEY,
            ),
        },
        one_of=(("measured_max_mm", "measured_min_mm"), ("diameters_mm",)),
    ),
)
