"""Documents about where rivets sit: edge distance, pitch, whole patterns."""

from __future__ import annotations

from typing import Any

from bayleaf.computations import fastening_sources as src
from bayleaf.computations.fields import (
    DIAMETER,
    EDGE_2D,
    PITCH_3D,
    POINT_MM,
    listed,
    mapped,
    mm,
    number,
    record,
    text,
    tupled,
)
from bayleaf.computations.shapes import Computation, Inputs, Outcome, Schema
from bayleaf.fastening import edges, pattern
from bayleaf.fastening.edges import Distance, LayerDistance, LayerRule

MOST_POSITIONS = 1000  # every pair is looked at
IN_DIAMETERS = number("minimum, in diameters of the rivet", above=0, high=20)


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
    names = {f"layers[{place}]": one for place, one in enumerate(asked["layers"])}
    rules = {place: _rule_of(one, place) for place, one in names.items()}
    diameter = asked["nominal_diameter_mm"]
    to_edge = edges.edge_by_layer(
        {place: one["edge_distance_mm"] for place, one in names.items()}, diameter, rules
    )
    result: dict[str, Any] = {"edge": _layers_told(to_edge, names)}
    if "pitch_mm" in asked:
        result["pitch"] = _layers_told(edges.pitch_by_layer(asked["pitch_mm"], diameter, rules), names)
    result["good"] = all(one["good"] for one in result.values())
    return Outcome(result, remarks=("the worst layer counts",))


def _rule_of(one: dict[str, Any], place: str) -> LayerRule:
    maker = one.get("maker_in_diameters")
    own = LayerRule(maker[0], maker[1], "the maker's figure") if maker else None
    return edges.rule_for(one["material"], own, f"{place}.material")


def _layers_told(found: list[LayerDistance], names: dict[str, Any]) -> dict[str, Any]:
    """By place, since two layers may carry one name."""
    worst = edges.worst(found)
    return {
        "good": all(one.distance.good for one in found),
        "worst_layer": names[worst.layer]["layer"],
        "layers": [
            {"layer": names[one.layer]["layer"], **_told(one.distance), "rule": one.source} for one in found
        ],
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
                most=MOST_POSITIONS,
            )
        },
        may={
            "edge_polyline_mm": listed("corners of the edge, mm", POINT_MM),
            "edge_minimum_in_diameters": EDGE_2D,
            "pitch_minimum_in_diameters": PITCH_3D,
        },
    ),
)
