"""The default mesh and steps against a mesh whose cells are cut in four along and across, and fine steps."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from bayleaf.heat.layout import layout_of
from bayleaf.heat.mesh import STANDARD, mesh_of
from bayleaf.heat.places import Place, histories, places_of
from bayleaf.heat.probes import at_times
from bayleaf.heat.run import Run, simulate
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.zone import Zone
from unit.heat.zones import joint, joint_zone

TIMES_S = (60.0, 120.0, 300.0, 600.0, 1200.0)
WITHIN_K = 0.5
HOT_PAD = {"setpoint_C": 320, "power_W_cm2": 1.5, "contact_W_m2K": 150, "capacity_J_m2K": 5000}
Floats = np.ndarray[Any, np.dtype[np.float64]]


def hot_corner() -> Zone:
    """A short piece of a joint that gets to 230 C in 20 min; pad and layers end inside it."""
    document = joint(size_mm=[100, 100], duration_min=20, sensors=[])
    document["layers"][1]["covers_mm"] = [[0, 36, 100, 70]]
    document["layers"][2]["covers_mm"] = [[0, 36, 100, 100]]
    document["pads"] = [{"id": "A", "box_mm": [0, 30, 88, 76], **HOT_PAD}]
    document["sensors"] = [
        {"id": "m", "at_mm": [95, 50], "layer": "metal"},
        {"id": "b", "at_mm": [97.5, 38.5]},
    ]
    document["neighbours"] = [
        {"id": "loom", "kind": "loom", "at_mm": [50, 90], "layer": "laminate", "limit_C": 250},
        {"id": "seal", "kind": "seal", "at_mm": [50, 5], "layer": "metal", "limit_C": 250},
    ]
    return joint_zone(**document)


@pytest.fixture(scope="module")
def runs() -> tuple[Zone, Run, Run]:
    zone = hot_corner()
    fine = simulate(zone, layout_of(zone, mesh_of(zone, STANDARD.finer(4))), accuracy=Accuracy(0.05))
    return zone, simulate(zone, layout_of(zone, mesh_of(zone, STANDARD))), fine


def both(runs: tuple[Zone, Run, Run], places: tuple[Place, ...]) -> tuple[Floats, Floats]:
    _, usual, fine = runs
    told = (at_times(run, histories(run, places), list(TIMES_S)) for run in (usual, fine))
    first, second = told
    return np.asarray(first), np.asarray(second)


@pytest.mark.parametrize("layer", ["bond", "metal", "laminate"])
def test_every_place_of_every_layer_is_within_half_a_kelvin(runs: tuple[Zone, Run, Run], layer: str) -> None:
    zone, usual, fine = runs
    assert fine.layout.count > 15 * usual.layout.count
    first, second = both(runs, places_of(zone, zone.layer(layer)))
    assert first == pytest.approx(second, abs=WITHIN_K)


def test_every_layers_extremes_sensors_and_neighbours_are_within_half_a_kelvin(
    runs: tuple[Zone, Run, Run],
) -> None:
    zone = runs[0]
    for layer in zone.layers:
        first, second = both(runs, places_of(zone, layer))
        assert first.max(axis=1) == pytest.approx(second.max(axis=1), abs=WITHIN_K)
    sensors = [Place(one.layer, one.x_m, one.y_m) for one in zone.sensors]
    neighbours = [Place(one.layer, one.x_m, one.y_m) for one in zone.neighbours]
    first, second = both(runs, (*sensors, *neighbours))
    assert first == pytest.approx(second, abs=WITHIN_K)
