"""A heat plan as plain data for scripts, the API and the office: minutes, degrees C, mm; `never` for
infinity.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.asked import asked_figures, asked_powers
from bayleaf.heat.bands_json import NEVER, bands_json, minutes
from bayleaf.heat.bondline import Spot, layer_curves, whole_window_s
from bayleaf.heat.exposure import AGEING_SOURCE, STRONGER_TIMES, Above, Exposure
from bayleaf.heat.model import MODEL_ID
from bayleaf.heat.nearby import NeighbourAnswer
from bayleaf.heat.plan import FIRST, MODEL, Plan
from bayleaf.heat.run import Run
from bayleaf.heat.sensor_places import Advice, sensor_advice
from bayleaf.heat.sensor_words import advice_json
from bayleaf.heat.touch import SOURCE
from bayleaf.heat.zone import PadAct, Zone

Json = dict[str, Any]
Floats = NDArray[np.float64]
BAND_EVERY_S = 60.0


def _mm(at_m: float) -> float | str:
    return round(at_m * 1e3, 1) if math.isfinite(at_m) else NEVER


def asked_json(zone: Zone, run: Run) -> Json:
    """The figures that the document's `report` asks for, and how well the heat balances."""
    return {
        "model": MODEL,
        "model_id": MODEL_ID,
        "first": FIRST,
        "zone": zone.id,
        "digest": zone.digest,
        "unknowns": run.layout.count,
        "steps": len(run.times_s) - 1,
        "heat_balance_error": run.balance,
        "report": [
            {"id": one.place, "t_s": one.t_s, "T_C": round(one.T_C, 4)} for one in asked_figures(zone, run)
        ],
        "powers": [
            {"pad": one.pad, "t_s": one.t_s, "q_W_m2": round(one.power_W_m2, 3)}
            for one in asked_powers(zone, run)
        ],
    }


def plan_json(plan: Plan) -> Json:
    """Everything a plan answers, without the response set."""
    zone = plan.zone
    return asked_json(zone, plan.run) | {
        "name": zone.name,
        "invented": zone.invented,
        "purpose": zone.purpose,
        "sentence": answer_sentence(plan),
        "band": {"contact_factor": list(zone.contact_band), "loss_factor": list(zone.loss_band)},
        "feasible": not plan.troubles,
        "troubles": [{"code": one.code, "sentence": one.sentence} for one in plan.troubles],
        "mended_by": plan.mend,
        "workable_min": minutes(plan.workable_s),
        "workable_band_min": [minutes(plan.workable_from_s), minutes(plan.workable_to_s)],
        "soak_min": minutes(zone.soak_s),
        "heat_until_min": minutes(plan.heat_until_s),
        "bondline_peak_band_C": [round(T, 1) for T in plan.peak_band_C],
        "metal_peak_band_C": [round(T, 1) for T in plan.metal_band_C],
        "leading": _spot(plan.leading),
        "lagging": _spot(plan.lagging),
        "sensor_places": [advice_json(one) for one in _advice(plan)],
        "ramp_K_min": round(plan.ramp_K_min, 2),
        "cooling_K_min": round(plan.cooling_K_min, 2),
        "wedging_windows": [
            {"x_mm": _mm(one.x_m), "from_min": minutes(one.from_s), "until_min": minutes(one.until_s)}
            for one in plan.windows
        ],
        "wedging_whole_min": [minutes(at_s) for at_s in whole_window_s(plan.bond, plan.windows)],
        "layers": [_exposure(one) for one in plan.exposures],
        "neighbours": [_neighbour(one) for one in plan.neighbours],
        "release": [act_json(act) for act in plan.acts],
        "touch": {
            "source": SOURCE,
            "faces": [
                {
                    "layer": t.layer,
                    "contact": t.contact,
                    "threshold_C": t.threshold_C,
                    "from_min": minutes(t.from_s),
                }
                for t in plan.touch
            ],
        },
        "electric": {
            "energy_kWh": round(plan.electric.energy_kWh, 3),
            "peak_W": round(plan.electric.peak_W, 1),
            "connected_W": round(plan.electric.connected_W, 1),
            **(
                {"current_A": round(plan.electric.current_A, 2)}
                if plan.electric.current_A is not None
                else {}
            ),
            **({"circuit_A": plan.electric.circuit_A} if plan.electric.circuit_A is not None else {}),
        },
        "curves": _curves(plan),
        "bands": bands_json(plan.bands, plan.release),
    }


def _advice(plan: Plan) -> tuple[Advice, Advice]:
    judged_s = min(plan.workable_s, plan.heat_until_s)
    return sensor_advice(plan.zone, plan.bond, judged_s, plan.lagging, plan.leading)


