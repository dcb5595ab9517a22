"""Laws that every run keeps: balance, maximum principle, monotone answers, symmetry, order."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from bayleaf.heat.asked import asked_figures, asked_run
from bayleaf.heat.controller import powers
from bayleaf.heat.factors import FactorStore
from bayleaf.heat.layout import layout_of
from bayleaf.heat.mesh import QUICK, STANDARD, Grading, mesh_of
from bayleaf.heat.places import histories, places_of
from bayleaf.heat.probes import at_times
from bayleaf.heat.run import Run, simulate
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.zone import Conditions, PadAct, Zone
from bayleaf.heat.zone_document import zone_of
from unit.heat.closed_forms import cases, document_of, place_id
from unit.heat.zones import joint, joint_zone

COARSE = Grading(0.01, 0.8, 0.02, 1.0, 0.08, 0.5)
FINE = Accuracy(0.01, 4096)
HALF_HOUR = {"duration_min": 30}


def random_zone(seed: int) -> Zone:
    """A joint of random materials, losses, pads and edges, sometimes with a table of heat capacity."""
    chance = random.Random(seed)
    document: dict[str, Any] = joint(duration_min=chance.uniform(10, 40))
    for layer in document["layers"]:
        layer["thickness_mm"] *= chance.uniform(0.5, 1.6)
        layer["density_kg_m3"] *= chance.uniform(0.8, 1.2)
        layer["conductivity_through_W_mK"] *= chance.uniform(0.6, 1.5)
    if seed % 2:
        document["layers"][0]["specific_heat_J_kgK"] = [[20, 900], [200, 980], [300, 1300]]
    for pad in document["pads"]:
        pad |= {"power_W_cm2": chance.uniform(0.2, 2), "setpoint_C": chance.uniform(90, 300)}
        pad["contact_W_m2K"] = chance.uniform(40, 500)
    document["losses"]["inner_face"] = {
        "coefficient_W_m2_at_1K": 2.0,
        "flux_exponent": 1.33,
        "emissivity": 0.9,
    }
    document["edges"] = {"x_high": {"runs_on_mm": chance.uniform(20, 200), "end_loss_W_m2K": 12}}
    acts = [{"at_min": chance.uniform(4, 8), "pad": "A", "act": "lift"}]
    return joint_zone(**document, acts=acts) if seed % 3 else joint_zone(**document)


@pytest.mark.parametrize("seed", range(8))
def test_heat_supplied_is_heat_stored_and_lost_to_a_thousandth(seed: int) -> None:
    zone = random_zone(seed)
    run = simulate(zone, layout_of(zone, mesh_of(zone, COARSE)), acts=zone.acts)
    assert run.balance < 1e-3


@pytest.mark.parametrize("seed", range(8))
def test_nothing_is_colder_than_the_air_or_hotter_than_the_hottest_pad(seed: int) -> None:
    zone = random_zone(seed)
    run = simulate(zone, layout_of(zone, mesh_of(zone, COARSE)))
    pads = np.concatenate([node[node >= 0] for node in run.layout.pads.values()])
    joint_nodes = np.setdiff1d(np.arange(run.layout.count), pads)
    assert run.node_C.min() >= zone.ambient_C - 0.05
    assert run.node_C[:, joint_nodes].max() <= run.node_C[:, pads].max() + 0.05


def heated(zone: Zone, under: Conditions, until_s: float = 1200.0) -> np.ndarray[Any, np.dtype[np.float64]]:
    run = simulate(zone, layout_of(zone, mesh_of(zone, COARSE)), under, until_s=until_s)
    return np.asarray(histories(run, places_of(zone, zone.layer("bond")))[-1])


def test_more_contact_and_less_loss_make_every_bondline_place_hotter() -> None:
    zone = joint_zone()
    base = heated(zone, Conditions())
    assert np.all(heated(zone, Conditions(contact=1.5)) > base)
    assert np.all(heated(zone, Conditions(loss=0.7)) > base)


def test_more_power_makes_every_bondline_place_hotter() -> None:
    zone = joint_zone()
    stronger = replace(zone, pads=tuple(replace(pad, power_W_m2=1.2 * pad.power_W_m2) for pad in zone.pads))
    assert np.all(heated(stronger, Conditions()) > heated(zone, Conditions()))


def test_a_symmetric_zone_gets_a_symmetric_answer() -> None:
    zone = joint_zone()
    run = simulate(zone, layout_of(zone, mesh_of(zone, QUICK)), until_s=900)
    metal = run.node_C[-1][run.layout.stack[0][0].node]
    assert metal == pytest.approx(metal[::-1], abs=1e-6)


def bond_at(run: Run, zone: Zone, at_s: float) -> np.ndarray[Any, np.dtype[np.float64]]:
    return np.asarray(at_times(run, histories(run, places_of(zone, zone.layer("bond"))), [at_s])[0])


def test_the_scheme_is_of_second_order_in_time() -> None:
    """Halving a fixed step divides the error by about four (L-stable TR-BDF2), smooth part of a run."""
    zone = joint_zone(pads=[{**pad, "setpoint_C": 500} for pad in joint()["pads"]])
    layout = layout_of(zone, mesh_of(zone, COARSE))
    start = simulate(zone, layout, until_s=256)
    from_start = (256.0, start.node_C[-1])

    def ended(step_s: float) -> Any:
        fixed = Accuracy(step_error_K=1e9, longest_s=step_s)
        return simulate(zone, layout, until_s=512, start=from_start, accuracy=fixed).node_C[-1]

    exact = ended(0.5)
    errors = [float(np.abs(ended(step_s) - exact).max()) for step_s in (32.0, 16.0, 8.0)]
    orders = [np.log2(first / second) for first, second in pairwise(errors)]
    assert min(orders) > 1.7, errors


def test_the_mesh_converges_at_second_order_at_fixed_places() -> None:
    """A smooth linear case with an exact answer: the strip's steady heat, cells halved three times."""
    case = next(case for case in cases() if case["id"] == "strip_on_plate_steady")
    errors = []
    for cells_mm in (20.0, 2.5):
        document = document_of(case)
        document["mesh"] = {"cells_mm": [cells_mm, 10]}
        zone = zone_of(document)
        got = {one.place: one.T_C for one in asked_figures(zone, asked_run(zone, accuracy=FINE))}
        errors.append(max(abs(got[place_id(row["where"])] - row["T_C"]) for row in case["expected"]))
    assert errors[1] < errors[0] / 50  # three halvings of second order are 64


