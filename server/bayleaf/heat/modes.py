"""A zone's states on a few shapes: what its own runs were made of, so that many more runs cost little."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy import linalg

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
SMALLEST_SHARE = 1e-5  # of the strongest shape: about a hundredth of a kelvin
MOST_SHAPES = 60
POINT_SHARE = 1e-6
MOST_POINTS = 60


@dataclass(frozen=True)
class Modes:
    """States as ambient + shapes @ amounts; shapes are even to one another in stored heat: S' C S = 1."""

    ambient_C: float
    shapes: Floats  # (nodes, shapes)

    @cached_property
    def _highest(self) -> Floats:
        return np.asarray(np.abs(self.shapes).max(axis=0))

    def largest_K(self, amounts: Floats) -> float:
        """No place moves by more than this when the shapes' amounts (members, shapes) change so much."""
        return float((np.abs(amounts) @ self._highest).max(initial=0.0))


@dataclass(frozen=True)
class Points:
    """Few rows of a field that stand for all: spread @ field[rows] is the field's part in each shape."""

    rows: Ints
    spread: Floats  # (shapes, points)


def modes_of(capacity_J_K: Floats, rises_K: Floats, ambient_C: float) -> Modes:
    """The shapes that make up states, strongest first; rises_K (nodes, states) above ambient.

    Proper orthogonal decomposition by snapshots: Sirovich, Quarterly of Applied Mathematics 45 (1987) 561.
    """
    strength, mix = np.linalg.eigh(rises_K.T @ (capacity_J_K[:, None] * rises_K))
    strength, mix = strength[::-1], mix[:, ::-1]
    kept = min(MOST_SHAPES, int((strength > SMALLEST_SHARE**2 * strength[0]).sum()))
    return Modes(ambient_C, rises_K @ (mix[:, :kept] / np.sqrt(strength[:kept])))


def points_of(fields: Floats, weighed_with: Floats) -> Points:
    """Points for a field of which examples are given, (places, examples); weighed_with (places, shapes).

    Discrete empirical interpolation, points by pivoted QR: Drmac and Gugercin, SIAM J. Sci. Comput. 38
    (2016) A631.
    """
    strength, mix = np.linalg.eigh(fields.T @ fields)
    if not len(fields) or strength[-1] <= 0.0:
        return Points(np.zeros(0, dtype=np.int64), np.zeros((weighed_with.shape[1], 0)))
    kept = min(MOST_POINTS, int((strength > POINT_SHARE**2 * strength[-1]).sum()))
    basis, _ = np.linalg.qr(fields @ mix[:, -kept:])
    _, _, pivots = linalg.qr(basis.T, mode="economic", pivoting=True)
    rows = pivots[:kept].astype(np.int64)
    return Points(rows, np.asarray(weighed_with.T @ basis @ np.linalg.inv(basis[rows])))
