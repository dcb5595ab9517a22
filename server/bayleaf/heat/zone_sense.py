"""Figures of a zone document that contradict one another, though each alone is allowed."""

from __future__ import annotations

from collections.abc import Iterator

from bayleaf.heat.faults import Fault
from bayleaf.heat.zone_items import Document, listed, repeated_ids

MINUTE_S = 60.0
ROUNDING_S = 1e-6


def sense_faults(document: Document) -> list[Fault]:
    """Every contradiction of a document whose places and references are sound."""
    checks = (_time, _heat, _heated_layer, _neighbours, _counted, _earlier, _report, _webs)
    return [fault for check in checks for fault in check(document)]


def _time(document: Document) -> Iterator[Fault]:
    bond, length_min = document.get("bondline", {}), document["duration_min"]
    for key in ("soak_min", "wedging_min"):
        if bond.get(key, 0) >= length_min:
            yield Fault(
                f"bondline.{key}", f"found {bond[key]:g}, allowed under duration_min = {length_min:g}"
            )


def _heat(document: Document) -> Iterator[Fault]:
    """A bondline that is to become workable needs a pad that can make it so."""
    if "bondline" not in document:
        return
    pads = listed(document, "pads")
    if not any(pad["power_W_cm2"] * pad.get("power_share", 1) > 0 for _, pad in pads):
        found = "no pad that heats" if pads else "no pad"
        yield Fault("pads", f"found {found}, allowed one or more with power, for a bondline")
    workable_C = document["bondline"]["workable_C"]
    if pads and all(pad.get("setpoint_C", workable_C + 1) <= workable_C for _, pad in pads):
        found = f"found {pads[0][1]['setpoint_C']:g}, allowed above bondline.workable_C = {workable_C:g}"
        yield Fault(f"{pads[0][0]}.setpoint_C", f"{found} for one pad at least")


def _heated_layer(document: Document) -> Iterator[Fault]:
    """The heated layer is the hottest: a limit under what the bondline needs cannot be kept."""
    bond, top = document.get("bondline"), document["layers"][0]
    if bond and top.get("limit_C", bond["workable_C"] + 1) <= bond["workable_C"]:
        found = f"found {top['limit_C']:g}, allowed above bondline.workable_C = {bond['workable_C']:g}"
        yield Fault("layers[0].limit_C", found)


def _neighbours(document: Document) -> Iterator[Fault]:
    for at, one in listed(document, "neighbours"):
        if one["limit_C"] <= document["ambient_C"]:
            found = f"found {one['limit_C']:g}, allowed above ambient_C = {document['ambient_C']:g}"
            yield Fault(f"{at}.limit_C", found)


def _counted(document: Document) -> Iterator[Fault]:
    """Metal is above the air's temperature all the time: minutes above less say nothing."""
    for number, above_C in enumerate(document.get("limits", {}).get("count_above_C", [])):
        if above_C <= document["ambient_C"]:
            found = f"found {above_C:g}, allowed above ambient_C = {document['ambient_C']:g}"
            yield Fault(f"limits.count_above_C[{number}]", found)


def _earlier(document: Document) -> Iterator[Fault]:
    """A run of this zone carries no zone; and what is counted above a temperature lies above the air."""
    own = {document["id"], document.get("name", document["id"])}
    for at, one in listed(document, "earlier_runs"):
        if one.get("zone") in own:
            found = f"found {one['zone']}, allowed the name of another zone"
            yield Fault(f"{at}.zone", f"{found}; leave it out for runs of this one")
        if one["above_C"] <= document["ambient_C"]:
            found = f"found {one['above_C']:g}, allowed above ambient_C = {document['ambient_C']:g}"
            yield Fault(f"{at}.above_C", found)


def _report(document: Document) -> Iterator[Fault]:
    report, end_s = document.get("report", {}), document["duration_min"] * MINUTE_S
    for number, at_s in enumerate(report.get("times_s", [])):
        if at_s > end_s + ROUNDING_S:
            yield Fault(f"report.times_s[{number}]", f"found {at_s:g}, the run ends at {end_s:g} s")
    thick_mm = {layer["id"]: layer["thickness_mm"] for layer in document["layers"]}
    places = listed(report, "places")
    for at, place in places:
        deepest_mm = thick_mm.get(place["layer"], place.get("depth_mm", 0))
        if place.get("depth_mm", 0) > deepest_mm:
            found = f"found {place['depth_mm']:g}, layer {place['layer']} is {deepest_mm:g} mm thick"
            yield Fault(f"report.{at}.depth_mm", found)
    yield from repeated_ids((f"report.{at}", place) for at, place in places)


def _webs(document: Document) -> Iterator[Fault]:
    profile = document.get("profile", {"webs": []})
    for number, web in enumerate(profile.get("webs", [])):
        low, high = profile["box_mm"][1], profile["box_mm"][3]
        if not low <= web["y_mm"] <= high:
            found = f"found {web['y_mm']:g}, the profile lies from {low:g} to {high:g}"
            yield Fault(f"profile.webs[{number}].y_mm", found)
