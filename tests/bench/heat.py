"""Bench of the heat planner: a curve and a whole plan against scipy's BDF and FiPy in one run, as ratios.

Usage: OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1 python tests/bench/heat.py [--quick]
Each side runs at its cheapest setting found whose bondline error against a fine reference is under 0.5 K.
CPU seconds, each the least of REPEATS. Prints tables and the peak memory. --quick leaves FiPy out.
"""

from __future__ import annotations

import math
import resource
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy import sparse
from scipy.integrate import solve_ivp

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bayleaf.heat.layout import Layout, layout_of
from bayleaf.heat.mesh import QUICK, STANDARD, Grading, mesh_of
from bayleaf.heat.places import places_of, sampler
from bayleaf.heat.plan import plan_of
from bayleaf.heat.probes import at_times
from bayleaf.heat.run import Run, simulate
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.zone import PadAct, Zone
from bayleaf.heat.zone_document import zone_of
from unit.heat.asked_of_fipy import cells_of, told_by_fipy
from unit.heat.zones import joint

Floats = NDArray[np.float64]
CHECKED_S = (300.0, 600.0, 1200.0, 2400.0, 3000.0, 3600.0, 5400.0)
RELEASE = tuple(PadAct(2700.0 + 300 * n, f"P{n}", "off") for n in range(4))
FINE = STANDARD.finer(2)
MESHES = {"lean": Grading(0.005, 0.5, 0.016, 0.8, 0.080), "quick": QUICK, "standard": STANDARD}
ERRORS_K = (1.0, 0.5, 0.2)
TOLERANCES = (1e-2, 3e-3, 1e-3)
FIPY = (("pcg", [30.0], 1), ("pcg", [60.0, 30.0], 1), ("lu", [60.0, 30.0], 1))  # solver, steps, sweeps
REPEATS = 3
ENOUGH_K = 0.5


@dataclass(frozen=True)
class Cost:
    """One setting's CPU time and its worst bondline error."""

    setting: str
    unknowns: int
    cpu_s: float
    error_K: float


def long_document(pads: int = 4, minutes: float = 90) -> dict[str, Any]:
    """1.2 m x 0.3 m, three layers; pads power-limited throughout, so both sides solve the same equations."""
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
    least_s, result = math.inf, None
    for _ in range(repeats):
        begun = time.process_time()
        result = work()
        least_s = min(least_s, time.process_time() - begun)
    return least_s, result


def ours(zone: Zone, grading: Grading, step_error_K: float) -> tuple[float, Layout, Run]:
    def work() -> tuple[Layout, Run]:
        layout = layout_of(zone, mesh_of(zone, grading))
        return layout, simulate(zone, layout, acts=RELEASE, accuracy=Accuracy(step_error_K))

    cpu_s, (layout, run) = timed(work)
    return cpu_s, layout, run


def bond_of_run(zone: Zone, run: Run) -> Floats:
    read = sampler(run.layout, places_of(zone, zone.layer("bond")))
    return at_times(run, np.asarray(read @ run.node_C.T).T, CHECKED_S)


def peer(zone: Zone, grading: Grading, tolerance: float) -> tuple[float, int, Floats]:
    """solve_ivp BDF on the same equations, with their sparse Jacobian given, restarted at each act."""
    layout = layout_of(zone, mesh_of(zone, grading))
    systems = simulate(zone, layout, acts=RELEASE, accuracy=Accuracy(5.0)).systems
    stops = [0.0, *(act.at_s for act in RELEASE), zone.duration_s]
    found: dict[float, Any] = {}
    read = sampler(layout, places_of(zone, zone.layer("bond")))

    def work() -> None:
        state = np.full(layout.count, zone.start_C)
        for system, (start_s, end_s) in zip(systems, pairwise(stops), strict=True):
            power_W = system.heating @ system.limit_W_m2

            def rate(_t: float, T: Floats, system: Any = system, power_W: Any = power_W) -> Any:
                return (
                    system.source_W - system.conduction @ T - system.loss_W(T) + power_W
                ) / system.capacity_J_K

            scale = sparse.diags_array(-1 / system.capacity_J_K).tocsc()
            even = (scale @ system.conduction).tocsc()

            def slope(
                _t: float, T: Floats, system: Any = system, scale: Any = scale, even: Any = even
            ) -> Any:
                return (even + scale @ sparse.diags_array(system.loss_slope(T)).tocsc()).tocsc()

            asked = [t for t in CHECKED_S if start_s < t <= end_s]
            told = solve_ivp(
                rate, (start_s, end_s), state, method="BDF", jac=slope, rtol=tolerance, atol=100 * tolerance,
                t_eval=sorted({*asked, end_s}),
            )  # fmt: skip
            found.update({float(t): read @ T for t, T in zip(told.t, told.y.T, strict=True)})
            state = told.y[:, -1]

    cpu_s, _ = timed(work)
    return cpu_s, layout.count, np.array([found[t] for t in CHECKED_S])


