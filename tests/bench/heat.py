"""Bench of the heat planner: a curve and a whole plan against scipy's BDF and FiPy in one run, as ratios.

Usage: OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1 python tests/bench/heat.py [--quick]
Each program runs at its cheapest setting found whose bondline error against a fine reference (cells cut in
three both ways, steps of 0.02 K) is under 0.5 K. A plan holds 0.5 K in every layer, for which it has a finer
mesh: BDF is told on that one too. CPU seconds on one core, each the least of three (FiPy: once).
Prints tables and the plan's peak memory. Some 6 minutes; --quick leaves FiPy out.
"""

from __future__ import annotations

import resource
import sys
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bayleaf.heat.layout import Layout, layout_of
from bayleaf.heat.mesh import QUICK, STANDARD, Grading, mesh_of
from bayleaf.heat.places import places_of, sampler
from bayleaf.heat.plan import plan_of
from bayleaf.heat.probes import at_times
from bayleaf.heat.run import Run, simulate
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.zone import Zone
from bench.heat_peers import CHECKED_S, RELEASE, Fipy, by_bdf, by_fipy, long_zone, timed

Floats = NDArray[np.float64]
FINE = STANDARD.finer(3)
MESHES = {
    "lean": Grading(0.005, 0.5, 0.016, 0.8, 0.080),
    "quick": QUICK,
    "fair": Grading(0.004, 0.4, 0.012, 0.6, 0.050),
    "standard": STANDARD,
}
ERRORS_K = (2.0, 1.0, 0.5, 0.2)
TOLERANCES = (1e-2, 3e-3, 1e-3)
FIPY = (
    Fipy("fair", "pcg", (60.0,), 1e-4),
    Fipy("fair", "pcg", (100.0, 50.0), 1e-4),
    Fipy("fair", "pcg", (75.0, 37.5), 1e-4),
    Fipy("fair", "lu", (75.0, 37.5), 1e-6),
    Fipy("quick", "lu", (60.0, 30.0), 1e-6),
    Fipy("lean", "lu", (60.0, 30.0), 1e-6),
)
ENOUGH_K = 0.5
MEMBERS = 25


@dataclass(frozen=True)
class Cost:
    """One setting's CPU time and its worst bondline error."""

    setting: str
    unknowns: int
    cpu_s: float
    error_K: float


Judge = Callable[[Floats], float]


def ours(zone: Zone, grading: Grading, step_error_K: float) -> tuple[float, Layout, Run]:
    def work() -> Run:
        layout = layout_of(zone, mesh_of(zone, grading))
        return simulate(zone, layout, acts=RELEASE, accuracy=Accuracy(step_error_K))

    cpu_s, run = timed(work)
    return cpu_s, run.layout, run


def bond_of_run(zone: Zone, run: Run) -> Floats:
    read = sampler(run.layout, places_of(zone, zone.layer("bond")))
    return at_times(run, np.asarray(read @ run.node_C.T).T, CHECKED_S)


def judge_of(zone: Zone) -> Judge:
    """How far a bondline at the checked times is off the fine reference, K."""
    fine = simulate(zone, layout_of(zone, mesh_of(zone, FINE)), acts=RELEASE, accuracy=Accuracy(0.02))
    exact = bond_of_run(zone, fine)
    return lambda bond: float(np.abs(bond - exact).max())


def planners(zone: Zone, judge: Judge) -> list[Cost]:
    costs = []
    for name, grading in MESHES.items():
        for error_K in ERRORS_K:
            cpu_s, layout, run = ours(zone, grading, error_K)
            off_K = judge(bond_of_run(zone, run))
            costs.append(Cost(f"{name} mesh, {error_K} K a step", layout.count, cpu_s, off_K))
    return costs


def bdfs(zone: Zone, judge: Judge) -> list[Cost]:
    costs = []
    for name in ("quick", "fair", "standard"):
        for tolerance in TOLERANCES:
            cpu_s, count, bond = by_bdf(zone, MESHES[name], tolerance)
            costs.append(Cost(f"{name} mesh, BDF, rtol {tolerance:g}", count, cpu_s, judge(bond)))
    return costs


