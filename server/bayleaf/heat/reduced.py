"""A zone's equations on a few shapes, for a whole family of conditions at once."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache, cached_property

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.assembly import system_of
from bayleaf.heat.faces import Faces
from bayleaf.heat.layout import Layout
from bayleaf.heat.modes import Modes, Points, points_of
from bayleaf.heat.system import HeatTable, System
from bayleaf.heat.zone import NOMINAL, Conditions, Zone

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class ReducedTable:
    """A layer whose heat capacity changes with temperature: its heat beyond that at its first capacity."""

    points: Points
    shapes: Floats  # (points, shapes)
    grid_C: Floats
    beyond_J_kg: Floats

    def stored(self, point_C: Floats) -> Floats:
        return np.asarray(np.interp(point_C, self.grid_C, self.beyond_J_kg))

    def slope(self, point_C: Floats) -> Floats:
        return (self.stored(point_C + 1) - self.stored(point_C - 1)) / 2


@dataclass(frozen=True)
class Reduced:
    """Equations of all members at once; amounts of the shapes have the shape (members, shapes)."""

    modes: Modes
    conduction: Floats  # (members, shapes, shapes)
    source: Floats  # (members, shapes)
    heating: Floats  # (shapes, pads)
    sensing: Floats  # (pads, shapes)
    setpoint_C: Floats
    loss: Floats  # (members, 1): the factor on losses
    faces: Faces  # at the points
    face_shapes: Floats  # (points, shapes)
    face_spread: Floats  # (shapes, points)
    tables: tuple[ReducedTable, ...]

    def only(self, members: list[int]) -> Reduced:
        """Some of the members."""
        return replace(
            self,
            conduction=self.conduction[members],
            source=self.source[members],
            loss=self.loss[members],
        )

    @cached_property
    def _law(self) -> Faces:
        every = np.ones((len(self.loss), len(self.faces)))
        return replace(
            self.faces,
            half_m2K_W=every * self.faces.half_m2K_W,
            coefficient_W_m2=self.loss * self.faces.coefficient_W_m2,
            exponent=every * self.faces.exponent,
            emissivity=self.loss * self.faces.emissivity,
        )

    def _flux(self, amounts: Floats) -> tuple[Floats, Floats]:
        """Loss and its slope at the points, (members, points)."""
        flux, slope, _ = self._law.loss(self.modes.ambient_C + amounts @ self.face_shapes.T)
        return flux, slope

    def stored(self, amounts: Floats) -> Floats:
        """Heat above ambient in each shape, (members, shapes)."""
        held = amounts.copy()
        for table in self.tables:
            held += table.stored(self.modes.ambient_C + amounts @ table.shapes.T) @ table.points.spread.T
        return held

    def unheated(self, amounts: Floats) -> Floats:
        """Heat flow into each shape without power, (members, shapes)."""
        flux, _ = self._flux(amounts)
        return self.source - times(self.conduction, amounts) - flux @ self.face_spread.T

    def slopes(self, amounts: Floats, weight_s: float) -> Floats:
        """d(stored + weight (conduction + losses)) / d(amounts), (members, shapes, shapes)."""
        _, slope = self._flux(amounts)
        lost = (self.face_spread * slope[:, None, :]) @ self.face_shapes
        matrix = np.eye(amounts.shape[1]) + weight_s * (self.conduction + lost)
        for table in self.tables:
            steep = table.slope(self.modes.ambient_C + amounts @ table.shapes.T)
            matrix += (table.points.spread * steep[:, None, :]) @ table.shapes
        return np.asarray(matrix)

    def falls(self, around: Floats, step_s: float, look_s: float) -> Floats:
        """Changes of the first member's amounts every step after each pad alone loses 1 W/m2, to first order.

        Implicit Euler around some amounts; shape (times, shapes, pads).
        """
        first, at = self.only([0]), around[None]
        held, matrix = first.slopes(at, 0.0)[0], first.slopes(at, step_s)[0]
        onward, lost = np.linalg.solve(matrix, held), np.linalg.solve(matrix, step_s * self.heating)
        changes = [np.zeros_like(self.heating)]
        for _ in range(round(look_s / step_s)):
            changes.append(onward @ changes[-1] - lost)
        return np.array(changes)


def times(matrices: Floats, vectors: Floats) -> Floats:
    """One matrix a member times one vector a member."""
    return np.asarray(np.matmul(matrices, vectors[:, :, None])[:, :, 0])


@dataclass(frozen=True)
class Base:
    """A zone's equations under nominal conditions on its shapes, and what other conditions leave alone."""

    zone: Zone
    lifted: frozenset[str]
    system: System
    modes: Modes
    drawn: Floats  # S' K S
    given: Floats  # S' (s - K ambient)
    points: Points
    tables: tuple[ReducedTable, ...]

    def under(self, conditions: tuple[Conditions, ...]) -> Reduced:
        """The equations of one member for each of these.

        Contact and loss stand in different terms of K and s, so K(c, l) = K(c, 1) + K(1, l) - K(1, 1).
        """
        changed = cache(self._changed)
        terms = [(changed(replace(one, loss=1.0)), changed(Conditions(loss=one.loss))) for one in conditions]
        system, rows = self.system, self.points.rows
        return Reduced(
            self.modes,
            np.array([self.drawn + contact[0] + loss[0] for contact, loss in terms]),
            np.array([self.given + contact[1] + loss[1] for contact, loss in terms]),
            np.asarray(self.modes.shapes.T @ system.heating.toarray()),
            np.asarray(system.sensing @ self.modes.shapes),
            system.setpoint_C,
            np.array([[one.loss] for one in conditions]),
            system.faces.only(rows),
            self.modes.shapes[system.faces.node[rows]],
            self.points.spread,
            self.tables,
        )

    def _changed(self, under: Conditions) -> tuple[Floats, Floats]:
        """What conditions add to the nominal `drawn` and `given`, from the few nodes that they touch."""
        system = system_of(self.zone, self.system.layout, under, self.lifted)
        more = (system.conduction - self.system.conduction).tocsr()
        source_W = system.source_W - self.system.source_W
        nodes = np.flatnonzero((np.abs(more).sum(axis=1) > 0) | (source_W != 0))
        shapes, more = self.modes.shapes[nodes], more[nodes][:, nodes]
        given_W = source_W[nodes] - self.modes.ambient_C * more.sum(axis=1)
        return shapes.T @ (more @ shapes), shapes.T @ given_W