def by_fipy(zone: Zone, solver: str, step_s: list[float], sweeps: int) -> tuple[float, int, Floats, str]:
    """FiPy on the lean mesh: backward Euler of one step, or of two extrapolated; read at the same places."""
    layout = layout_of(zone, mesh_of(zone, MESHES["lean"]))
    cells, nodes = cells_of(layout)
    how = {"step_s": step_s, "solver": solver, "tolerance": 1e-6, "sweeps": sweeps}
    off_s = {act.pad: act.at_s for act in RELEASE}
    told = told_by_fipy(long_document(), layout, cells, off_s=off_s, times_s=list(CHECKED_S), **how)
    state = np.zeros((len(CHECKED_S), layout.count))
    state[:, nodes] = told["T_C"]
    read = sampler(layout, places_of(zone, zone.layer("bond")))
    return told["cpu_s"], told["unknowns"], np.asarray(read @ state.T).T, told["solver"]


def cheapest(costs: list[Cost]) -> Cost:
    good = [cost for cost in costs if cost.error_K < ENOUGH_K]
    return min(good or costs, key=lambda cost: cost.cpu_s if good else cost.error_K)


def tell(title: str, costs: list[Cost]) -> None:
    print(title)
    for cost in costs:
        print(
            f"  {cost.setting:40s} {cost.unknowns:6d} unknowns {cost.cpu_s:6.2f} s  off {cost.error_K:.2f} K"
        )


def main(*, quick: bool) -> None:
    zone = long_zone()
    _, _, fine = ours(zone, QUICK if quick else FINE, 0.02)
    exact = bond_of_run(zone, fine)
    mine, theirs = [], []
    for name, grading in MESHES.items():
        for error_K in ERRORS_K:
            cpu_s, layout, run = ours(zone, grading, error_K)
            off_K = float(np.abs(bond_of_run(zone, run) - exact).max())
            mine.append(Cost(f"{name} mesh, {error_K} K a step", layout.count, cpu_s, off_K))
    grading = MESHES[cheapest(mine).setting.split()[0]]
    for tolerance in TOLERANCES:
        cpu_s, count, bond = peer(zone, grading, tolerance)
        off_K = float(np.abs(bond - exact).max())
        theirs.append(Cost(f"BDF, rtol {tolerance:g}", count, cpu_s, off_K))
    tell("one curve of 90 min with release, planner", mine)
    tell("the same equations and mesh, scipy solve_ivp", theirs)
    one, other = cheapest(mine), cheapest(theirs)
    print(f"one curve: {one.cpu_s:.2f} s against {other.cpu_s:.2f} s, ratio {other.cpu_s / one.cpu_s:.1f}")
    if not quick:
        against_fipy(zone, exact, one)
    plan_s, _ = timed(lambda: plan_of(zone), 1)
    many_s = 25 * other.cpu_s
    print(f"plan with release and 5 x 5 response set: {plan_s:.1f} s; 25 runs of BDF: {many_s:.1f} s")
    print(f"plan: ratio {many_s / plan_s:.1f}")
    for pads, minutes in ((2, 90), (4, 45), (4, 90), (8, 90)):
        other_zone = long_zone(pads, minutes)
        layout = layout_of(other_zone, mesh_of(other_zone, STANDARD))
        cpu_s, steps = timed(partial(steps_of, other_zone, layout))
        print(f"  {pads} pads, {minutes} min, {layout.count} unknowns: {cpu_s:.2f} s in {steps} steps")
    print(f"peak memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


def against_fipy(zone: Zone, exact: Floats, one: Cost) -> None:
    costs = []
    for solver, step_s, sweeps in FIPY:
        cpu_s, count, bond, name = by_fipy(zone, solver, step_s, sweeps)
        costs.append(Cost(f"{name}, steps {step_s}", count, cpu_s, float(np.abs(bond - exact).max())))
        print(costs[-1], flush=True)
    tell("the same zone by FiPy", costs)
    best = cheapest(costs)
    print(f"one curve: FiPy {best.cpu_s:.1f} s ({best.setting}), ratio {best.cpu_s / one.cpu_s:.0f}")


def steps_of(zone: Zone, layout: Layout) -> int:
    return len(simulate(zone, layout).times_s) - 1


if __name__ == "__main__":
    main(quick="--quick" in sys.argv)
