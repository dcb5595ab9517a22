"""In which order a zone's unknowns are solved: a zone is a long strip, numbered slice by slice across it.

Pads and layers that conduct through their thickness only are columns between the layers that spread heat;
they are condensed out first, so that what is left has all its entries close to the diagonal.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy import sparse

from bayleaf.heat.layout import ABSENT, Layout

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
KEPT_ORDERS = 4
NOWHERE = -1
SIDES = (0, 1)


@dataclass(frozen=True)
class Order:
    """All nodes in two lists; `place` is each node's place in its own."""

    passing: Ints  # cell by cell, downwards
    spreading: Ints  # slice by slice across the shorter side
    passes: NDArray[np.bool_]  # of each node: which list it is in
    place: Ints
    depth: Ints  # of each node: its plate's number from the heated side, pads before all


@lru_cache(maxsize=KEPT_ORDERS)
def order_of(layout: Layout) -> Order:
    """The heated layer and a profile's wall count as spreading whatever they conduct: webs link them too."""
    cell, depth = np.zeros((2, layout.count), dtype=np.int64)
    passes = np.zeros(layout.count, dtype=bool)
    along, across = layout.mesh.shape
    number = np.arange(along * across).reshape(along, across)
    if along < across:
        number = np.arange(along * across).reshape(across, along).T
    for level, plate in enumerate(layout.plates):
        own, there = _own(plate.node)
        cell[own], depth[own] = number[there], level
        branches = level < len(layout.stack[0]) or plate is layout.wall
        passes[own] = not branches and plate.layer.kx_W_mK == plate.layer.ky_W_mK == 0.0
    for node in layout.pads.values():
        own, there = _own(node)
        cell[own], depth[own], passes[own] = number[there], -1, True
    sequence = np.lexsort((depth, cell))
    passing, spreading = sequence[passes[sequence]], sequence[~passes[sequence]]
    place = np.empty(layout.count, dtype=np.int64)
    place[passing], place[spreading] = np.arange(len(passing)), np.arange(len(spreading))
    return Order(passing, spreading, passes, place, depth)


def _own(node: Ints) -> tuple[Ints, NDArray[np.bool_]]:
    there = node != ABSENT
    return node[there], there


@dataclass(frozen=True)
class Ties:
    """Links between columns and what spreads above or below them; each index counts in its own list."""

    passing: Ints
    spreading: Ints
    side: Ints  # of the column on which the tie is: 0 above, 1 below
    link: Floats


@dataclass(frozen=True)
class Fill:
    """What condensing adds to the band: at which of its entries, by which tie, through to which side."""

    at: Ints
    tie: Ints
    side: Ints


@dataclass(frozen=True)
class Links:
    """A symmetric matrix K sorted by that order.

    The band is an array (spreading, width): row k holds the lower triangle's column k from the diagonal down.
    """

    order: Order
    diagonal: Floats  # in node order
    columns: Floats  # from each passing node to the next one; 0 between columns
    ends: Ints  # of each passing node: what its column hangs on, (passing, sides)
    ties: Ties
    width: int
    band_at: Ints
    band: Floats
    fill: Fill


def links_of(layout: Layout, matrix: sparse.csr_array) -> Links:
    """Sorts the entries of a matrix of links between a layout's nodes."""
    order, entries = order_of(layout), matrix.tocoo()
    passes, meets_passing = order.passes[entries.row], order.passes[entries.col]
    first, second = order.place[entries.row], order.place[entries.col]
    within = passes & meets_passing & (second == first + 1)
    columns = np.zeros(max(len(order.passing) - 1, 1))  # LAPACK wants one entry at least
    columns[first[within]] = entries.data[within]
    tied = passes & ~meets_passing
    below = order.depth[entries.col[tied]] > order.depth[entries.row[tied]]
    ties = Ties(first[tied], second[tied], below.astype(np.int64), entries.data[tied])
    ends = _ends(columns, ties, len(order.passing))
    lower = ~passes & ~meets_passing & (first > second)
    row, column = first[lower], second[lower]
    tie, side, fill_row, fill_column = np.concatenate([_reached(ties, ends, n) for n in SIDES], axis=1)
    width = 1 + max(int((row - column).max(initial=0)), int((fill_row - fill_column).max(initial=0)))
    below_diagonal = width - 1
    fill = Fill(fill_column * below_diagonal + fill_row, tie, side)
    at = column * below_diagonal + row
    return Links(order, matrix.diagonal(), columns, ends, ties, width, at, entries.data[lower], fill)


def _ends(columns: Floats, ties: Ties, count: int) -> Ints:
    """Columns end where the next link is none; each hangs on at most one node above and one below."""
    number = np.concatenate([[0], np.cumsum(columns == 0.0)])[:count]
    hung = np.full((count, len(SIDES)), NOWHERE, dtype=np.int64)
    hung[number[ties.passing], ties.side] = ties.spreading
    return np.asarray(hung[number])


def _reached(ties: Ties, ends: Ints, side: int) -> Ints:
    """Which ties reach through their column to this side, in the lower triangle: (tie, side, row, column)."""
    end = ends[ties.passing, side]
    tie = np.flatnonzero((end != NOWHERE) & (end <= ties.spreading))
    return np.array([tie, np.full(len(tie), side), ties.spreading[tie], end[tie]])