@pytest.mark.parametrize("pads", [{}, {"pads": [{**pad, "setpoint_C": 150} for pad in joint()["pads"]]}])
def test_the_default_mesh_and_steps_are_within_half_a_kelvin_of_four_times_finer_ones(
    pads: dict[str, Any],
) -> None:
    zone = joint_zone(**pads)
    usual = asked_run(zone)
    fine = simulate(
        zone,
        layout_of(zone, mesh_of(zone, STANDARD.finer(2))),
        until_s=900,
        accuracy=Accuracy(0.02),
    )
    for at_s in (120.0, 600.0, 900.0):
        assert bond_at(usual, zone, at_s) == pytest.approx(bond_at(fine, zone, at_s), abs=0.5)


def test_a_run_agrees_with_a_general_solver_of_stiff_equations_on_the_same_mesh() -> None:
    """scipy's BDF (Shampine, Reichelt, SIAM J. Sci. Comput. 18 (1997) 1) on C dT/dt = f(T)."""
    zone = joint_zone(pads=[{**pad, "setpoint_C": 599} for pad in joint()["pads"]], **HALF_HOUR)
    layout = layout_of(zone, mesh_of(zone, COARSE))
    run = simulate(zone, layout)
    system = run.systems[0]
    power_W = system.heating @ system.limit_W_m2

    def rate(_t: float, T: Any) -> Any:
        return (system.source_W - system.conduction @ T - system.loss_W(T) + power_W) / system.capacity_J_K

    sparsity = system.conduction
    peer = solve_ivp(
        rate, (0, 1800), run.node_C[0], method="BDF", rtol=1e-5, atol=1e-3, jac_sparsity=sparsity
    )
    assert float(np.abs(peer.y[:, -1] - run.node_C[-1]).max()) < 0.1


def test_a_held_setpoint_does_not_depend_on_the_step() -> None:
    zone = joint_zone(pads=[{**pad, "setpoint_C": 120} for pad in joint()["pads"]], **HALF_HOUR)
    layout = layout_of(zone, mesh_of(zone, COARSE))
    loose, tight = (simulate(zone, layout, accuracy=Accuracy(error)) for error in (0.2, 0.01))
    assert bond_at(loose, zone, 1500) == pytest.approx(bond_at(tight, zone, 1500), abs=0.1)
    felt = (loose.systems[0].sensing @ loose.node_C.T).max()
    assert felt == pytest.approx(120, abs=0.01)


def test_a_pad_gets_its_limit_until_it_must_hold_and_nothing_when_too_hot() -> None:
    felt_K = np.array([[0.01, 0.001], [0.001, 0.01]])
    setpoint, limit = np.array([100.0, 100.0]), np.array([5000.0, 5000.0])
    assert powers(np.array([20.0, 20.0]), felt_K, setpoint, limit).tolist() == [5000.0, 5000.0]
    hot = powers(np.array([110.0, 20.0]), felt_K, setpoint, limit)
    assert hot[0] == 0.0
    held = powers(np.array([80.0, 80.0]), felt_K, setpoint, limit)
    assert np.array([80.0, 80.0]) + felt_K @ held == pytest.approx(setpoint)


def test_the_store_of_factorisations_stays_bounded() -> None:
    zone = joint_zone(**HALF_HOUR)
    store = FactorStore(most_bytes=2_000_000, most=3)
    acts = (PadAct(600, "A", "lift"), PadAct(700, "B", "off"))
    simulate(zone, layout_of(zone, mesh_of(zone, COARSE)), acts=acts, store=store)
    assert store.made > 3
    assert store.peak_bytes <= 2_000_000


def test_a_lifted_pad_no_longer_warms_and_its_face_is_bare() -> None:
    zone = joint_zone(**HALF_HOUR)
    layout = layout_of(zone, mesh_of(zone, COARSE))
    run = simulate(zone, layout, acts=(PadAct(600, "A", "lift"), PadAct(600, "B", "lift")))
    assert len(run.systems[1].faces) > len(run.systems[0].faces)
    after = run.node_C[run.times_s > 660]
    assert np.all(np.diff(after[:, layout.stack[0][0].node[0, 5]]) < 0)
