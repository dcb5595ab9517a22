"""What a response set tells of its plan: the answer, where everything lies, and the planned curves."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.bondline import Curves, Spot, whole_window_s
from bayleaf.heat.model import MODEL_ID
from bayleaf.heat.nearby import NeighbourAnswer
from bayleaf.heat.plan import FIRST, Plan
from bayleaf.heat.plan_json import answer_sentence, metal_curve_C
from bayleaf.heat.response import differences, response_set, tenths
from bayleaf.heat.zone import Box, Sensor, Zone

Floats = NDArray[np.float64]
Json = dict[str, Any]
CLOCK_S = 60.0
TOUCHED_FOR = "1 min"  # the contact that `touch_s` is told for


def response_of(plan: Plan) -> Json:
    """The whole response set of a plan, as a phone gets it."""
    zone = plan.zone
    family = response_set(zone, plan.family, plan.acts, FIRST)
    return family | {
        "model": MODEL_ID,
        "name": zone.name,
        "invented": zone.invented,
        "answer": _answer(plan),
        "layout": _layout(plan),
        "plan": _planned(plan),
    }


def seconds(at_s: float) -> int | None:
    """Whole seconds; None for never."""
    return round(at_s) if math.isfinite(at_s) else None


def _answer(plan: Plan) -> Json:
    zone = plan.zone
    low, high = whole_window_s(plan.bond, plan.windows)
    touch = [one.from_s for one in plan.touch if one.contact == TOUCHED_FOR]
    return {
        "sentence": answer_sentence(plan),
        "feasible": not plan.troubles,
        "troubles": [one.sentence for one in plan.troubles],
        "mended_by": plan.mend,
        "workable_s": seconds(plan.workable_s),
        "from_s": seconds(plan.workable_from_s),
        "until_s": seconds(plan.workable_to_s),
        "heat_until_s": seconds(plan.heat_until_s),
        "soak_s": round(zone.soak_s),
        "wedging_s": round(zone.wedging_s),
        "window_from_s": seconds(low),
        "window_until_s": seconds(high),
        "bond_peak_dC": [tenths(T_C) for T_C in plan.peak_band_C],
        "metal_peak_dC": [tenths(T_C) for T_C in plan.metal_band_C],
        "touch_s": seconds(max(touch, default=0.0)),
        "touch_for": TOUCHED_FOR,
    }


def _layout(plan: Plan) -> Json:
    zone = plan.zone
    return {
        "size_mm": [mm(one) for one in zone.size_m],
        "bond": [box_mm(box) for box in zone.layer(zone.bondline).covers],
        "pads": [{"id": pad.id, "name": pad.name, "box_mm": box_mm(pad.box)} for pad in zone.pads],
        "sensors": [_sensor(zone, one) for one in zone.sensors],
        "neighbours": [_neighbour(one) for one in plan.neighbours],
        "leading": _spot(plan.leading),
        "lagging": _spot(plan.lagging),
    }


def mm(at_m: float) -> float | None:
    """Millimetres to a tenth; None for nowhere."""
    return round(at_m * 1e3, 1) if math.isfinite(at_m) else None


def box_mm(box: Box) -> list[float | None]:
    return [mm(one) for one in (box.x0, box.y0, box.x1, box.y1)]


def _sensor(zone: Zone, one: Sensor) -> Json:
    role = zone.layer(one.layer).role
    return {"id": one.id, "at_mm": [mm(one.x_m), mm(one.y_m)], "layer": one.layer, "role": role}


def _neighbour(one: NeighbourAnswer) -> Json:
    neighbour = one.neighbour
    return {
        "id": neighbour.id,
        "name": neighbour.name,
        "kind": neighbour.kind,
        "at_mm": [mm(neighbour.x_m), mm(neighbour.y_m)],
        "limit_C": neighbour.limit_C,
        "peak_C": round(one.hot_peak_C, 1),
        "passes_at_mm": mm(one.away_m),
    }


def _spot(spot: Spot) -> Json:
    found: Json = {"at_mm": [mm(spot.place.x_m), mm(spot.place.y_m)], "sensor": spot.sensor}
    if spot.sensor:
        found |= {"distance_mm": mm(spot.sensor_away_m), "reads_more_dK": tenths(spot.sensor_reads_K)}
    return found


def _planned(plan: Plan) -> Json:
    """Coldest and hottest bondline, hottest metal and every sensor, release and cool-down included."""
    clock_s = np.arange(0.0, plan.bond.times_s[-1] + 1, CLOCK_S)
    return {
        "clock_s": [round(float(at_s)) for at_s in clock_s],
        "c": _at(clock_s, plan.bond, plan.bond.coldest_C),
        "h": _at(clock_s, plan.bond, plan.bond.hottest_C),
        "m": _at(clock_s, plan.bond, metal_curve_C(plan)),
        "s": [_at(clock_s, plan.sensors, curve_C) for curve_C in plan.sensors.T_C.T],
    }


def _at(clock_s: Floats, curves: Curves, curve_C: Floats) -> list[int]:
    return differences(np.interp(clock_s, curves.times_s, curve_C))


def figures_of(plan: Plan) -> Json:
    """What a step's computation shows of a plan; temperatures in tenths of a degree, times in s."""
    answer, zone = _answer(plan), plan.zone
    kept = (
        "feasible", "workable_s", "from_s", "until_s", "heat_until_s", "soak_s", "wedging_s",
        "window_from_s", "window_until_s", "bond_peak_dC", "metal_peak_dC",
    )  # fmt: skip
    return {
        "model": MODEL_ID,
        "ambient_dC": tenths(zone.ambient_C),
        "release_until_s": seconds(plan.last_act_s),
        **{name: answer[name] for name in kept},
    }
