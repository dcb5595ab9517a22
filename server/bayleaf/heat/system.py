"""The equations of one zone under one set of conditions: C dT/dt = -K T + s - losses(T) + B p."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy import sparse

from bayleaf.heat.faces import Faces
from bayleaf.heat.layout import Layout
from bayleaf.heat.order import Links, links_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
COLDEST_C, HOTTEST_C = -60.0, 900.0


@dataclass(frozen=True)
class HeatTable:
    """Nodes of a layer whose heat capacity changes with temperature, and the layer's enthalpy on a 1 K grid.

    The stored heat is straight between grid points, so that stored, supplied and lost heat balance exactly.
    """

    node: Ints
    mass_kg: Floats
    grid_C: Floats
    enthalpy_J_kg: Floats

    @classmethod
    def of(cls, node: Ints, mass_kg: Floats, at_C: Floats, cp_J_kgK: Floats) -> HeatTable:
        """From a rising table of cp, its end values holding beyond it."""
        grid_C = np.arange(COLDEST_C, HOTTEST_C + 1.0)
        cp = np.interp(grid_C, at_C, cp_J_kgK)
        rises = np.concatenate([[0.0], np.cumsum((cp[1:] + cp[:-1]) / 2)])
        return cls(node, mass_kg, grid_C, rises)

    def enthalpy(self, node_C: Floats) -> Floats:
        """J above the grid's first temperature."""
        return np.asarray(self.mass_kg * np.interp(node_C, self.grid_C, self.enthalpy_J_kg))

    def capacity(self, node_C: Floats) -> Floats:
        """J/K around node_C."""
        rise = np.interp(node_C + 1, self.grid_C, self.enthalpy_J_kg)
        return np.asarray(self.mass_kg * (rise - np.interp(node_C - 1, self.grid_C, self.enthalpy_J_kg)) / 2)


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
    def links(self) -> Links:
        """K in the order in which it is factorised."""
        return links_of(self.layout, self.conduction)

    @cached_property
    def fixed_source_W(self) -> float:
        """Heat that the fixed temperatures would give to a zone at 0 C, W."""
        return float(self.source_W.sum())

    @cached_property
    def linear(self) -> bool:
        """Whether one round of Newton's rule is exact."""
        return not self.tables and self.faces.linear

    def _per_node(self, per_area: Floats) -> Floats:
        summed = np.bincount(self.faces.node, per_area * self.faces.area_m2, minlength=self.layout.count)
        return summed.astype(np.float64, copy=False)

    def loss_W(self, node_C: Floats) -> Floats:
        """Heat lost through bare faces, W per node."""
        flux, _, _ = self.faces.loss(node_C[self.faces.node])
        return self._per_node(flux)

    def loss_slope(self, node_C: Floats) -> Floats:
        """d(loss)/dT, W/K per node."""
        _, slope, _ = self.faces.loss(node_C[self.faces.node])
        return self._per_node(slope)

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
