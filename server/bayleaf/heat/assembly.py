"""Builds the equations of a zone: conduction in the plane and through it, contacts, pads, edges, losses."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from scipy import sparse

from bayleaf.heat.build import Build
from bayleaf.heat.faces import Faces
from bayleaf.heat.interpolation import place_weights
from bayleaf.heat.layout import ABSENT, Layout, Plate
from bayleaf.heat.system import HeatTable, System
from bayleaf.heat.zone import Conditions, Pad, Side, Zone

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Entries = tuple[Ints, Ints, Floats]  # rows, columns, values
NO_NODES: Ints = np.zeros(0, dtype=np.int64)
AXIS: dict[Side, tuple[int, int]] = {"x_low": (0, 0), "x_high": (0, -1), "y_low": (1, 0), "y_high": (1, -1)}


def system_of(zone: Zone, layout: Layout, under: Conditions, lifted: frozenset[str] = frozenset()) -> System:
    """The equations with those pads lifted and those factors on contact and loss.

    Finite volumes on a rectangular grid: Patankar, Numerical Heat Transfer and Fluid Flow (1980), ch. 4.
    """
    build = Build(layout.count)
    area = np.outer(layout.mesh.dx, layout.mesh.dy)
    for plate in layout.plates:
        _in_plane(build, layout, plate)
        if plate.layer.extra_loss_W_m2K and plate.layer.id != _wall_id(zone):
            share = plate.layer.extra_loss_W_m2K * plate.thickness_m / plate.layer.thickness_m
            build.tie(plate.node, share * area, zone.ambient_C)
    _through(build, layout, area)
    _pads(build, zone, layout, under=under, lifted=lifted, area=area)
    _outer_faces(build, zone, layout, lifted, area)
    _edges(build, zone, layout, under)
    return _assembled(build, zone, layout, under, area)


def _wall_id(zone: Zone) -> str:
    return zone.profile.wall.id if zone.profile else ""


def _in_plane(build: Build, layout: Layout, plate: Plate) -> None:
    dx, dy, t = layout.mesh.dx, layout.mesh.dy, plate.thickness_m
    gap_x, gap_y = (dx[1:] + dx[:-1]) / 2, (dy[1:] + dy[:-1]) / 2
    if plate.layer.kx_W_mK > 0:
        along = plate.layer.kx_W_mK * t * dy[None, :] / gap_x[:, None]
        build.link(plate.node[:-1], plate.node[1:], along)
    if plate.layer.ky_W_mK > 0:
        across = plate.layer.ky_W_mK * t * dx[:, None] / gap_y[None, :]
        build.link(plate.node[:, :-1], plate.node[:, 1:], across)


def _through(build: Build, layout: Layout, area: Floats) -> None:
    for plates in layout.stack:
        for upper, lower in pairwise(plates):
            build.link(upper.node, lower.node, area / (upper.half_m2K_W + lower.half_m2K_W))
    for above, below in pairwise(layout.stack):
        upper, lower = above[-1], below[0]
        build.link(
            upper.node, lower.node, area / (upper.half_m2K_W + contact_m2K_W(upper) + lower.half_m2K_W)
        )


def contact_m2K_W(plate: Plate) -> float:
    """Resistance between this plate's layer and the next one, m2K/W."""
    contact = plate.layer.contact_W_m2K
    return 0.0 if contact is None else 1.0 / contact


def _pads(
    build: Build, zone: Zone, layout: Layout, *, under: Conditions, lifted: frozenset[str], area: Floats
) -> None:
    top = layout.stack[0][0]
    for pad in zone.pads:
        node = layout.pads[pad.id]
        build.tie(node, under.loss * pad.back_loss_W_m2K * area, zone.ambient_C)
        if pad.contact_W_m2K is not None and pad.id not in lifted:
            contact = pad.contact_W_m2K * under.contact_of(pad)
            build.link(node, top.node, area / (1 / contact + top.half_m2K_W))