def answer_sentence(plan: Plan) -> str:
    """The answer in one sentence, for the top of a page."""
    if plan.troubles:
        mend = f" {plan.mend[0].upper()}{plan.mend[1:]}, and it passes." if plan.mend else ""
        return f"Not feasible: {plan.troubles[0].sentence}.{mend}"
    low, high = (_rounded(at_s) for at_s in (plan.workable_from_s, plan.workable_to_s))
    metal = max((one.peak_C for one in plan.exposures if one.role == "metal"), default=math.nan)
    release = f"release from {_rounded(plan.first_act_s)} to {_rounded(plan.last_act_s)} min"
    workable = f"Workable in {_rounded(plan.workable_s)} min ({low}-{high})"
    return f"{workable}, {release}, metal peaks at {metal:.0f} C."


def _rounded(at_s: float) -> str:
    return f"{at_s / 60:.0f}" if math.isfinite(at_s) else NEVER


def act_json(act: PadAct) -> Json:
    share = {"power_share": act.share} if act.act == "turn_down" else {}
    return {"at_min": minutes(act.at_s), "pad": act.pad, "act": act.act, **share}


def _spot(spot: Spot) -> Json:
    found: Json = {"x_mm": _mm(spot.place.x_m), "y_mm": _mm(spot.place.y_m), "T_C": round(spot.T_C, 1)}
    if spot.sensor:
        found |= {"nearest_sensor": spot.sensor, "sensor_away_mm": _mm(spot.sensor_away_m)}
        found["sensor_reads_more_by_K"] = round(spot.sensor_reads_K, 1)
    return found


def _exposure(one: Exposure) -> Json:
    found: Json = {
        "layer": one.layer,
        "peak_C": round(one.peak_C, 1),
        "peak_at_min": minutes(one.peak_at_s),
        "peak_x_mm": _mm(one.peak_place.x_m),
        "peak_y_mm": _mm(one.peak_place.y_m),
        "above": [
            {
                "above_C": a.above_C,
                "run_min": round(a.run_min, 1),
                "earlier_min": a.earlier_min,
                "total_min": round(a.total_min, 1),
                "is_limit": a.is_limit,
                **_of_zones(a),
            }
            for a in one.above
        ],
    }
    if one.limit_C is not None:
        found["limit_C"] = one.limit_C
    if one.ageing_share is not None:
        found["ageing_caution"] = {
            "share_of_time_to_lose_minimum_strength": round(one.ageing_share, 4),
            "stronger_alloys_share": round(STRONGER_TIMES * one.ageing_share, 4),
            "source": AGEING_SOURCE,
        }
    return found


def _of_zones(above: Above) -> Json:
    """What neighbouring zones' runs have put into the earlier minutes; left out where none has."""
    told = [{"zone": name, "minutes": minutes_} for name, minutes_ in above.zones]
    return {"earlier_of_zones": told} if told else {}


def _neighbour(one: NeighbourAnswer) -> Json:
    return {
        "id": one.neighbour.id,
        "kind": one.neighbour.kind,
        "peak_C": round(one.peak_C, 1),
        "hot_side_peak_C": round(one.hot_peak_C, 1),
        "limit_C": one.neighbour.limit_C,
        "passes": one.passes,
        "passes_farther_by_mm": _mm(one.away_m),
    }


def metal_curve_C(plan: Plan) -> Floats:
    """The hottest metal at the times of the bondline's curves; the hottest bondline where there is none."""
    metals = [layer.id for layer in plan.zone.layers if layer.role == "metal"]
    hottest = [layer_curves(plan.run, plan.zone, layer).hottest_C for layer in metals]
    return np.asarray(np.max(hottest, axis=0)) if hottest else plan.bond.hottest_C


def _coldest_band(plan: Plan) -> Json:
    """Lowest and highest coldest bondline over the family, every minute while heating; no release in it."""
    family = plan.family
    clock_s = np.arange(0.0, min(plan.heat_until_s, float(family.times_s[-1])) + 1, BAND_EVERY_S)
    curves = [np.interp(clock_s, family.times_s, one.coldest_C) for row in family.members for one in row]
    return {
        "t_s": [round(float(t)) for t in clock_s],
        "low": [round(float(T), 1) for T in np.min(curves, axis=0)],
        "high": [round(float(T), 1) for T in np.max(curves, axis=0)],
    }


def _curves(plan: Plan) -> Json:
    every = slice(None, None, 3)
    return {
        "t_s": [round(float(t)) for t in plan.bond.times_s[every]],
        "coldest_bondline_C": [round(float(T), 1) for T in plan.bond.coldest_C[every]],
        "hottest_bondline_C": [round(float(T), 1) for T in plan.bond.hottest_C[every]],
        "metal_C": [round(float(T), 1) for T in metal_curve_C(plan)[every]],
        "coldest_band_C": _coldest_band(plan),
        "sensors": {
            sensor.id: [round(float(T), 1) for T in plan.sensors.T_C[every, number]]
            for number, sensor in enumerate(plan.zone.sensors)
        },
    }
