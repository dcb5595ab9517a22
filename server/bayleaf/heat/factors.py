"""A bounded store of factorised matrices: the last used stay, the rest go."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Hashable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.band import Banded, banded
from bayleaf.heat.system import System

Floats = NDArray[np.float64]
MOST_BYTES = 80_000_000
MOST_FACTORS = 12


@dataclass(frozen=True)
class Factor:
    """M = C + a (K + D) factorised, and what one W/m2 of each pad does to it: Z = M^-1 a B."""

    solver: Banded
    pad_K: Floats  # Z, K per W/m2, shape (nodes, pads)
    felt_K: Floats  # sensing @ Z, shape (pads, pads)

    @property
    def size_bytes(self) -> int:
        return self.solver.size_bytes + self.pad_K.nbytes

    def solve(self, right_J: Floats) -> Floats:
        return self.solver.solve(right_J)


def solver_of(system: System, weight_s: float, around_C: Floats) -> Banded:
    """M factorised; the losses' slope is frozen at around_C."""
    diagonal = system.capacity_at(around_C) + weight_s * system.loss_slope(around_C)
    return banded(system.links, diagonal, weight_s)


def factorise(system: System, weight_s: float, around_C: Floats) -> Factor:
    """The same, with what the pads do to it."""
    solver = solver_of(system, weight_s, around_C)
    heating = weight_s * system.heating.toarray()
    pad_K = solver.solve(heating) if heating.size else heating
    return Factor(solver, pad_K, system.sensing @ pad_K)


@dataclass
class FactorStore:
    """Factorisations by key, at most so many bytes; `made` and `peak_bytes` are for the benchmark."""

    most_bytes: int = MOST_BYTES
    most: int = MOST_FACTORS
    made: int = 0
    peak_bytes: int = 0
    _kept: OrderedDict[Hashable, Factor] = field(default_factory=OrderedDict)

    def get(self, key: Hashable, system: System, weight_s: float, around_C: Floats) -> Factor:
        if key not in self._kept:
            self._kept[key] = factorise(system, weight_s, around_C)
            self.made += 1
        self._kept.move_to_end(key)
        self._trim()
        return self._kept[key]

    def _trim(self) -> None:
        while len(self._kept) > 1 and (self._bytes() > self.most_bytes or len(self._kept) > self.most):
            self._kept.popitem(last=False)
        self.peak_bytes = max(self.peak_bytes, self._bytes())

    def _bytes(self) -> int:
        return sum(factor.size_bytes for factor in self._kept.values())
