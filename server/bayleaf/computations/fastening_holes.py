"""Documents about where rivets sit: holes, edge distance, pitch, whole patterns."""

from __future__ import annotations

from typing import Any

from bayleaf.computations import fastening_sources as src
from bayleaf.computations.fields import (
    DIAMETER,
    NUMBER_KEY,
    POINT_MM,
    listed,
    mapped,
    mm,
    number,
    record,
    text,
    tupled,
    whole,
)
from bayleaf.computations.shapes import Computation, Inputs, Outcome, Schema
from bayleaf.fastening import edges, holes, pattern
from bayleaf.fastening.edges import Distance, LayerDistance, LayerRule
from bayleaf.fastening.holes import Hole, HoleRules

IN_DIAMETERS = number("minimum, in diameters of the rivet", above=0, high=20)


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
    makers = asked.get("hole_ranges_mm", {})
    return HoleRules(
        asked["ovality_limit_mm"],
        asked["sizes_up_allowed"],
        asked["edge_minimum_in_diameters"],
        asked["pitch_minimum_in_diameters"],
        tuple(asked["sizes_kept_mm"]),
        {float(nominal): (low, high) for nominal, (low, high) in makers.items()},
    )


def _edge(asked: Inputs) -> Outcome:
    diameter, factor = asked["nominal_diameter_mm"], asked["minimum_in_diameters"]
    if "edge_distance_mm" in asked:
        return Outcome(_told(edges.against_minimum(asked["edge_distance_mm"], diameter, factor)))
    found = edges.to_polyline_mm(tuple(asked["position_mm"]), [tuple(p) for p in asked["edge_polyline_mm"]])
    return Outcome({"edge_distance_mm": found, **_told(edges.against_minimum(found, diameter, factor))})


def _pitch(asked: Inputs) -> Outcome:
    diameter, pitch = asked["nominal_diameter_mm"], asked["pitch_mm"]
    told = _told(edges.against_minimum(pitch, diameter, asked["minimum_in_diameters"]))
    wide = edges.is_wider_than_usual(pitch, diameter, asked["usual_maximum_in_diameters"])
    remarks = ("wider than usual: a remark, not a fault",) if wide else ()
    return Outcome({**told, "wider_than_usual": wide}, remarks=remarks)


def _pitch_of_pair(asked: Inputs) -> Outcome:
    first, second = asked["diameter_first_mm"], asked["diameter_second_mm"]
    pair = pattern.pitch_of_pair(first, second, asked["pitch_mm"], asked["minimum_in_diameters"])
    return Outcome(_told(pair))


def _pitch_added(asked: Inputs) -> Outcome:
    others = {name: tuple(at) for name, at in asked["positions_mm"].items()}
    names, far = pattern.nearest(tuple(asked["added_mm"]), others)
    told = _told(edges.against_minimum(far, asked["nominal_diameter_mm"], asked["minimum_in_diameters"]))
    return Outcome({"nearest": names, "nearest_distance_mm": far, **told})


def _by_layer(asked: Inputs) -> Outcome:
    rules = {one["layer"]: _rule_of(one) for one in asked["layers"]}
    diameter = asked["nominal_diameter_mm"]
    to_edge = edges.edge_by_layer(
        {one["layer"]: one["edge_distance_mm"] for one in asked["layers"]}, diameter, rules
    )
    result: dict[str, Any] = {"edge": _layers_told(to_edge)}
    if "pitch_mm" in asked:
        result["pitch"] = _layers_told(edges.pitch_by_layer(asked["pitch_mm"], diameter, rules))
    result["good"] = all(one["good"] for one in result.values())
    return Outcome(result, remarks=("the worst layer counts",))


def _rule_of(one: dict[str, Any]) -> LayerRule:
    maker = one.get("maker_in_diameters")
    own = LayerRule(maker[0], maker[1], "the maker's figure") if maker else None
    return edges.rule_for(one["material"], own)


def _layers_told(found: list[LayerDistance]) -> dict[str, Any]:
    worst = edges.worst(found)
    return {
        "good": all(one.distance.good for one in found),
        "worst_layer": worst.layer,
        "layers": [{"layer": one.layer, **_told(one.distance), "rule": one.source} for one in found],
    }


def _pattern(asked: Inputs) -> Outcome:
    placed = [
        pattern.Position(name, tuple(one["centre_mm"]), one["diameter_mm"])
        for name, one in asked["positions"].items()
    ]
    edge = [tuple(point) for point in asked.get("edge_polyline_mm", [])]
    faults = pattern.pattern_faults(
        placed, edge, asked["edge_minimum_in_diameters"], asked["pitch_minimum_in_diameters"]
    )
    told = [{"first": one.first, "second": one.second, **_told(one.distance)} for one in faults]
    return Outcome({"good": not told, "too_close": told})


