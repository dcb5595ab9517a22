"""The model against published closed forms, each case beside its source, as documents the planner reads."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from bayleaf.heat.ageing import equivalent_s
from bayleaf.heat.asked import asked_figures, asked_powers, asked_run
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.zone_document import zone_of
from unit.heat.closed_forms import cases, document_of, place_id

CASES = {case["id"]: case for case in cases()}
AGEING = "ageing_integral_linear_ramp"
TOLERANCE_W_M2 = {"composite_wall_contacts_steady": 0.5, "lump_power_limit_then_setpoint": 1.0}
FINE = Accuracy(step_error_K=0.01, longest_s=4096)


def test_all_twenty_two_cases_are_here() -> None:
    assert len(CASES) == 22
    assert sum(len(case["expected"]) for case in CASES.values()) == 406


@pytest.mark.parametrize(
    "case",
    [case for case in CASES.values() if case["id"] != AGEING],
    ids=lambda c: f"{c['id']} ({c['source'].split(',')[0]})",
)
def test_the_model_meets_the_closed_form_of(case: dict[str, Any]) -> None:
    zone = zone_of(document_of(case))
    run = asked_run(zone, accuracy=FINE)
    got = {(figure.place, figure.t_s): figure.T_C for figure in asked_figures(zone, run)}
    rows = [row for row in case["expected"] if "T_C" in row]
    off_K = [abs(got[place_id(row["where"]), row["t_s"] or zone.duration_s] - row["T_C"]) for row in rows]
    assert max(off_K) <= case["tolerance_K"], rows[int(np.argmax(off_K))]
    assert run.balance < 1e-3


def test_the_setpoint_is_held_with_exactly_the_power_that_the_closed_form_says() -> None:
    case = CASES["lump_power_limit_then_setpoint"]
    zone = zone_of(document_of(case))
    got = {power.t_s: power.power_W_m2 for power in asked_powers(zone, asked_run(zone))}
    for row in case["expected"]:
        assert got[row["t_s"]] == pytest.approx(row["q_W_m2"], abs=1.0)


def test_the_flux_through_the_stack_in_series_is_the_pads_power_when_steady() -> None:
    case = CASES["composite_wall_contacts_steady"]
    zone = zone_of(document_of(case))
    flux = asked_powers(zone, asked_run(zone, accuracy=FINE))[-1].power_W_m2
    assert flux == pytest.approx(case["expected"][-1]["q_W_m2"], abs=0.5)


@pytest.mark.parametrize("name", ["fin_adiabatic_tip", "fin_convective_tip"])
def test_the_heat_drawn_at_a_fins_root_is_the_closed_forms(name: str) -> None:
    case = CASES[name]
    zone = zone_of(document_of(case))
    run = asked_run(zone, accuracy=FINE)
    root = run.layout.stack[0][0].node[0]
    tied_W = (run.systems[0].fixed_loss * run.node_C[-1] - run.systems[0].source_W)[root].sum()
    section_m2 = 0.003 * 0.01
    assert -tied_W / section_m2 == pytest.approx(case["expected"][-1]["q_W_m2"], rel=2e-3)


def test_ageing_on_a_ramp_meets_the_exponential_integral() -> None:
    case = CASES[AGEING]
    given = case["inputs"]
    for row in case["expected"]:
        times_s = np.linspace(0.0, row["t_s"], round(row["t_s"] / 10) + 1)
        T_C = given["start_C"] + (given["end_C"] - given["start_C"]) * times_s / given["duration_s"]
        got_s = equivalent_s(times_s, T_C, given["activation_energy_J_mol"], given["reference_C"])
        assert got_s == pytest.approx(row["equivalent_s"], rel=case["tolerance_relative"])


@pytest.mark.parametrize(
    "name", ["fin_adiabatic_tip", "two_plates_strip_transient", "laplace_rectangle_hot_edge"]
)
def test_a_zone_that_names_no_mesh_is_met_as_well(name: str) -> None:
    case = CASES[name]
    document = document_of(case)
    del document["mesh"]
    zone = zone_of(document)
    figures = asked_figures(zone, asked_run(zone, accuracy=Accuracy(step_error_K=0.02)))
    got = {(figure.place, figure.t_s): figure.T_C for figure in figures}
    rows = [row for row in case["expected"] if "T_C" in row]
    off_K = [abs(got[place_id(row["where"]), row["t_s"] or zone.duration_s] - row["T_C"]) for row in rows]
    assert max(off_K) <= case["tolerance_K"]
