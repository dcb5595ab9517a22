"""Which unknown stands for which cell: plates (sub-layers of layers) and pads numbered over one mesh."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.mesh import Mesh
from bayleaf.heat.zone import SIDES, Edge, Layer, Pad, Profile, Zone

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
ABSENT = -1
QUICK_THROUGH_S = 1.0
SUBLAYER_M = 0.00125
FEWEST, MOST = 3, 24


@dataclass(frozen=True)
class Plate:
    """One (sub-)layer on the mesh; `node[i, j]` is its unknown at cell i, j, or ABSENT."""

    layer: Layer
    thickness_m: float
    centre_m: float  # depth of its middle under the layer's heated face
    node: Ints

    @cached_property
    def last_node(self) -> int:
        return int(self.node.max())

    @property
    def half_m2K_W(self) -> float:
        return self.thickness_m / 2 / self.layer.kz_W_mK


@dataclass(frozen=True, eq=False)  # one layout is itself only, so that samplers can be kept for it
class Layout:
    """All plates of the stack (heated side first), the far wall of a profile, and the nodes of pads."""

    mesh: Mesh
    stack: tuple[tuple[Plate, ...], ...]
    wall: Plate | None
    pads: dict[str, Ints]
    count: int

    @property
    def plates(self) -> tuple[Plate, ...]:
        single = tuple(plate for plates in self.stack for plate in plates)
        return (*single, self.wall) if self.wall else single

    def plates_of(self, layer_id: str) -> tuple[Plate, ...]:
        return tuple(plate for plate in self.plates if plate.layer.id == layer_id)


def sublayers_of(layer: Layer) -> int:
    """How many sub-layers: one where heat crosses in under a second (L^2/alpha), three or more otherwise.

    Lumping error against exact layers: Incropera et al., Fundamentals of Heat and Mass Transfer, 7th ed.,
    sec. 5.2.
    """
    if layer.sublayers:
        return layer.sublayers
    heat_J_m3K = layer.density_kg_m3 * layer.specific_heat_J_kgK[0][1]
    if layer.thickness_m**2 * heat_J_m3K / layer.kz_W_mK < QUICK_THROUGH_S:
        return 1
    return min(MOST, max(FEWEST, math.ceil(layer.thickness_m / SUBLAYER_M)))


def layout_of(zone: Zone, mesh: Mesh) -> Layout:
    """Numbers every cell of every plate and pad, plate by plate."""
    count, stack = 0, []
    for position, layer in enumerate(zone.layers):
        plates, count = _plates(layer, _cover(zone, mesh, layer, runs_on=position == 0), count)
        stack.append(plates)
    wall, count = _wall(zone.profile, mesh, count)
    pads: dict[str, Ints] = {}
    for pad in zone.pads:
        pads[pad.id], count = _pad_nodes(pad, mesh, count)
    return Layout(mesh, tuple(stack), wall, pads, count)


def _cover(zone: Zone, mesh: Mesh, layer: Layer, *, runs_on: bool) -> NDArray[np.bool_]:
    cover = np.zeros(mesh.shape, dtype=bool)
    for box in layer.covers:
        cover |= mesh.inside(box)
    if not runs_on:
        return cover
    reach = {side: zone.edges.get(side, Edge()).runs_on_m > 0 for side in SIDES}
    first_x, first_y = np.searchsorted(mesh.x, 0.0), np.searchsorted(mesh.y, 0.0)
    end_x, end_y = np.searchsorted(mesh.x, zone.size_m[0]), np.searchsorted(mesh.y, zone.size_m[1])
    if reach["x_low"]:
        cover[:first_x] = cover[first_x]
    if reach["x_high"]:
        cover[end_x:] = cover[end_x - 1]
    if reach["y_low"]:
        cover[:, :first_y] = cover[:, first_y : first_y + 1]
    if reach["y_high"]:
        cover[:, end_y:] = cover[:, end_y - 1 : end_y]
    return cover


def _numbered(cover: NDArray[np.bool_], count: int) -> tuple[Ints, int]:
    node = np.full(cover.shape, ABSENT, dtype=np.int64)
    total = int(cover.sum())
    node[cover] = np.arange(count, count + total)
    return node, count + total


def _plates(layer: Layer, cover: NDArray[np.bool_], count: int) -> tuple[tuple[Plate, ...], int]:
    number, plates = sublayers_of(layer), []
    thickness_m = layer.thickness_m / number
    for k in range(number):
        node, count = _numbered(cover, count)
        plates.append(Plate(layer, thickness_m, (k + 0.5) * thickness_m, node))
    return tuple(plates), count


def _wall(profile: Profile | None, mesh: Mesh, count: int) -> tuple[Plate | None, int]:
    if profile is None:
        return None, count
    node, count = _numbered(mesh.inside(profile.box), count)
    return Plate(profile.wall, profile.wall.thickness_m, profile.wall.thickness_m / 2, node), count


def _pad_nodes(pad: Pad, mesh: Mesh, count: int) -> tuple[Ints, int]:
    if pad.contact_W_m2K is None:
        return np.full(mesh.shape, ABSENT, dtype=np.int64), count
    return _numbered(mesh.inside(pad.box), count)