def _told(distance: Distance) -> dict[str, Any]:
    return {
        "found_mm": distance.found_mm,
        "minimum_mm": distance.minimum_mm,
        "ratio": distance.ratio,
        "good": distance.good,
        "short_by_mm": distance.short_by_mm,
    }


EDGE_2D = number("edge minimum, in diameters", above=0, high=20, default=2.0)
PITCH_3D = number("pitch minimum, in diameters", above=0, high=20, default=3.0)
# Not bounded at zero here: what is no diameter at all is refused with the reason that it is a slip.
MEASURED = number("measured diameter of the hole, mm")
LAYER: Schema = record(
    "one layer of the stack-up",
    {
        "layer": text("its name"),
        "material": text("aluminium or carbon laminate; others with the maker's figure"),
        "edge_distance_mm": mm("hole's centre to this layer's edge, mm", zero=True),
    },
    {"maker_in_diameters": tupled("the maker's edge and pitch minimum", IN_DIAMETERS, IN_DIAMETERS)},
)

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
    Computation(
        "edge",
        "Edge distance against a minimum: as measured, or from a position to an edge drawn as a polyline",
        edges.MODEL,
        (src.AC_EDGE, src.LAMINATE),
        _edge,
        asks={"nominal_diameter_mm": DIAMETER},
        may={
            "minimum_in_diameters": number("edge minimum, in diameters", above=0, high=20, default=2.0),
            "edge_distance_mm": mm("hole's centre to the edge, mm", zero=True),
            "position_mm": POINT_MM,
            "edge_polyline_mm": listed("corners of the edge, mm", POINT_MM),
        },
        one_of=(("edge_distance_mm",), ("position_mm", "edge_polyline_mm")),
    ),
    Computation(
        "pitch",
        "Pitch against its minimum and the usual widest",
        edges.MODEL,
        (src.AC_EDGE, src.NAVEDTRA),
        _pitch,
        asks={"nominal_diameter_mm": DIAMETER, "pitch_mm": mm("centre to centre, mm", zero=True)},
        may={
            "minimum_in_diameters": PITCH_3D,
            "usual_maximum_in_diameters": number("usual widest, in diameters", above=0, high=50, default=8.0),
        },
    ),
    Computation(
        "pitch-pair",
        "Pitch between neighbours of different diameter: the larger sets the minimum",
        pattern.MODEL,
        (src.AC_EDGE, f"the larger of two diameters: {src.PRACTICE}"),
        _pitch_of_pair,
        asks={
            "diameter_first_mm": DIAMETER,
            "diameter_second_mm": DIAMETER,
            "pitch_mm": mm("centre to centre, mm", zero=True),
        },
        may={"minimum_in_diameters": PITCH_3D},
    ),
    Computation(
        "pitch-added",
        "An added position against its nearest neighbours",
        pattern.MODEL,
        (src.AC_EDGE,),
        _pitch_added,
        asks={
            "nominal_diameter_mm": DIAMETER,
            "positions_mm": mapped("centres by position, mm", POINT_MM),
            "added_mm": POINT_MM,
        },
        may={"minimum_in_diameters": PITCH_3D},
    ),
    Computation(
        "edge-by-layer",
        "Edge distance and pitch by each layer's own rule; the worst layer counts",
        edges.MODEL,
        (src.AC_EDGE, src.LAMINATE),
        _by_layer,
        asks={"nominal_diameter_mm": DIAMETER, "layers": listed("layers, outside to inside", LAYER)},
        may={"pitch_mm": mm("to the nearest hole's centre, mm", zero=True)},
    ),
    Computation(
        "pattern",
        "A whole pattern: every pair and every edge distance, again after one hole went up a size",
        pattern.MODEL,
        (src.AC_EDGE, f"the larger of two diameters: {src.PRACTICE}"),
        _pattern,
        asks={
            "positions": mapped(
                "positions by name",
                record("a position", {"centre_mm": POINT_MM, "diameter_mm": DIAMETER}),
            )
        },
        may={
            "edge_polyline_mm": listed("corners of the edge, mm", POINT_MM),
            "edge_minimum_in_diameters": EDGE_2D,
            "pitch_minimum_in_diameters": PITCH_3D,
        },
    ),
)
