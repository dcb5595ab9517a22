"""What a zone document may say, and the one line that names each fault."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

import pytest

from bayleaf.heat.faults import ZoneFault
from bayleaf.heat.zone_document import read_zone, zone_of
from bayleaf.heat.zone_schema import zone_schema
from unit.heat.zones import joint, seed_zone

Change = Callable[[dict[str, Any]], object]
WRONG: list[tuple[str, Change]] = [
    (
        "layers[0].thickness_mm: found 3000, allowed a number above 0 up to 100 (mm)",
        lambda d: d["layers"][0].update(thickness_mm=3000),
    ),
    ("layers[0].thickness_mm: found -1", lambda d: d["layers"][0].update(thickness_mm=-1)),
    ("layers[0].thickness_mm: found 0", lambda d: d["layers"][0].update(thickness_mm=0)),
    ("layers[0].thickness_mm: missing", lambda d: d["layers"][0].pop("thickness_mm")),
    (
        "layers[0].thickness_m: unknown field, did you mean thickness_mm?",
        lambda d: d["layers"][0].update(thickness_m=0.003),
    ),
    (
        "layers[1].density_kg_m3: found nan, allowed a finite number",
        lambda d: d["layers"][1].update(density_kg_m3=float("nan")),
    ),
    ("ambient_C: found inf, allowed a finite number", lambda d: d.update(ambient_C=float("inf"))),
    (
        'layers[2].specific_heat_J_kgK: found "much"',
        lambda d: d["layers"][2].update(specific_heat_J_kgK="much"),
    ),
    (
        "layers[2].specific_heat_J_kgK: temperatures do not rise",
        lambda d: d["layers"][2].update(specific_heat_J_kgK=[[100, 900], [20, 950]]),
    ),
    (
        "pads[1].box_mm: reaches x = 940, the zone ends at 400",
        lambda d: d["pads"][1].update(box_mm=[210, 50, 940, 110]),
    ),
    ("pads[1].box_mm: overlaps pad A", lambda d: d["pads"][1].update(box_mm=[150, 50, 400, 110])),
    ("pads[0].box_mm: x runs from 190 to 0", lambda d: d["pads"][0].update(box_mm=[190, 50, 0, 110])),
    ("pads[1].id: found A a second time", lambda d: d["pads"][1].update(id="A")),
    (
        "bondline.maximum_C: found 100, allowed above workable_C = 110",
        lambda d: d["bondline"].update(maximum_C=100),
    ),
    (
        "bondline.workable_C: found 10, allowed above ambient_C = 20",
        lambda d: d["bondline"].update(workable_C=10),
    ),
    (
        "layers[1].limit_C: found 105, allowed above bondline.workable_C = 110",
        lambda d: d["layers"][1].update(limit_C=105),
    ),
    (
        "bondline.layer: found glue, allowed bond, laminate, metal",
        lambda d: d["bondline"].update(layer="glue"),
    ),
    (
        "sensors[0].at_mm: found [95, 10], allowed where layer bond lies",
        lambda d: d["sensors"][0].update(at_mm=[95, 10]),
    ),
    ('purpose: found "repair", allowed removal, cure', lambda d: d.update(purpose="repair")),
    (
        "bands.loss_factor: found [1.2, 1.5], allowed low <= 1",
        lambda d: d.update(bands={"loss_factor": [1.2, 1.5]}),
    ),
    (
        "acts[0].pad: found Z, allowed A, B",
        lambda d: d.update(acts=[{"at_min": 1, "pad": "Z", "act": "off"}]),
    ),
    (
        "acts[0].power_share: missing",
        lambda d: d.update(acts=[{"at_min": 1, "pad": "A", "act": "turn_down"}]),
    ),
    (
        "layers[1].thickness_mm: found 30, a pad edge is only 60 mm long",
        lambda d: d["layers"][1].update(thickness_mm=30),
    ),
    (
        "layers[0].specific_heat_J_kgK: found 0, allowed a number above 0",
        lambda d: d["layers"][0].update(specific_heat_J_kgK=0),
    ),
    (
        "layers[0].specific_heat_J_kgK[1][1]: found -5, allowed a number above 0",
        lambda d: d["layers"][0].update(specific_heat_J_kgK=[[20, 900], [100, -5]]),
    ),
    ("pads: found no pad, allowed one or more with power", lambda d: d.update(pads=[])),
    (
        "pads: found no pad that heats",
        lambda d: [pad.update(power_W_cm2=0) for pad in d["pads"]],
    ),
    (
        "pads[0].setpoint_C: found 100, allowed above bondline.workable_C = 110",
        lambda d: [pad.update(setpoint_C=100) for pad in d["pads"]],
    ),
    (
        "layers[0].limit_C: found 100, allowed above bondline.workable_C = 110",
        lambda d: d["layers"][0].update(limit_C=100),
    ),
    (
        "bondline.soak_min: found 100, allowed under duration_min = 45",
        lambda d: d["bondline"].update(soak_min=100),
    ),
    (
        "neighbours[0].limit_C: found 10, allowed above ambient_C = 20",
        lambda d: d.update(
            neighbours=[{"id": "n", "kind": "loom", "at_mm": [9, 9], "layer": "metal", "limit_C": 10}]
        ),
    ),
    (
        "report.times_s[0]: found 6000, the run ends at 2700 s",
        lambda d: d.update(
            report={"places": [{"id": "p", "at_mm": [9, 9], "layer": "metal"}], "times_s": [6000]}
        ),
    ),
    (
        "report.places[0].depth_mm: found 5, layer metal is 3 mm thick",
        lambda d: d.update(
            report={
                "places": [{"id": "p", "at_mm": [9, 9], "layer": "metal", "depth_mm": 5}],
                "times_s": [60],
            }
        ),
    ),
    (
        "profile.wall.thickness_mm: found 30, a pad edge is only 60 mm long",
        lambda d: d.update(
            profile={
                "box_mm": [0, 40, 400, 120],
                "cavity_W_m2K": 8,
                "wall": {**d["layers"][0], "id": "far", "thickness_mm": 30},
            }
        ),
    ),
    (
        "limits.count_above_C[1]: found 20, allowed above ambient_C = 20",
        lambda d: d.update(limits={"count_above_C": [150, 20]}),
    ),
    (
        "earlier_runs[0].zone: found short, allowed the name of another zone",
        lambda d: d.update(earlier_runs=[{"layer": "metal", "above_C": 150, "minutes": 5, "zone": "short"}]),
    ),
    (
        "earlier_runs[0].above_C: found 15, allowed above ambient_C = 20",
        lambda d: d.update(earlier_runs=[{"layer": "metal", "above_C": 15, "minutes": 5}]),
    ),
    (
        "earlier_runs[0].minutes: found -5",
        lambda d: d.update(earlier_runs=[{"layer": "metal", "above_C": 150, "minutes": -5}]),
    ),
    ("mesh.cells_mm: asks for about", lambda d: d.update(mesh={"cells_mm": [0.1, 0.1]})),
]


@pytest.mark.parametrize(("line", "change"), WRONG, ids=[line.split(",")[0] for line, _ in WRONG])
def test_a_fault_is_one_line_with_field_found_and_allowed(line: str, change: Change) -> None:
    document = copy.deepcopy(joint())
    change(document)
    with pytest.raises(ZoneFault) as caught:
        zone_of(document)
    lines = [str(fault) for fault in caught.value.faults]
    assert any(one.startswith(line) for one in lines), lines
    assert all("\n" not in one for one in lines)


def test_every_fault_is_told_at_once() -> None:
    document = joint()
    document["layers"][0]["thickness_mm"] = -3
    document["pads"][0]["power_W_cm2"] = 90
    del document["losses"]
    with pytest.raises(ZoneFault) as caught:
        zone_of(document)
    assert [fault.field for fault in caught.value.faults] == [
        "layers[0].thickness_mm",
        "losses",
        "pads[0].power_W_cm2",
    ]


def test_text_that_is_no_yaml_is_named_with_its_line() -> None:
    with pytest.raises(ZoneFault, match="line 3: not YAML"):
        read_zone("form: 1\nid: [unclosed\n")


@pytest.mark.parametrize("name", ["upper", "post"])
def test_the_demo_zones_are_read_and_say_that_they_are_invented(name: str) -> None:
    zone = seed_zone(name)
    assert (zone.id, zone.invented) == (name, True)


def test_units_become_si_inside() -> None:
    zone = zone_of(joint())
    assert zone.size_m == pytest.approx((0.4, 0.16))
    assert zone.pads[0].power_W_m2 == pytest.approx(15000)
    assert zone.layers[1].thickness_m == pytest.approx(0.0015)
    assert zone.duration_s == 2700


def test_the_same_zone_has_the_same_digest_whatever_the_order_of_its_keys() -> None:
    turned = dict(reversed(joint().items()))
    assert zone_of(turned).digest == zone_of(joint()).digest
    assert zone_of(joint(ambient_C=21)).digest != zone_of(joint()).digest


def test_the_published_schema_names_units_in_its_keys() -> None:
    assert zone_schema()["title"] == "Bayleaf heat zone"
    assert "thickness_mm" in zone_schema()["properties"]["layers"]["items"]["required"]
