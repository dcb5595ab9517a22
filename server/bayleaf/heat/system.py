"""The equations of one zone under one set of conditions: C dT/dt = -K T + s - losses(T) + B p."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy import sparse

from bayleaf.heat.faces import Faces
from bayleaf.heat.layout import Layout

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class HeatTable:
    """Nodes of a layer whose heat capacity changes with temperature: J/K per unit of cp, and the table."""

    node: Ints
    mass_kg: Floats
    at_C: Floats
    cp_J_kgK: Floats

    @cached_property
    def _sum(self) -> Floats:
        steps = np.diff(self.at_C) * (self.cp_J_kgK[1:] + self.cp_J_kgK[:-1]) / 2
        return np.concatenate([[0.0], np.cumsum(steps)])

    def enthalpy(self, node_C: Floats) -> Floats:
        """J above the table's first temperature: the exact integral of the piecewise linear cp."""
        row = np.clip(np.searchsorted(self.at_C, node_C) - 1, 0, len(self.at_C) - 2)
        past = node_C - self.at_C[row]
        slope = (self.cp_J_kgK[row + 1] - self.cp_J_kgK[row]) / (self.at_C[row + 1] - self.at_C[row])
        inside = np.clip(past, 0.0, self.at_C[row + 1] - self.at_C[row])
        outside = past - inside
        end_cp = self.cp_J_kgK[row] + slope * inside
        return np.asarray(
            self.mass_kg
            * (self._sum[row] + self.cp_J_kgK[row] * inside + slope * inside**2 / 2 + outside * end_cp)
        )

    def capacity(self, node_C: Floats) -> Floats:
        """J/K at node_C; beyond the table its end values hold."""
        return np.asarray(self.mass_kg * np.interp(node_C, self.at_C, self.cp_J_kgK))


@dataclass(frozen=True)
class System:
    """Matrices in node order; powers p in W/m2 of pads, in the zone's order of pads."""

    layout: Layout
    capacity_J_K: Floats
    conduction: sparse.csr_array  # K, W/K, symmetric, with losses to fixed temperatures on its diagonal
    source_W: Floats  # s: the fixed temperatures' part
    faces: Faces
    heating: sparse.csr_array  # B, m2, shape (nodes, pads)
    sensing: sparse.csr_array  # rows that give each pad's controlled temperature, shape (pads, nodes)
    setpoint_C: Floats  # +inf without a controller
    limit_W_m2: Floats
    fixed_loss: Floats  # W/K to fixed temperatures, per node: part of K's diagonal
    tables: tuple[HeatTable, ...] = ()

    @cached_property
    def fixed_source_W(self) -> float:
        """Heat that the fixed temperatures would give to a zone at 0 C, W."""
        return float(self.source_W.sum())

    @cached_property
    def linear(self) -> bool:
        """Whether one round of Newton's rule is exact."""
        return not self.tables and self.faces.linear

    def loss_W(self, node_C: Floats) -> Floats:
        """Heat lost through bare faces, W per node."""
        flux, _, _ = self.faces.loss(node_C[self.faces.node])
        return np.bincount(self.faces.node, flux * self.faces.area_m2, minlength=len(node_C))

    def loss_slope(self, node_C: Floats) -> Floats:
        """d(loss)/dT, W/K per node."""
        _, slope, _ = self.faces.loss(node_C[self.faces.node])
        return np.bincount(self.faces.node, slope * self.faces.area_m2, minlength=len(node_C))

    def enthalpy_J(self, node_C: Floats) -> Floats:
        """Stored heat per node against a fixed zero, J."""
        stored = self.capacity_J_K * node_C
        for table in self.tables:
            stored[table.node] = table.enthalpy(node_C[table.node])
        return stored

    def capacity_at(self, node_C: Floats) -> Floats:
        """dH/dT per node, J/K."""
        capacity = self.capacity_J_K.copy()
        for table in self.tables:
            capacity[table.node] = table.capacity(node_C[table.node])
        return capacity
