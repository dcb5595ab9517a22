"""Temperatures at fixed places and times, so that nothing reported moves with the mesh or the steps."""

from __future__ import annotations

from bisect import bisect_right
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

from bayleaf.heat.layout import ABSENT
from bayleaf.heat.mesh import Mesh

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def between(times_s: Floats, rows: Floats, clock_s: Floats, bends_s: Floats) -> Floats:
    """Rows given at times_s, at the times of clock_s: monotone cubic (no false peaks), bend to bend."""
    made = np.empty((len(clock_s), *rows.shape[1:]))
    ends = [times_s[0], *bends_s, times_s[-1]]
    for begin_s, end_s in pairwise(ends):
        own = (times_s >= begin_s) & (times_s <= end_s)
        asked = (clock_s >= begin_s) & (clock_s <= end_s)
        if own.sum() > 1 and asked.any():
            made[asked] = PchipInterpolator(times_s[own], rows[own])(clock_s[asked])
    return made


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
    along = _bulged(mesh.x_lines, node[:, j], i, x_m)
    across = _bulged(mesh.y_lines, node[i, :], j, y_m)
    if any(node[k, m] == ABSENT for k, _ in along for m, _ in across):
        return _sum(
            [(node[k, j], share) for k, share in along]
            + [(node[i, m], share) for m, share in across]
            + [(node[i, j], -1.0)]
        )
    return _sum([(node[k, m], one * two) for k, one in along for m, two in across])


def _bulged(lines: Floats, row: Ints, i: int, at_m: float) -> list[tuple[int, float]]:
    """Weights along one line of cells: straight between the cell's faces, with the bulge of its source.

    A finite volume's value is the middle of its faces' values where heat enters evenly; inside the cell the
    temperature bulges by its curvature, which the falls to both neighbours tell.
    """
    if not (0 < i < len(row) - 1 and row[i - 1] != ABSENT and row[i + 1] != ABSENT):
        return _at_end(lines, row, i, at_m)
    before, own, after = lines[i] - lines[i - 1], lines[i + 1] - lines[i], lines[i + 2] - lines[i + 1]
    high = (at_m - lines[i]) / own
    low = 1 - high
    first, last = low * own / (before + own), high * own / (own + after)
    bulge = low * high * own
    first, last = first - bulge / (before + own), last - bulge / (own + after)
    return [(i - 1, first), (i, 1 - first - last), (i + 1, last)]


def _at_end(lines: Floats, row: Ints, i: int, at_m: float) -> list[tuple[int, float]]:
    """The same in a plate's last cell: on from its inner face, with its neighbour's bulge."""
    inward = 1 if i + 1 < len(row) and row[i + 1] != ABSENT else -1
    second, third = i + inward, i + 2 * inward
    if not (0 <= third < len(row) and row[second] != ABSENT and row[third] != ABSENT):
        other, share = _partner((lines[1:] + lines[:-1]) / 2, row, i, at_m)
        return [(i, 1 - share), (other, share)] if other != i else [(i, 1.0)]
    own, near, far = (float(lines[k + 1] - lines[k]) for k in (i, second, third))
    out_m = (lines[i + 1] - at_m) if inward == 1 else (at_m - lines[i])  # from the inner face outwards
    slope, beyond = 2 / (own + near), 2 / (near + far)
    bend = out_m**2 / 2 / near
    first = near / (own + near) + out_m * slope + bend * slope
    last = bend * beyond
    return [(i, first), (second, 1 - first - last), (third, last)]


def _cell(lines: Floats, at_m: float) -> int:
    return min(max(bisect_right(lines, at_m) - 1, 0), len(lines) - 2)


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
