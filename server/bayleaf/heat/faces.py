"""Faces that lose heat to the air: natural convection and grey radiation, reached through half a layer."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
STEFAN_BOLTZMANN_W_M2K4 = 5.670374419e-8  # CODATA 2018
KELVIN = 273.15
ROUNDS = 4
SMALL_K = 1e-6
SMALL_FALL_K = 3.0
LAMINAR = 1.25


@dataclass(frozen=True)
class Faces:
    """Bare faces, one row each: node behind it, area, half-layer resistance, and its loss law."""

    node: Ints
    heated_side: NDArray[np.bool_]
    area_m2: Floats
    half_m2K_W: Floats
    coefficient_W_m2: Floats
    exponent: Floats
    emissivity: Floats
    ambient_C: float

    def __len__(self) -> int:
        return len(self.node)

    @cached_property
    def linear(self) -> bool:
        return bool(np.all(self.exponent == 1.0) and np.all(self.emissivity == 0.0))

    @cached_property
    def _same_exponent(self) -> float | None:
        """The exponent of all faces, if it is one."""
        first = float(self.exponent.flat[0]) if self.exponent.size else 1.0
        return first if bool(np.all(self.exponent == first)) else None

    def _power(self, size_K: Floats) -> Floats:
        """size_K ** (exponent - 1), in place by square roots for the laminar quarter power: most of the time
        is spent here.
        """
        if self._same_exponent == 1.0:
            return np.ones_like(size_K)
        if self._same_exponent == LAMINAR:
            np.sqrt(size_K, out=size_K)
            return np.sqrt(size_K, out=size_K)
        return np.asarray(size_K ** (self.exponent - 1.0))

    def only(self, rows: Ints) -> Faces:
        """Some of the faces."""
        return Faces(
            self.node[rows], self.heated_side[rows], self.area_m2[rows], self.half_m2K_W[rows],
            self.coefficient_W_m2[rows], self.exponent[rows], self.emissivity[rows], self.ambient_C,
        )  # fmt: skip

    def bare_loss(self, face_C: Floats) -> tuple[Floats, Floats]:
        """Flux in W/m2 from faces at face_C, and its slope in W/m2K.

        q = c |dT|^n sign(dT) + e sigma (T^4 - Ta^4): Incropera et al., Fundamentals of Heat and
        Mass Transfer, 7th ed., sec. 9.6.1 (h as a power of dT) and sec. 1.2.3, eq. 1.7.
        """
        rise_K = face_C - self.ambient_C
        h_W_m2K = self._power(np.abs(rise_K) + SMALL_K)
        h_W_m2K *= self.coefficient_W_m2
        kelvin = face_C + KELVIN
        cube = kelvin * kelvin
        cube *= kelvin
        cube *= self._grey
        flux = h_W_m2K * rise_K
        flux += cube * kelvin
        flux -= self._grey_ambient_W_m2
        h_W_m2K *= self.exponent
        cube *= 4
        return flux, h_W_m2K + cube

    @cached_property
    def _grey(self) -> Floats:
        return self.emissivity * STEFAN_BOLTZMANN_W_M2K4

    @cached_property
    def _grey_ambient_W_m2(self) -> Floats:
        return self._grey * (self.ambient_C + KELVIN) ** 4

    def loss(self, node_C: Floats) -> tuple[Floats, Floats, Floats]:
        """(W/m2, slope in W/m2K with the node's temperature, face temperature) behind half a layer.

        Solves (T - Ts) / r = q(Ts) by Newton's rule, started at the node. One round is exact for linear
        laws and leaves under 1e-4 of the flux where a few K fall over the half layer; steeper falls get
        further rounds.
        """
        face_C = node_C
        for _ in range(ROUNDS):
            flux, slope = self.bare_loss(face_C)
            divided = self.half_m2K_W * slope
            divided += 1
            moved_K = self.half_m2K_W * flux
            moved_K -= node_C - face_C
            moved_K /= divided
            face_C = face_C - moved_K
            flux -= slope * moved_K
            if self.linear or float(np.abs(moved_K).max(initial=0.0)) < SMALL_FALL_K:
                break
        return flux, slope / divided, face_C
