"""Reads a zone document (YAML or JSON) into a zone in SI units, or refuses it with every fault."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping, Sequence
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError

from bayleaf.heat.faults import Fault, ZoneFault
from bayleaf.heat.scope import scope_faults
from bayleaf.heat.zone import (
    SIDES,
    Box,
    Earlier,
    Edge,
    FaceLoss,
    Layer,
    Limits,
    Neighbour,
    Pad,
    PadAct,
    Probe,
    Profile,
    Sensor,
    Supply,
    Web,
    Zone,
)
from bayleaf.heat.zone_checks import zone_faults
from bayleaf.heat.zone_schema import schema_faults

Document = Mapping[str, Any]
MM = 1e-3
MINUTE_S = 60.0
W_CM2 = 1e4
PAD_CAPACITY_J_M2K = 4000.0  # 2 mm of silicone rubber with its wire; common practice, no source
PAD_BACK_LOSS_W_M2K = 4.0  # behind a felt of 10 mm; common practice, no source


def read_zone(text: str) -> Zone:
    """The zone that a document says; ZoneFault with all faults if it says none."""
    try:
        document = YAML(typ="safe", pure=True).load(text)
    except YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        line = f"line {mark.line + 1}" if mark else "document"
        raise ZoneFault([Fault(line, f"not YAML ({getattr(error, 'problem', None) or error})")]) from error
    return zone_of(document)


def zone_of(document: Any) -> Zone:
    """The zone of a parsed document; ZoneFault with all faults."""
    faults = schema_faults(document) or zone_faults(document)
    if faults:
        raise ZoneFault(faults)
    zone = _zone(document)
    outside = scope_faults(zone)
    if outside:
        raise ZoneFault(outside)
    return zone


def digest_of(document: Document) -> str:
    """sha256 of the document with sorted keys: by this the same zone is found again in a store of plans."""
    text = json.dumps(document, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def _zone(doc: Document) -> Zone:
    bond, report, mesh = doc.get("bondline", {}), doc.get("report", {}), doc.get("mesh", {})
    outline = [0.0, 0.0, *doc["size_mm"]]
    bands = doc.get("bands", {})
    return Zone(
        id=doc["id"],
        name=doc.get("name", doc["id"]),
        invented=doc.get("invented", False),
        purpose=doc["purpose"],
        size_m=(doc["size_mm"][0] * MM, doc["size_mm"][1] * MM),
        duration_s=doc["duration_min"] * MINUTE_S,
        ambient_C=float(doc["ambient_C"]),
        start_C=float(doc.get("start_C", doc["ambient_C"])),
        layers=tuple(_layer(one, outline) for one in doc["layers"]),
        pads=tuple(_pad(one) for one in doc.get("pads", [])),
        heated_loss=_face(doc["losses"]["heated_face"]),
        inner_loss=_face(doc["losses"]["inner_face"]),
        bondline=bond.get("layer", ""),
        workable_C=float(bond.get("workable_C", 0)),
        maximum_C=float(bond.get("maximum_C", 0)),
        soak_s=bond.get("soak_min", 0) * MINUTE_S,
        wedging_s=bond.get("wedging_min", 0) * MINUTE_S,
        edges={side: _edge(doc["edges"][side]) for side in SIDES if side in doc.get("edges", {})},
        profile=_profile(doc["profile"], outline) if "profile" in doc else None,
        neighbours=tuple(_neighbour(one) for one in doc.get("neighbours", [])),
        sensors=tuple(_sensor(one, bond.get("layer", "")) for one in doc.get("sensors", [])),
        limits=_limits(doc.get("limits", {})),
        supply=Supply(**doc["supply"]) if "supply" in doc else None,
        contact_band=_pair(bands.get("contact_factor", Zone.contact_band)),
        loss_band=_pair(bands.get("loss_factor", Zone.loss_band)),
        earlier=tuple(Earlier(**one) for one in doc.get("earlier_runs", [])),
        acts=tuple(sorted((_act(one) for one in doc.get("acts", [])), key=lambda act: act.at_s)),
        probes=tuple(_probe(one) for one in report.get("places", [])),
        report_times_s=tuple(map(float, report.get("times_s", []))),
        cells_m=_pair([c * MM for c in mesh["cells_mm"]]) if "cells_mm" in mesh else None,
        max_step_s=mesh.get("longest_step_s"),
        digest=digest_of(doc),
    )


def _pair(two: Sequence[float]) -> tuple[float, float]:
    return float(two[0]), float(two[1])


def _box(four: Sequence[float]) -> Box:
    return Box(*(one * MM for one in four))


def _layer(doc: Document, outline: Sequence[float]) -> Layer:
    cp = doc["specific_heat_J_kgK"]
    return Layer(
        id=doc["id"],
        name=doc.get("name", doc["id"]),
        role=doc["role"],
        thickness_m=doc["thickness_mm"] * MM,
        kx_W_mK=float(doc["conductivity_x_W_mK"]),
        ky_W_mK=float(doc["conductivity_y_W_mK"]),
        kz_W_mK=float(doc["conductivity_through_W_mK"]),
        density_kg_m3=float(doc["density_kg_m3"]),
        specific_heat_J_kgK=tuple(_pair(row) for row in cp) if isinstance(cp, list) else ((20.0, float(cp)),),
        covers=tuple(_box(box) for box in doc.get("covers_mm", [outline])),
        contact_W_m2K=doc.get("contact_to_next_W_m2K"),
        limit_C=doc.get("limit_C"),
        sublayers=doc.get("sublayers"),
        extra_loss_W_m2K=doc.get("extra_loss_W_m2K", 0.0),
    )


def _pad(doc: Document) -> Pad:
    sensor = doc.get("sensor_mm")
    return Pad(
        id=doc["id"],
        name=doc.get("name", doc["id"]),
        box=_box(doc["box_mm"]),
        power_W_m2=doc["power_W_cm2"] * W_CM2,
        setpoint_C=doc.get("setpoint_C"),
        contact_W_m2K=doc.get("contact_W_m2K"),
        capacity_J_m2K=doc.get("capacity_J_m2K", PAD_CAPACITY_J_M2K),
        back_loss_W_m2K=doc.get("back_loss_W_m2K", PAD_BACK_LOSS_W_M2K),
        power_share=doc.get("power_share", 1.0),
        sensor_m=None if sensor is None else (sensor[0] * MM, sensor[1] * MM),
    )


def _face(doc: Document) -> FaceLoss:
    return FaceLoss(
        float(doc["coefficient_W_m2_at_1K"]), float(doc["flux_exponent"]), float(doc["emissivity"])
    )


def _edge(doc: Document) -> Edge:
    return Edge(doc.get("runs_on_mm", 0) * MM, float(doc.get("end_loss_W_m2K", 0)), doc.get("held_C"))


def _profile(doc: Document, outline: Sequence[float]) -> Profile:
    webs = tuple(
        Web(web["y_mm"] * MM, web["thickness_mm"] * MM, web["height_mm"] * MM, web["conductivity_W_mK"])
        for web in doc.get("webs", [])
    )
    wall = _layer({**doc["wall"], "covers_mm": [doc["box_mm"]]}, outline)
    return Profile(_box(doc["box_mm"]), wall, float(doc["cavity_W_m2K"]), webs)


def _neighbour(doc: Document) -> Neighbour:
    x, y = doc["at_mm"]
    name = doc.get("name", doc["id"])
    return Neighbour(doc["id"], name, doc["kind"], x * MM, y * MM, doc["layer"], float(doc["limit_C"]))


def _sensor(doc: Document, bondline: str) -> Sensor:
    return Sensor(doc["id"], doc["at_mm"][0] * MM, doc["at_mm"][1] * MM, doc.get("layer", bondline))


def _limits(doc: Document) -> Limits:
    counted = tuple(map(float, doc.get("count_above_C", Limits.count_above_C)))
    return Limits(doc.get("ramp_K_min"), doc.get("cooling_K_min"), counted)


def _act(doc: Document) -> PadAct:
    return PadAct(doc["at_min"] * MINUTE_S, doc["pad"], doc["act"], doc.get("power_share", 0.0))


def _probe(doc: Document) -> Probe:
    x, y = doc["at_mm"]
    depth = doc.get("depth_mm")
    return Probe(doc["id"], x * MM, y * MM, doc["layer"], None if depth is None else depth * MM)
