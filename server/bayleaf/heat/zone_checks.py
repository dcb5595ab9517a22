"""Checks of a zone document that no schema can make: places, overlaps, references, limits that contradict."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations, pairwise

from bayleaf.heat.faults import Fault
from bayleaf.heat.zone_items import Document, listed, repeated_ids
from bayleaf.heat.zone_sense import sense_faults


def zone_faults(document: Document) -> list[Fault]:
    """Every fault of a document that already keeps the schema."""
    checks = (_twice, _boxes, _overlaps, _places, _references, _limits, _tables, _bands, _acts)
    return [fault for check in checks for fault in check(document)] or sense_faults(document)


def _twice(document: Document) -> Iterator[Fault]:
    for key in ("layers", "pads", "neighbours", "sensors"):
        yield from repeated_ids(listed(document, key))


def _boxes(document: Document) -> Iterator[Fault]:
    for at, box in _all_boxes(document):
        for low, high, axis, size in ((box[0], box[2], "x", 0), (box[1], box[3], "y", 1)):
            end = document["size_mm"][size]
            if low >= high:
                yield Fault(at, f"{axis} runs from {low:g} to {high:g}, allowed only rising")
            elif low < 0:
                yield Fault(at, f"starts at {axis} = {low:g}, the zone starts at 0")
            elif high > end:
                yield Fault(at, f"reaches {axis} = {high:g}, the zone ends at {end:g}")


def _all_boxes(document: Document) -> Iterator[tuple[str, list[float]]]:
    for at, layer in listed(document, "layers"):
        yield from ((f"{at}.covers_mm[{n}]", box) for n, box in enumerate(layer.get("covers_mm", [])))
    yield from ((f"{at}.box_mm", pad["box_mm"]) for at, pad in listed(document, "pads"))
    if "profile" in document:
        yield "profile.box_mm", document["profile"]["box_mm"]


def _overlaps(document: Document) -> Iterator[Fault]:
    for (_, first), (at, second) in combinations(listed(document, "pads"), 2):
        a, b = first["box_mm"], second["box_mm"]
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]:
            yield Fault(f"{at}.box_mm", f"overlaps pad {first['id']}, allowed side by side only")
    top = document["layers"][0]
    for at, pad in listed(document, "pads"):
        if "covers_mm" in top and not any(_within(pad["box_mm"], box) for box in top["covers_mm"]):
            yield Fault(f"{at}.box_mm", f"reaches beyond layer {top['id']}, allowed on the heated layer only")
        if "sensor_mm" in pad and not _within([*pad["sensor_mm"], *pad["sensor_mm"]], pad["box_mm"]):
            yield Fault(f"{at}.sensor_mm", f"found {pad['sensor_mm']}, allowed inside the pad's own box only")


def _within(inner: list[float], outer: list[float]) -> bool:
    return inner[0] >= outer[0] and inner[1] >= outer[1] and inner[2] <= outer[2] and inner[3] <= outer[3]


def _places(document: Document) -> Iterator[Fault]:
    for at, one in _placed(document):
        x, y = one["at_mm"]
        layer = next((two for two in document["layers"] if two["id"] == one.get("layer")), None)
        boxes = _reach(document) if layer is None else layer.get("covers_mm") or _reach(document)
        if layer is document["layers"][0]:
            boxes = _reach(document) if "covers_mm" not in layer else layer["covers_mm"]
        if not any(_within([x, y, x, y], box) for box in boxes):
            what = f"layer {layer['id']}" if layer else "the zone"
            yield Fault(f"{at}.at_mm", f"found [{x:g}, {y:g}], allowed where {what} lies")


def _placed(document: Document) -> Iterator[tuple[str, Document]]:
    bondline = document.get("bondline", {}).get("layer")
    yield from listed(document, "neighbours")
    yield from ((at, {"layer": bondline, **one}) for at, one in listed(document, "sensors"))
    yield from ((f"report.{at}", one) for at, one in listed(document.get("report", {}), "places"))


def _reach(document: Document) -> list[list[float]]:
    """The zone with what its heated layer runs on by, as one box."""
    edges, (x, y) = document.get("edges", {}), document["size_mm"]
    on = {side: edges.get(side, {}).get("runs_on_mm", 0) for side in ("x_low", "x_high", "y_low", "y_high")}
    return [[-on["x_low"], -on["y_low"], x + on["x_high"], y + on["y_high"]]]


def _references(document: Document) -> Iterator[Fault]:
    layers = {layer["id"] for layer in document["layers"]}
    if "profile" in document:
        layers.add(document["profile"]["wall"]["id"])
    pads = {pad["id"] for pad in document.get("pads", [])}
    asked = [
        *listed(document, "neighbours"),
        *listed(document, "earlier_runs"),
        *listed(document, "sensors"),
    ]
    yield from _unknown(asked, "layer", layers)
    places = [(f"report.{at}", one) for at, one in listed(document.get("report", {}), "places")]
    yield from _unknown(places, "layer", layers | pads)
    yield from _unknown(listed(document, "acts"), "pad", pads)
    if "bondline" in document:
        yield from _unknown([("bondline", document["bondline"])], "layer", layers)
    for at, sensor in listed(document, "sensors"):
        if "layer" not in sensor and "bondline" not in document:
            yield Fault(f"{at}.layer", "missing, allowed to be left out only where a bondline is given")


def _unknown(items: Iterable[tuple[str, Document]], key: str, known: set[str]) -> Iterator[Fault]:
    for at, one in items:
        if key in one and one[key] not in known:
            yield Fault(f"{at}.{key}", f"found {one[key]}, allowed {', '.join(sorted(known)) or 'none here'}")


def _limits(document: Document) -> Iterator[Fault]:
    bond = document.get("bondline")
    if bond is None:
        return
    if bond["workable_C"] >= bond["maximum_C"]:
        found = f"found {bond['maximum_C']:g}, allowed above workable_C = {bond['workable_C']:g}"
        yield Fault("bondline.maximum_C", found)
    if bond["workable_C"] <= document["ambient_C"]:
        found = f"found {bond['workable_C']:g}, allowed above ambient_C = {document['ambient_C']:g}"
        yield Fault("bondline.workable_C", found)
    for at, pad in listed(document, "pads"):
        if "setpoint_C" in pad and pad["setpoint_C"] <= document["ambient_C"]:
            found = f"found {pad['setpoint_C']:g}, allowed above ambient_C = {document['ambient_C']:g}"
            yield Fault(f"{at}.setpoint_C", found)
    for at, layer in listed(document, "layers"):
        if (
            layer["id"] == bond["layer"]
            and layer.get("limit_C", bond["workable_C"] + 1) <= bond["workable_C"]
        ):
            found = f"found {layer['limit_C']:g}, allowed above bondline.workable_C = {bond['workable_C']:g}"
            yield Fault(f"{at}.limit_C", found)


def _tables(document: Document) -> Iterator[Fault]:
    for at, layer in listed(document, "layers"):
        table = layer["specific_heat_J_kgK"]
        rows = table if isinstance(table, list) else []
        if any(low[0] >= high[0] for low, high in pairwise(rows)):
            yield Fault(f"{at}.specific_heat_J_kgK", "temperatures do not rise, allowed rising only")


def _bands(document: Document) -> Iterator[Fault]:
    for key, (low, high) in document.get("bands", {}).items():
        if not low <= 1 <= high:
            yield Fault(f"bands.{key}", f"found [{low:g}, {high:g}], allowed low <= 1 <= high")


def _acts(document: Document) -> Iterator[Fault]:
    for at, act in listed(document, "acts"):
        if act["act"] == "turn_down" and "power_share" not in act:
            yield Fault(f"{at}.power_share", "missing, allowed a share of full power from 0 to 1")
        if act["at_min"] >= document["duration_min"]:
            yield Fault(
                f"{at}.at_min", f"found {act['at_min']:g}, the run ends at {document['duration_min']:g}"
            )
