"""Temperatures at fixed places: linear between cell centres, so no reported place moves with the mesh."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.layout import ABSENT
from bayleaf.heat.mesh import Mesh

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def place_weights(mesh: Mesh, node: Ints, x_m: float, y_m: float) -> list[tuple[int, float]]:
    """(node, weight) pairs that interpolate one plate at a place; half a cell beyond its centres it goes on
    straight.

    Empty if the plate has no cell there.
    """
    i, j = _cell(mesh.x_lines, x_m), _cell(mesh.y_lines, y_m)
    if node[i, j] == ABSENT:
        i, j = _nearest(mesh, node, x_m, y_m)
    if i < 0:
        return []
    i2, along = _partner(mesh.x, node[:, j], i, x_m)
    j2, across = _partner(mesh.y, node[i, :], j, y_m)
    if node[i2, j2] == ABSENT:
        return _sum([(node[i, j], 1 - along - across), (node[i2, j], along), (node[i, j2], across)])
    corners = [((i, j), (1 - along) * (1 - across)), ((i2, j), along * (1 - across))]
    corners += [((i, j2), (1 - along) * across), ((i2, j2), along * across)]
    return _sum([(node[at], weight) for at, weight in corners])


def _cell(lines: Floats, at_m: float) -> int:
    return int(np.clip(np.searchsorted(lines, at_m, side="right") - 1, 0, len(lines) - 2))


def _nearest(mesh: Mesh, node: Ints, x_m: float, y_m: float) -> tuple[int, int]:
    """The plate's cell that touches the place (a place on the plate's own edge), or (-1, -1)."""
    x0, x1 = mesh.x_lines[:-1, None], mesh.x_lines[1:, None]
    y0, y1 = mesh.y_lines[None, :-1], mesh.y_lines[None, 1:]
    off = np.maximum(np.maximum(x0 - x_m, x_m - x1), 0) + np.maximum(np.maximum(y0 - y_m, y_m - y1), 0)
    off = np.where(node == ABSENT, np.inf, off)
    if off.min() > 1e-6:  # noqa: PLR2004  a micrometre: rounding of edges, no more
        return -1, -1
    i, j = np.unravel_index(int(off.argmin()), off.shape)
    return int(i), int(j)


def _partner(centres: Floats, line: Ints, i: int, at_m: float) -> tuple[int, float]:
    """The neighbour to interpolate with (or extrapolate from) along one line, and its weight."""
    ahead = i + 1 if at_m >= centres[i] else i - 1
    back = 2 * i - ahead
    for other in (ahead, back):
        if 0 <= other < len(line) and line[other] != ABSENT:
            return other, float((at_m - centres[i]) / (centres[other] - centres[i]))
    return i, 0.0


def _sum(pairs: list[tuple[np.int64, float]]) -> list[tuple[int, float]]:
    total: dict[int, float] = {}
    for node, weight in pairs:
        if weight != 0.0:
            total[int(node)] = total.get(int(node), 0.0) + weight
    return list(total.items()) or [(int(pairs[0][0]), 1.0)]