def _outer_faces(build: Build, zone: Zone, layout: Layout, lifted: frozenset[str], area: Floats) -> None:
    """Each layer's two faces where neither the next layer nor a pad lies on it."""
    nothing = np.zeros(layout.mesh.shape, dtype=bool)
    covers = [nothing, *(plates[0].node != ABSENT for plates in layout.stack), nothing]
    above_any = nothing
    for position, plates in enumerate(layout.stack):
        first, last = plates[0], plates[-1]
        if position == 0:
            free = ~_under_pads(zone, layout, lifted)
            build.expose(first, free, area, zone.heated_loss, heated_side=True)
        else:
            open_up = ~covers[position]
            build.expose(first, open_up & above_any, area, zone.inner_loss, heated_side=True)
            build.expose(first, open_up & ~above_any, area, zone.heated_loss, heated_side=True)
        open_down = ~covers[position + 2]
        if position == 0:
            open_down = open_down & ~_cavity(build, zone, layout, open_down, area)
        build.expose(last, open_down, area, zone.inner_loss, heated_side=False)
        above_any = above_any | covers[position + 1]
    if layout.wall:
        everywhere = np.ones(layout.mesh.shape, dtype=bool)
        build.expose(layout.wall, everywhere, area, zone.inner_loss, heated_side=False)


def _under_pads(zone: Zone, layout: Layout, lifted: frozenset[str]) -> NDArray[np.bool_]:
    pressed = [layout.pads[pad.id] != ABSENT for pad in zone.pads if pad.id not in lifted]
    return np.logical_or.reduce(pressed) if pressed else np.zeros(layout.mesh.shape, dtype=bool)


def _cavity(
    build: Build, zone: Zone, layout: Layout, open_down: NDArray[np.bool_], area: Floats
) -> NDArray[np.bool_]:
    """Links the metal with the far wall, by exchange and by webs; returns the cells that look into the
    cavity.
    """
    if zone.profile is None or layout.wall is None:
        return np.zeros(layout.mesh.shape, dtype=bool)
    near, far = layout.stack[0][-1], layout.wall
    looks_in = open_down & (far.node != ABSENT)
    through = near.half_m2K_W + far.half_m2K_W + 1 / zone.profile.cavity_W_m2K
    build.link(np.where(looks_in, near.node, ABSENT), far.node, area / through)
    for web in zone.profile.webs:
        row = int(np.clip(np.searchsorted(layout.mesh.y_lines, web.y_m) - 1, 0, len(layout.mesh.y) - 1))
        W_K = layout.mesh.dx * web.k_W_mK * web.thickness_m / web.height_m
        build.link(near.node[:, row], far.node[:, row], W_K)
    return np.asarray(looks_in)


def _edges(build: Build, zone: Zone, layout: Layout, under: Conditions) -> None:
    """The heated layer's outer ends: losing heat, or held at a temperature half a cell away."""
    dx, dy = layout.mesh.dx, layout.mesh.dy
    for side, edge in zone.edges.items():
        axis, end = AXIS[side]
        along, size = (dy, dx[end]) if axis == 0 else (dx, dy[end])
        for plate in layout.stack[0]:
            node = np.take(plate.node, end, axis=axis)
            section = along * plate.thickness_m
            k = plate.layer.kx_W_mK if axis == 0 else plate.layer.ky_W_mK
            half_m2K_W = size / 2 / k if k else math.inf
            loss = under.loss * edge.end_loss_W_m2K
            if edge.held_C is not None:
                build.tie(node, section / half_m2K_W, edge.held_C)
            elif loss > 0:
                build.tie(node, section / (1 / loss + half_m2K_W), zone.ambient_C)


def _assembled(build: Build, zone: Zone, layout: Layout, under: Conditions, area: Floats) -> System:
    count = build.count
    rows = np.concatenate([link[0] for link in build.links] or [np.zeros(0, dtype=np.int64)])
    columns = np.concatenate([link[1] for link in build.links] or [np.zeros(0, dtype=np.int64)])
    W_K = np.concatenate([link[2] for link in build.links] or [np.zeros(0)])
    diagonal, source = np.zeros(count), np.zeros(count)
    for node, tie_W_K, to_C in build.tied:
        np.add.at(diagonal, node, tie_W_K)
        np.add.at(source, node, tie_W_K * to_C)
    fixed = diagonal.copy()
    diagonal += np.bincount(rows, W_K, minlength=count) + np.bincount(columns, W_K, minlength=count)
    every = np.arange(count)
    conduction = sparse.csr_array(
        (
            np.concatenate([-W_K, -W_K, diagonal]),
            (np.concatenate([rows, columns, every]), np.concatenate([columns, rows, every])),
        ),
        shape=(count, count),
    )
    capacity, tables = _capacities(zone, layout, area)
    heating, sensing = _heating(zone, layout, area)
    return System(
        layout, capacity, conduction, source, _faces(build, zone, under), heating, sensing,
        np.array([np.inf if pad.setpoint_C is None else pad.setpoint_C for pad in zone.pads]),
        np.array([pad.power_W_m2 * pad.power_share for pad in zone.pads]), fixed, tables,
    )  # fmt: skip