def fipys(zone: Zone, judge: Judge) -> list[Cost]:
    costs = []
    for how in FIPY:
        cpu_s, count, bond, solver = by_fipy(zone, MESHES[how.mesh], how)
        steps = " and ".join(f"{step_s:g}" for step_s in how.step_s)
        costs.append(Cost(f"{how.mesh} mesh, {solver}, steps {steps} s", count, cpu_s, judge(bond)))
    return costs


def cheapest(costs: list[Cost]) -> Cost:
    """The cheapest that is good enough; else the nearest to it, which is a lower bound of the cost."""
    good = [cost for cost in costs if cost.error_K < ENOUGH_K]
    return min(good, key=lambda cost: cost.cpu_s) if good else min(costs, key=lambda cost: cost.error_K)


def tell(title: str, costs: list[Cost]) -> None:
    print(title)
    for cost in costs:
        print(
            f"  {cost.setting:48s} {cost.unknowns:6d} unknowns {cost.cpu_s:6.2f} s  off {cost.error_K:.2f} K"
        )
    best = cheapest(costs)
    enough = "" if best.error_K < ENOUGH_K else "; none is good enough, a better one costs more"
    print(f"  cheapest: {best.setting}{enough}", flush=True)


def scaling() -> None:
    """What a curve and a plan cost against pads and minutes, and a curve against cells."""
    print("cost on the standard mesh, without a set release")
    for pads, minutes in ((2, 90), (4, 90), (8, 90), (4, 45), (4, 180)):
        zone = long_zone(pads, minutes)
        layout = layout_of(zone, mesh_of(zone, STANDARD))
        cpu_s, steps = timed(partial(steps_of, zone, layout))
        plan_s, _ = timed(partial(plan_of, zone))
        print(
            f"  {pads} pads, {minutes:3d} min, {layout.count:6d} unknowns: curve {cpu_s:5.2f} s in {steps:3d}"
            f" steps, plan {plan_s:5.2f} s"
        )
    print("cost of a curve of 4 pads and 90 min against cells")
    zone = long_zone()
    for name, grading in {**MESHES, "1.5 times finer": STANDARD.finer(1.5), "3 times finer": FINE}.items():
        layout = layout_of(zone, mesh_of(zone, grading))
        cpu_s, steps = timed(partial(steps_of, zone, layout))
        print(f"  {name:16s} {layout.count:6d} unknowns: {cpu_s:5.2f} s in {steps} steps", flush=True)


def mesh_count(zone: Zone) -> int:
    return layout_of(zone, mesh_of(zone, STANDARD)).count


def steps_of(zone: Zone, layout: Layout) -> int:
    return len(simulate(zone, layout).times_s) - 1


def main(*, quick: bool) -> None:
    zone = long_zone()
    plan_s, _ = timed(partial(plan_of, zone))
    peak_MB = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    judge = judge_of(zone)
    mine, bdf = planners(zone, judge), bdfs(zone, judge)
    tell("one curve of 90 min with release, planner", mine)
    tell("the same equations, scipy solve_ivp", bdf)
    one, other = cheapest(mine), cheapest(bdf)
    print(f"one curve: {one.cpu_s:.2f} s; BDF {other.cpu_s:.2f} s, ratio {other.cpu_s / one.cpu_s:.1f}")
    if not quick:
        fipy = fipys(zone, judge)
        tell("the same zone, FiPy", fipy)
        peer = cheapest(fipy)
        print(f"one curve: {one.cpu_s:.2f} s; FiPy {peer.cpu_s:.1f} s, ratio {peer.cpu_s / one.cpu_s:.0f}")
    many_s = MEMBERS * other.cpu_s
    print(f"plan with release and 5 x 5 response set: {plan_s:.2f} s, peak memory {peak_MB:.0f} MB")
    print(f"plan: {MEMBERS} runs of BDF {many_s:.1f} s, ratio {many_s / plan_s:.1f}")
    alike_s = MEMBERS * cheapest([cost for cost in bdf if cost.unknowns == mesh_count(zone)]).cpu_s
    print(f"plan: {MEMBERS} runs of BDF on the plan's mesh {alike_s:.1f} s, ratio {alike_s / plan_s:.1f}")
    scaling()


if __name__ == "__main__":
    main(quick="--quick" in sys.argv)
