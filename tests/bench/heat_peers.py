"""The zone of the heat bench, and the programs that the planner is measured against: scipy's BDF and FiPy."""

from __future__ import annotations

import math
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy import sparse
from scipy.integrate import solve_ivp

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bayleaf.heat.layout import layout_of
from bayleaf.heat.mesh import Grading, mesh_of
from bayleaf.heat.places import places_of, sampler
from bayleaf.heat.run import simulate
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.system import System
from bayleaf.heat.zone import PadAct, Zone
from bayleaf.heat.zone_document import zone_of
from unit.heat.asked_of_fipy import cells_of, told_by_fipy
from unit.heat.zones import joint

Floats = NDArray[np.float64]
CHECKED_S = (300.0, 600.0, 1200.0, 2400.0, 3000.0, 3600.0, 5400.0)
RELEASE = tuple(PadAct(2700.0 + 300 * n, f"P{n}", "off") for n in range(4))
REPEATS = 3


@dataclass(frozen=True)
class Fipy:
    """How FiPy is asked: one step of backward Euler, or two that are extrapolated; one sweep each."""

    mesh: str
    solver: str
    step_s: tuple[float, ...]
    tolerance: float


def long_document(pads: int = 4, minutes: float = 90) -> dict[str, Any]:
    """1.2 m x 0.3 m, three layers; pads power-limited throughout, so that all solve the same equations."""
    document = joint(size_mm=[1200, 300], duration_min=minutes)
    for layer in document["layers"][1:]:
        layer["covers_mm"] = [[0, 100, 1200, 140 if layer["id"] == "bond" else 300]]
    wide = 1200 / pads
    document["pads"] = [
        {**document["pads"][0], "id": f"P{n}", "setpoint_C": 590, "power_W_cm2": 1.2,
         "box_mm": [n * wide + 10, 90, (n + 1) * wide - 10, 150]}
        for n in range(pads)
    ]  # fmt: skip
    document["bondline"] |= {"workable_C": 90}
    document["sensors"] = [{"id": f"s{n}", "at_mm": [100 + 250 * n, 102.5]} for n in range(4)]
    document["limits"] = {"cooling_K_min": 7}
    return document


def long_zone(pads: int = 4, minutes: float = 90) -> Zone:
    return zone_of(long_document(pads, minutes))


def timed(work: Callable[[], Any], repeats: int = REPEATS) -> tuple[float, Any]:
    """Least CPU time of some repeats, and what the last of them gave."""
    least_s, result = math.inf, None
    for _ in range(repeats):
        begun = time.process_time()
        result = work()
        least_s = min(least_s, time.process_time() - begun)
    return least_s, result


def by_bdf(zone: Zone, grading: Grading, tolerance: float) -> tuple[float, int, Floats]:
    """solve_ivp BDF on the planner's equations, with their sparse Jacobian given, restarted at each act."""
    layout = layout_of(zone, mesh_of(zone, grading))
    systems = simulate(zone, layout, acts=RELEASE, accuracy=Accuracy(5.0)).systems
    stops = [0.0, *(act.at_s for act in RELEASE), zone.duration_s]
    read = sampler(layout, places_of(zone, zone.layer("bond")))
    found: dict[float, Floats] = {}

    def work() -> None:
        state = np.full(layout.count, zone.start_C)
        for system, (start_s, end_s) in zip(systems, pairwise(stops), strict=True):
            asked = sorted({*(t for t in CHECKED_S if start_s < t <= end_s), end_s})
            told = _bdf(system, (start_s, end_s), state, asked, tolerance)
            found.update({float(t): read @ T for t, T in zip(told.t, told.y.T, strict=True)})
            state = told.y[:, -1]

    cpu_s, _ = timed(work)
    return cpu_s, layout.count, np.array([found[t] for t in CHECKED_S])


def _bdf(
    system: System, span_s: tuple[float, float], state: Floats, asked: list[float], tolerance: float
) -> Any:
    power_W = system.heating @ system.limit_W_m2
    scale = sparse.diags_array(-1 / system.capacity_J_K).tocsc()
    even = (scale @ system.conduction).tocsc()

    def rate(_t: float, T: Floats) -> Any:
        return (system.source_W - system.conduction @ T - system.loss_W(T) + power_W) / system.capacity_J_K

    def slope(_t: float, T: Floats) -> Any:
        return (even + scale @ sparse.diags_array(system.loss_slope(T)).tocsc()).tocsc()

    return solve_ivp(
        rate, span_s, state, method="BDF", jac=slope, rtol=tolerance, atol=100 * tolerance, t_eval=asked
    )


def by_fipy(zone: Zone, grading: Grading, how: Fipy) -> tuple[float, int, Floats, str]:
    """FiPy on the planner's cells, read at the same places."""
    layout = layout_of(zone, mesh_of(zone, grading))
    cells, nodes = cells_of(layout)
    asked = {"step_s": list(how.step_s), "solver": how.solver, "tolerance": how.tolerance, "sweeps": 1}
    off_s = {act.pad: act.at_s for act in RELEASE}
    told = told_by_fipy(long_document(), layout, cells, off_s=off_s, times_s=list(CHECKED_S), **asked)
    state = np.zeros((len(CHECKED_S), layout.count))
    state[:, nodes] = told["T_C"]
    read = sampler(layout, places_of(zone, zone.layer("bond")))
    return told["cpu_s"], told["unknowns"], np.asarray(read @ state.T).T, told["solver"]
