"""Rigid best fit of named points: how a part lies against what was measured, and what is left at each point.

Least squares of |measured - (R nominal + t)| with det R = +1: Kabsch 1976; Arun, Huang and Blostein 1987;
Umeyama 1991. A mirror image is never answered with. Points on a line leave the turn about it open and are
refused; points near a line are warned of. So are places that do not hold a turn together, as two exchanged
corners of a square do: one rotation is best only where S2 + d S3 of the product matrix is above zero (Umeyama
1991, lemma). Model "best-fit-1".
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from bayleaf.bonding.refusal import Refused

MODEL: Final = "best-fit-1"
LEAST_POINTS: Final = 3
ON_A_LINE: Final = 1e-6  # second singular value over the first; measured coordinates are no finer
NEAR_A_LINE: Final = 0.05
OPEN_TURN: Final = 1e-3  # of what the spread of both sides would hold it with
_NOISE_MM: Final = 1e-6
Points = Mapping[str, tuple[float, float, float]]
Matrix = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class BestFit:
    """measured = rotation nominal + translation + residual; mm and degrees."""

    rotation: list[list[float]]
    translation_mm: list[float]
    residual_mm: dict[str, list[float]]
    second_singular_mm: float
    spread_ratio: float
    mirrored: bool
    mirror_gain_mm2: float

    @property
    def mirror_fits_better(self) -> bool:
        """Whether a mirror image would leave under half of the residual: more than noise does if flat."""
        return self.mirrored and self.rms_mm**2 - self.mirror_gain_mm2 < self.rms_mm**2 / 4

    @property
    def residual_length_mm(self) -> dict[str, float]:
        return {name: math.hypot(*vector) for name, vector in self.residual_mm.items()}

    @property
    def rms_mm(self) -> float:
        """Root of the mean squared length over the points, not per coordinate."""
        lengths = self.residual_length_mm.values()
        return math.sqrt(sum(mm * mm for mm in lengths) / len(lengths))

    @property
    def largest_at(self) -> str | None:
        lengths = self.residual_length_mm
        name = max(lengths, key=lengths.__getitem__)
        return name if lengths[name] > _NOISE_MM else None

    @property
    def near_a_line(self) -> bool:
        return self.spread_ratio < NEAR_A_LINE

    @property
    def determinant(self) -> float:
        return float(np.linalg.det(np.array(self.rotation)))

    @property
    def angle_deg(self) -> float:
        R = np.array(self.rotation)
        axis = np.array([R[2, 1] - R[1, 2], R[0, 2] - R[2, 0], R[1, 0] - R[0, 1]])
        return math.degrees(math.atan2(float(np.linalg.norm(axis)), float(np.trace(R)) - 1))


def best_fit(nominal_mm: Points, measured_mm: Points) -> BestFit:
    """Fits by the names that both sides carry.

    Refused: other names, under three points, a line, places that leave the turn open.
    """
    if set(nominal_mm) != set(measured_mm):
        odd = ", ".join(sorted(set(nominal_mm) ^ set(measured_mm)))
        raise Refused("measured_mm", f"without a partner: {odd}", "the same names as nominal_mm")
    names = list(nominal_mm)
    nominal, measured = _as_matrix(nominal_mm, names), _as_matrix(measured_mm, names)
    second, ratio = _spread(nominal, "nominal_mm")
    across, _ = _spread(measured, "measured_mm")
    rotation, held, mirror_mm2 = _rotation(nominal, measured)
    if held < OPEN_TURN * second * across:
        allowed = "places that hold one turn: are two names exchanged, or is a sign lost?"
        shown = {"second_singular_value_mm": second}
        raise Refused("measured_mm", "places that fit nominal_mm as well in other turns", allowed, shown)
    translation = measured.mean(axis=0) - rotation @ nominal.mean(axis=0)
    residual = measured - (nominal @ rotation.T + translation)
    return BestFit(
        rotation=rotation.tolist(),
        translation_mm=translation.tolist(),
        residual_mm=dict(zip(names, residual.tolist(), strict=True)),
        second_singular_mm=second,
        spread_ratio=ratio,
        mirrored=mirror_mm2 > 0,
        mirror_gain_mm2=mirror_mm2 * 4 / len(names),
    )


def _rotation(nominal: Matrix, measured: Matrix) -> tuple[Matrix, float, float]:
    """The proper rotation; how well it is held, mm2; and the singular value that a mirror would gain."""
    U, S, Vt = np.linalg.svd((nominal - nominal.mean(axis=0)).T @ (measured - measured.mean(axis=0)))
    sign = 1.0 if np.linalg.det(Vt.T @ U.T) > 0 else -1.0
    in_a_plane = S[2] <= S[0] * ON_A_LINE**2
    mirror_mm2 = float(S[2]) if sign < 0 and not in_a_plane else 0.0
    return Vt.T @ np.diag([1.0, 1.0, sign]) @ U.T, float(S[1] + sign * S[2]), mirror_mm2


def _spread(points: Matrix, field: str) -> tuple[float, float]:
    """Second singular value of the centred points, mm, and its ratio to the first; refuses lines."""
    S = np.linalg.svd(points - points.mean(axis=0), compute_uv=False)
    first, second = float(S[0]), float(S[1]) if len(S) > 1 else 0.0
    ratio = second / first if first else 0.0
    if len(points) < LEAST_POINTS or ratio < ON_A_LINE:
        found = f"{len(points)} points with {second:.6g} mm across their line"
        allowed = "three points or more, not on one line: else the turn about the line is open"
        raise Refused(field, found, allowed, {"second_singular_value_mm": second})
    return second, ratio


def _as_matrix(points_mm: Points, names: list[str]) -> Matrix:
    return np.array([points_mm[name] for name in names], dtype=np.float64)
