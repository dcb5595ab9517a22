"""Temperatures of a run at places and times asked for: means through a layer, depths in it, and its faces."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.assembly import contact_m2K_W
from bayleaf.heat.interpolation import between, place_weights
from bayleaf.heat.layout import ABSENT, Layout, Plate
from bayleaf.heat.run import Run
from bayleaf.heat.system import System
from bayleaf.heat.zone import NOMINAL, Conditions, Probe, Zone

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Weights = list[tuple[int, float]]


def at_times(run: Run, values: Floats, times_s: Sequence[float] | Floats) -> Floats:
    """Values given at the run's own times (first axis), at other times; the ends' values hold beyond them."""
    asked_s = np.clip(np.asarray(times_s), run.times_s[0], run.times_s[-1])
    return between(run.times_s, values, asked_s, run.bends_s)


def mean_weights(layout: Layout, layer_id: str, x_m: float, y_m: float) -> Weights:
    """Node weights of a layer's mean temperature at a place; a pad's id gives that pad's own temperature."""
    if layer_id in layout.pads:
        return place_weights(layout.mesh, layout.pads[layer_id], x_m, y_m)
    plates = layout.plates_of(layer_id)
    if not plates:
        return []
    share, first = 1 / len(plates), plates[0].last_node
    found = place_weights(layout.mesh, plates[0].node, x_m, y_m)
    beyond = [plate.last_node - first for plate in plates]  # sub-layers cover the same cells
    return [(node + further, weight * share) for further in beyond for node, weight in found]


def means(run: Run, places: Iterable[tuple[str, float, float]]) -> Floats:
    """Mean layer temperatures at (layer, x_m, y_m), at the run's own times; shape (times, places)."""
    columns = []
    for layer, x_m, y_m in places:
        weights = mean_weights(run.layout, layer, x_m, y_m)
        nodes = [node for node, _ in weights]
        columns.append(run.node_C[:, nodes] @ np.array([weight for _, weight in weights]))
    return np.array(columns).T.reshape(len(run.times_s), -1)


def probe_history(run: Run, zone: Zone, probe: Probe, under: Conditions = NOMINAL) -> Floats:
    """One probe at the run's own times."""
    if probe.depth_m is None or probe.layer in run.layout.pads:
        return means(run, [(probe.layer, probe.x_m, probe.y_m)])[:, 0]
    plates = run.layout.plates_of(probe.layer)
    depths = np.array([0.0, *(plate.centre_m for plate in plates), plates[0].layer.thickness_m])
    upper = int(np.clip(np.searchsorted(depths, probe.depth_m) - 1, 0, len(depths) - 2))
    share = float(np.clip((probe.depth_m - depths[upper]) / (depths[upper + 1] - depths[upper]), 0, 1))
    ends = [_knot(run, zone, probe, under, plates=plates, knot=knot) for knot in (upper, upper + 1)]
    return (1 - share) * ends[0] + share * ends[1]


def _knot(
    run: Run, zone: Zone, probe: Probe, under: Conditions, *, plates: tuple[Plate, ...], knot: int
) -> Floats:
    """Temperature at one depth: 0 is the heated face, then the sub-layers' middles, last the inner face."""
    inner = knot == len(plates) + 1
    plate = plates[min(max(knot - 1, 0), len(plates) - 1)]
    weights = place_weights(run.layout.mesh, plate.node, probe.x_m, probe.y_m)
    if 0 < knot <= len(plates):
        return _mixed(run.node_C, weights)
    total = np.zeros(len(run.times_s))
    for node, weight in weights:
        total += weight * _face(run, zone, under, plate, node, inner=inner)
    return total


def _mixed(node_C: Floats, weights: Weights) -> Floats:
    return np.asarray(node_C[:, [node for node, _ in weights]] @ np.array([share for _, share in weights]))


def _face(run: Run, zone: Zone, under: Conditions, plate: Plate, node: int, *, inner: bool) -> Floats:
    """One cell's face over time: bare, pressed on by a pad, or against the next layer."""
    face_C = run.node_C[:, node].copy()
    for which, system in enumerate(run.systems):
        rows = np.flatnonzero(run.system_at == which)
        bare = np.flatnonzero((system.faces.node == node) & (system.faces.heated_side != inner))
        if len(bare):
            flux_K = _flux_rise(run, plate, node, rows, inner=inner)
            face_C[rows] = _bare_face(run, system, rows, int(bare[0])) + flux_K
        elif partner := _partner(run.layout, zone, under, plate, node, inner=inner):
            other, outside_m2K_W = partner
            pull = plate.half_m2K_W / (plate.half_m2K_W + outside_m2K_W)
            face_C[rows] += pull * (run.node_C[rows, other] - run.node_C[rows, node])
    return face_C


def _bare_face(run: Run, system: System, rows: Ints, face: int) -> Floats:
    node_C = np.zeros((len(rows), len(system.faces)))
    node_C[:] = run.node_C[rows][:, system.faces.node[face]][:, None]
    return np.array([system.faces.loss(row)[2][face] for row in node_C])


def _flux_rise(run: Run, plate: Plate, node: int, rows: Ints, *, inner: bool) -> Floats:
    """Rise of the heated face over its node under a pad that is an even flux (no contact of its own)."""
    direct = run.systems[0].heating[[node], :].toarray()[0] > 0
    if inner or not direct.any():
        return np.zeros(len(rows))
    return np.asarray(plate.half_m2K_W * run.power_W_m2[rows][:, direct].sum(axis=1))


def _partner(
    layout: Layout, zone: Zone, under: Conditions, plate: Plate, node: int, *, inner: bool
) -> tuple[int, float] | None:
    """The node beyond a covered face, and the resistance from the face to it."""
    at = np.argwhere(plate.node == node)[0]
    position = next(n for n, plates in enumerate(layout.stack) if plates[0].layer.id == plate.layer.id)
    if not inner and position == 0:
        for pad in zone.pads:
            other = int(layout.pads[pad.id][tuple(at)])
            if other != ABSENT and pad.contact_W_m2K:
                return other, 1 / (pad.contact_W_m2K * under.contact_of(pad))
        return None
    beyond = position + (1 if inner else -1)
    if not 0 <= beyond < len(layout.stack):
        return None
    neighbour = layout.stack[beyond][0 if inner else -1]
    other = int(neighbour.node[tuple(at)])
    upper = plate if inner else neighbour
    return None if other == ABSENT else (other, contact_m2K_W(upper) + neighbour.half_m2K_W)