def _faces(build: Build, zone: Zone, under: Conditions) -> Faces:
    def column(figures: list[float]) -> Floats:
        return np.repeat(np.array(figures, dtype=np.float64), [len(row[0]) for row in build.bare])

    none = np.zeros(0)
    laws = [row[3] for row in build.bare]
    return Faces(
        np.concatenate([row[0] for row in build.bare] or [none.astype(np.int64)]),
        np.repeat([row[4] for row in build.bare], [len(row[0]) for row in build.bare]).astype(bool),
        np.concatenate([row[1] for row in build.bare] or [none]),
        column([row[2] for row in build.bare]),
        column([under.loss * law.coefficient_W_m2 for law in laws]),
        column([law.flux_exponent for law in laws]),
        column([under.loss * law.emissivity for law in laws]),
        zone.ambient_C,
    )


def _capacities(zone: Zone, layout: Layout, area: Floats) -> tuple[Floats, tuple[HeatTable, ...]]:
    capacity, tables = np.zeros(layout.count), []
    for plates in (*layout.stack, *([(layout.wall,)] if layout.wall else [])):
        layer, there = plates[0].layer, plates[0].node != ABSENT
        node = np.concatenate([plate.node[there] for plate in plates])
        mass = layer.density_kg_m3 * plates[0].thickness_m * np.tile(area[there], len(plates))
        capacity[node] = mass * layer.specific_heat_J_kgK[0][1]
        if len(layer.specific_heat_J_kgK) > 1:
            at_C, cp = np.array(layer.specific_heat_J_kgK).T
            tables.append(HeatTable.of(node, mass, at_C, cp))
    for pad in zone.pads:
        there = layout.pads[pad.id] != ABSENT
        capacity[layout.pads[pad.id][there]] = pad.capacity_J_m2K * area[there]
    return capacity, tuple(tables)


def _heating(zone: Zone, layout: Layout, area: Floats) -> tuple[sparse.csr_array, sparse.csr_array]:
    """Where each pad's power goes, and which mean or place its controller feels."""
    heats: list[Entries] = [(NO_NODES, NO_NODES, np.zeros(0))]
    feels: list[Entries] = [(NO_NODES, NO_NODES, np.zeros(0))]
    for number, pad in enumerate(zone.pads):
        node, there = _heated_nodes(pad, layout)
        own, area_m2 = node[there], area[there]
        heats.append((own, np.full(len(own), number), area_m2))
        if pad.sensor_m is None:
            feels.append((np.full(len(own), number), own, area_m2 / area_m2.sum()))
        else:
            felt = place_weights(layout.mesh, np.where(there, node, ABSENT), *pad.sensor_m)
            at = np.array([one for one, _ in felt], dtype=np.int64)
            feels.append((np.full(len(at), number), at, np.array([share for _, share in felt])))
    pads = len(zone.pads)
    return _sparse(heats, (layout.count, pads)), _sparse(feels, (pads, layout.count))


def _sparse(parts: list[Entries], shape: tuple[int, int]) -> sparse.csr_array:
    rows, columns, values = (np.concatenate(column) for column in zip(*parts, strict=True))
    return sparse.csr_array((values, (rows, columns)), shape=shape)


def _heated_nodes(pad: Pad, layout: Layout) -> tuple[Ints, NDArray[np.bool_]]:
    if pad.contact_W_m2K is None:
        node = layout.stack[0][0].node
        return node, layout.mesh.inside(pad.box) & (node != ABSENT)
    return layout.pads[pad.id], layout.pads[pad.id] != ABSENT
