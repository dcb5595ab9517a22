"""The banded solver against the whole matrix solved by elimination, for zones of every make."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from scipy import sparse

from bayleaf.heat.assembly import system_of
from bayleaf.heat.band import banded
from bayleaf.heat.layout import ABSENT, layout_of
from bayleaf.heat.mesh import Grading, mesh_of
from bayleaf.heat.order import links_of
from bayleaf.heat.zone import NOMINAL, Zone
from bayleaf.heat.zone_document import zone_of
from unit.heat.closed_forms import cases, document_of
from unit.heat.zones import joint, joint_zone, seed_zone

COARSE = Grading(0.01, 0.8, 0.03, 1.0, 0.12, 0.5)
WEIGHT_S = 30.0


def upright() -> Zone:
    """The joint turned by a quarter: longer across than along."""
    document: dict[str, Any] = joint(size_mm=[160, 400])
    for thing in (*document["layers"], *document["pads"]):
        for name in ("covers_mm", "box_mm"):
            if name in thing:
                boxes = thing[name] if name == "covers_mm" else [thing[name]]
                turned = [[y0, x0, y1, x1] for x0, y0, x1, y1 in boxes]
                thing[name] = turned if name == "covers_mm" else turned[0]
    for sensor in document["sensors"]:
        sensor["at_mm"] = sensor["at_mm"][::-1]
    return zone_of(document)


def single_cell() -> Zone:
    return zone_of(document_of(next(one for one in cases() if one["id"] == "three_lumps_coupled")))


ZONES = {"joint": joint_zone, "upright": upright, "profile": lambda: seed_zone("post"), "cell": single_cell}


@pytest.mark.parametrize("name", ZONES)
@pytest.mark.parametrize("lifts", [False, True])
def test_it_solves_what_elimination_of_the_whole_matrix_solves(name: str, lifts: bool) -> None:
    zone = ZONES[name]()
    layout = layout_of(zone, mesh_of(zone, COARSE))
    lifted = frozenset(pad.id for pad in zone.pads[:1]) if lifts else frozenset()
    system = system_of(zone, layout, NOMINAL, lifted)
    right = np.random.default_rng(3).normal(size=(layout.count, 2))
    whole = sparse.diags_array(system.capacity_J_K) + WEIGHT_S * system.conduction
    expected = np.linalg.solve(whole.toarray(), right)
    factor = banded(links_of(layout, system.conduction), system.capacity_J_K, WEIGHT_S)
    near = 1e-9 * float(np.abs(expected).max())
    assert factor.solve(right) == pytest.approx(expected, abs=near)
    assert factor.solve(right[:, 0]) == pytest.approx(expected[:, 0], abs=near)


@pytest.mark.parametrize("zone", [joint_zone(), upright()])
def test_the_band_is_no_wider_than_a_slice_across_the_shorter_side(zone: Zone) -> None:
    layout = layout_of(zone, mesh_of(zone, COARSE))
    spreading = [plate for plate in layout.plates if plate.layer.id != "bond"]
    longer = int(np.argmax(layout.mesh.shape))
    in_slice = sum((plate.node != ABSENT).sum(axis=1 - longer) for plate in spreading)
    links = links_of(layout, system_of(zone, layout, NOMINAL).conduction)
    assert len(links.order.spreading) == in_slice.sum()
    assert links.width <= in_slice.max() + 1
