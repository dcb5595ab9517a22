"""Bench of the heat planner: one curve and a whole plan against scipy's BDF in the same run, as ratios.

Usage: OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1 python tests/bench/heat.py [--quick]
Each side runs at its cheapest setting found whose bondline error against a fine reference is under 0.5 K.
CPU seconds, so that a busy machine does not count. Prints a table and the peak memory.
"""

from __future__ import annotations

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
from scipy.integrate import solve_ivp

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bayleaf.heat.family import COARSE
from bayleaf.heat.layout import Layout, layout_of
from bayleaf.heat.mesh import QUICK, STANDARD, Grading, mesh_of
from bayleaf.heat.places import places_of, sampler
from bayleaf.heat.plan import plan_of
from bayleaf.heat.probes import at_times
from bayleaf.heat.run import Run, simulate
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.zone import PadAct, Zone
from bayleaf.heat.zone_document import zone_of
from unit.heat.zones import joint

Floats = NDArray[np.float64]
CHECKED_S = (300.0, 600.0, 1200.0, 2400.0, 3000.0, 3600.0, 5400.0)
RELEASE = tuple(PadAct(2700.0 + 300 * n, f"P{n}", "off") for n in range(4))
FINE = Grading(0.002, 0.015, 1.5, 0.004)
MESHES = {"coarse": COARSE, "quick": QUICK, "standard": STANDARD}
ERRORS_K = (0.5, 0.2, 0.05)
TOLERANCES = (3e-2, 1e-2, 3e-3, 1e-3, 1e-4)
ENOUGH_K = 0.5


@dataclass(frozen=True)
class Cost:
    """One setting's CPU time and its worst bondline error."""

    setting: str
    unknowns: int
    cpu_s: float
    error_K: float


def long_zone(pads: int = 4, minutes: float = 90) -> Zone:
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
    return zone_of(document)


def timed(work: Callable[[], Any]) -> tuple[float, Any]:
    begun = time.process_time()
    result = work()
    return time.process_time() - begun, result


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
    state, found = np.full(layout.count, zone.start_C), {}
    read = sampler(layout, places_of(zone, zone.layer("bond")))

    def work() -> None:
        nonlocal state
        for system, (start_s, end_s) in zip(systems, pairwise(stops), strict=True):
            power_W = system.heating @ system.limit_W_m2

            def rate(_t: float, T: Floats, system: Any = system, power_W: Any = power_W) -> Any:
                return (
                    system.source_W - system.conduction @ T - system.loss_W(T) + power_W
                ) / system.capacity_J_K

            def slope(_t: float, T: Floats, system: Any = system) -> Any:
                matrix = system.conduction.tolil()
                matrix.setdiag(matrix.diagonal() + system.loss_slope(T))
                return (matrix.tocsr().multiply(-1 / system.capacity_J_K[:, None])).tocsc()

            asked = [t for t in CHECKED_S if start_s < t <= end_s]
            told = solve_ivp(
                rate, (start_s, end_s), state, method="BDF", jac=slope, rtol=tolerance, atol=100 * tolerance,
                t_eval=sorted({*asked, end_s}),
            )  # fmt: skip
            found.update({float(t): read @ T for t, T in zip(told.t, told.y.T, strict=True)})
            state = told.y[:, -1]

    cpu_s, _ = timed(work)
    return cpu_s, layout.count, np.array([found[t] for t in CHECKED_S])


def cheapest(costs: list[Cost]) -> Cost:
    good = [cost for cost in costs if cost.error_K < ENOUGH_K]
    return min(good or costs, key=lambda cost: cost.cpu_s if good else cost.error_K)


def tell(title: str, costs: list[Cost]) -> None:
    print(title)
    for cost in costs:
        print(
            f"  {cost.setting:28s} {cost.unknowns:6d} unknowns {cost.cpu_s:6.2f} s  off {cost.error_K:.2f} K"
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
    plan_s, _ = timed(lambda: plan_of(zone))
    many_s = 25 * other.cpu_s
    print(f"plan with release and 5 x 5 response set: {plan_s:.1f} s; 25 runs of BDF: {many_s:.1f} s")
    print(f"plan: ratio {many_s / plan_s:.1f}")
    for pads, minutes in ((2, 90), (4, 45), (4, 90), (8, 90)):
        other_zone = long_zone(pads, minutes)
        layout = layout_of(other_zone, mesh_of(other_zone, STANDARD))
        cpu_s, steps = timed(partial(steps_of, other_zone, layout))
        print(f"  {pads} pads, {minutes} min, {layout.count} unknowns: {cpu_s:.2f} s in {steps} steps")
    print(f"peak memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


def steps_of(zone: Zone, layout: Layout) -> int:
    return len(simulate(zone, layout).times_s) - 1


if __name__ == "__main__":
    main(quick="--quick" in sys.argv)