def base_of(zone: Zone, layout: Layout, modes: Modes, states_C: Floats, lifted: frozenset[str]) -> Base:
    """The zone's equations projected on shapes; the points are chosen for states_C, (nodes, states)."""
    system = system_of(zone, layout, NOMINAL, lifted)
    points = _face_points(system, modes, states_C)
    tables = tuple(_table(table, system, modes, states_C) for table in system.tables)
    return Base(zone, lifted, system, modes, *_projected(system, modes), points, tables)


def _projected(system: System, modes: Modes) -> tuple[Floats, Floats]:
    """(S' K S, S' (s - K ambient))."""
    ambient_W = system.conduction @ np.full(system.layout.count, modes.ambient_C)
    drawn = modes.shapes.T @ (system.conduction @ modes.shapes)
    return drawn, modes.shapes.T @ (system.source_W - ambient_W)


def _face_points(system: System, modes: Modes, states_C: Floats) -> Points:
    faces = system.faces
    flux = np.array([faces.loss(state_C)[0] for state_C in states_C[faces.node].T]).T
    return points_of(flux, faces.area_m2[:, None] * modes.shapes[faces.node])


def _table(table: HeatTable, system: System, modes: Modes, states_C: Floats) -> ReducedTable:
    first_J_kgK = system.capacity_J_K[table.node[0]] / table.mass_kg[0]
    beyond = table.enthalpy_J_kg - first_J_kgK * table.grid_C
    beyond = beyond - np.interp(modes.ambient_C, table.grid_C, beyond)
    fields = np.interp(states_C[table.node], table.grid_C, beyond)
    points = points_of(fields, table.mass_kg[:, None] * modes.shapes[table.node])
    return ReducedTable(points, modes.shapes[table.node[points.rows]], table.grid_C, beyond)
