"""A heat plan in words, line by line, as the command tells it; from the plan as plain data."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from bayleaf.heat.bands_json import NEVER

Json = Mapping[str, Any]


def plan_lines(answer: Json) -> list[str]:
    """Everything that a plan answers, the one sentence first and whose word comes first last."""
    invented = " (invented)" if answer["invented"] else ""
    parts = (_troubles, _times, _spots, _layers, _neighbours, _release, _touch, _electric, _rests)
    told = [line for part in parts for line in part(answer)]
    return [f"{answer['name']}{invented}: {answer['sentence']}", *told, answer["first"]]


def _troubles(answer: Json) -> Iterator[str]:
    yield from (f"not feasible: {one['sentence']}" for one in answer["troubles"])
    if answer["mended_by"]:
        yield f"one change mends it: {answer['mended_by']}"


def _times(answer: Json) -> Iterator[str]:
    workable = _min(answer["workable_min"], answer["workable_band_min"])
    bands = answer["bands"]
    yield f"coldest bondline workable: {workable}"
    until = _min(answer["heat_until_min"], bands["heat_until_min"])
    yield f"soak {_min(answer['soak_min'])}, heat until {until}"
    begins, ends = bands["window_from_min"], bands["window_until_min"]
    if answer["purpose"] == "removal":
        band = f"band: begins {_ends(begins)}, ends {_ends(ends)} min"
        yield f"wedging, zone end to end: {_window(answer)} ({band})"


def _window(answer: Json) -> str:
    """The minutes in which every place of the joint can be wedged."""
    opens, closes = answer["wedging_whole_min"]
    return NEVER if NEVER in (opens, closes) else f"{opens:.0f} to {closes:.0f} min"


def _spots(answer: Json) -> Iterator[str]:
    advised = {one["spot"]: one["sentence"] for one in answer.get("sensor_places", ())}
    for name, said in (("lagging", "lags"), ("leading", "leads")):
        spot = answer[name]
        at = f"{said} at x {spot['x_mm']:g}, y {spot['y_mm']:g} mm with {spot['T_C']:.0f} C when workable"
        yield "; ".join([at, *_nearest(spot), *([advised[name]] if name in advised else [])])


def _nearest(spot: Json) -> Iterator[str]:
    if "nearest_sensor" in spot:
        away_mm, more_K = spot["sensor_away_mm"], spot["sensor_reads_more_by_K"]
        reads = f"reads {abs(more_K):.0f} K {'less' if more_K < 0 else 'more'}"
        yield f"{spot['nearest_sensor']} is {away_mm:.0f} mm away and {reads}"


def _layers(answer: Json) -> Iterator[str]:
    bands = {one["layer"]: one for one in answer["bands"]["layers"]}
    for one in answer["layers"]:
        band = bands[one["layer"]]
        limit = _limit(one["limit_C"], band["peak_C"][1]) if "limit_C" in one else ""
        at = f"at x {one['peak_x_mm']:g}, y {one['peak_y_mm']:g} mm after {_min(one['peak_at_min'])}"
        yield f"{one['layer']}: peak {one['peak_C']:.1f} C (band {_ends(band['peak_C'])}){limit}, {at}"
        spans = {row["above_C"]: row["run_min"] for row in band["above"]}
        yield from (f"{one['layer']} above {_above(row, spans[row['above_C']])}" for row in one["above"])
        yield from _ageing(one, band)
    for key, said in (("ramp_K_min", "rise"), ("cooling_K_min", "fall")):
        band_K_min = _ends(answer["bands"][key], 1)
        yield f"steepest {said} of the bondline: {answer[key]:.1f} K/min (band {band_K_min})"


def _limit(limit_C: float, hot_C: float) -> str:
    over = ", over it on the hot side of the band" if hot_C > limit_C else ""
    return f", limit {limit_C:g} C{over}"


def _above(row: Json, band: Sequence[float]) -> str:
    said = f"{row['above_C']:g} C: {row['run_min']:.1f} min (band {_ends(band, 1)})"
    if not row["earlier_min"]:
        return said
    zones = [f"{one['minutes']:g} in runs of {one['zone']}" for one in row.get("earlier_of_zones", ())]
    of = f" ({', '.join(zones)})" if zones else ""
    return f"{said} and {row['earlier_min']:g} in earlier runs{of}, together {row['total_min']:.1f} min"


def _ageing(one: Json, band: Json) -> Iterator[str]:
    if "ageing_caution" in one:
        caution = one["ageing_caution"]
        share, stronger = (
            100 * caution[key] for key in ("share_of_time_to_lose_minimum_strength", "stronger_alloys_share")
        )
        ends = _ends([100 * end for end in band["ageing_share"]], 1)
        yield (
            f"{one['layer']} caution: ageing is an estimate: {share:.1f} % (band {ends}) of the time to fall "
            f"under the minimum strength, {stronger:.1f} % for stronger alloys; source: {caution['source']}"
        )


def _neighbours(answer: Json) -> Iterator[str]:
    bands = answer["bands"]["neighbours_peak_C"]
    for one in answer["neighbours"]:
        peak = f"{one['id']}: peak {one['peak_C']:.1f} C (band {_ends(bands[one['id']])})"
        yield f"{peak}, limit {one['limit_C']:g} C: {'passes' if one['passes'] else _fails(one)}"


def _fails(one: Json) -> str:
    over = "over it" if one["peak_C"] > one["limit_C"] else "over it on the hot side of the band"
    by = one["passes_farther_by_mm"]
    return f"{over}, passes {'nowhere within 400 mm' if by == NEVER else f'{by:g} mm farther away'}"


def _release(answer: Json) -> Iterator[str]:
    for one in answer["release"]:
        share = f" to {100 * one['power_share']:.0f} % of its power" if "power_share" in one else ""
        yield f"{one['at_min']} min: pad {one['pad']} {one['act'].replace('_', ' ')}{share}"
    if "release" in answer["bands"]:
        worst = answer["bands"]["release"]["worst_cooling_K_min"]
        yield f"worst fall over the band under this release: {worst:.1f} K/min"


def _touch(answer: Json) -> Iterator[str]:
    bands = {(one["layer"], one["contact"]): one["from_min"] for one in answer["bands"]["touch"]}
    for one in answer["touch"]["faces"]:
        since = _min(one["from_min"], bands[one["layer"], one["contact"]])
        below = f"below {one['threshold_C']:g} C"
        yield f"{one['layer']} safe to touch for {one['contact']} ({below}) from {since}"
    if answer["touch"]["faces"]:
        yield f"touch: {answer['touch']['source']}"


def _electric(answer: Json) -> Iterator[str]:
    drawn = answer["electric"]
    current = f", {drawn['current_A']:.1f} A" if "current_A" in drawn else ""
    circuit = f" of a circuit of {drawn['circuit_A']:g} A" if "circuit_A" in drawn else ""
    yield f"energy {drawn['energy_kWh']:.2f} kWh, peak power {drawn['peak_W']:.0f} W{current}{circuit}"


def _rests(answer: Json) -> Iterator[str]:
    yield f"heat balance within {answer['heat_balance_error']:.1e}"
    yield f"model: {answer['model']} ({answer['model_id']})"
    yield f"inputs: zone {answer['zone']}, {answer['digest'][:16]}"
    (low, high), (least, most) = answer["band"]["contact_factor"], answer["band"]["loss_factor"]
    yield f"band: contact {low:g} to {high:g} and loss {least:g} to {most:g} times what the zone says"


def _min(minutes: float | str, band: Sequence[float | str] = ()) -> str:
    said = NEVER if minutes == NEVER else f"{float(minutes):.0f} min"
    return f"{said} (band {_ends(band)})" if band else said


def _ends(band: Sequence[float | str], digits: int = 0) -> str:
    return " to ".join(NEVER if one == NEVER else f"{float(one):.{digits}f}" for one in band)
