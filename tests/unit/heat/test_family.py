"""The family's runs on a few shapes, against the full model that they stand for."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from numpy.typing import NDArray

from bayleaf.heat.family import sensor_places
from bayleaf.heat.ground import Ground, Kin, ground_of
from bayleaf.heat.layout import layout_of
from bayleaf.heat.mesh import QUICK, mesh_of
from bayleaf.heat.places import histories, places_of
from bayleaf.heat.probes import at_times
from bayleaf.heat.run import simulate
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.zone import Conditions, PadAct, Zone
from unit.heat.zones import joint, joint_zone

Floats = NDArray[np.float64]
FINE = Accuracy(0.02, 64.0)
HEATED_S = 1200.0
HELD_OUT = (
    Conditions(0.5, 0.7),
    Conditions(1.6, 1.4),
    Conditions(0.8, 1.2),
    Conditions(1.3, 0.8),
)
TABLE = [[20, 900], [100, 935], [200, 980], [300, 1020]]


@cache
def zone_of_kind(kind: str) -> Zone:
    """The short joint: with weak pads, with pads that hold, or with a heat capacity that rises."""
    pads = joint()["pads"]
    if kind == "held":
        return joint_zone(duration_min=40, pads=[{**pad, "setpoint_C": 160} for pad in pads])
    layers = joint()["layers"]
    if kind == "table":
        layers[0]["specific_heat_J_kgK"] = TABLE
    return joint_zone(duration_min=40, layers=layers)


@cache
def ground(kind: str) -> Ground:
    zone = zone_of_kind(kind)
    nominal = simulate(zone, layout_of(zone, mesh_of(zone, QUICK)))
    return ground_of(zone, nominal, HEATED_S)


def full_C(kind: str, under: Conditions, acts: tuple[PadAct, ...], clock_s: Floats) -> Floats:
    zone, layout = zone_of_kind(kind), ground(kind).layout
    run = simulate(zone, layout, under, acts=acts, until_s=float(clock_s[-1]), accuracy=FINE)
    return at_times(run, histories(run, places_of(zone, zone.layer("bond"))), clock_s)


@pytest.mark.parametrize("kind", ["weak", "held", "table"])
def test_members_that_the_shapes_were_not_taken_from_heat_as_the_full_model_does(kind: str) -> None:
    kin, zone = Kin(ground(kind), HELD_OUT), zone_of_kind(kind)
    clock_s = np.arange(60.0, 2400.0, 60.0)
    read = ground(kind).read(places_of(zone, zone.layer("bond")))
    got_C = kin.run((), 0.0, 2400.0, kin.cold()).on(clock_s).at(read)
    for member, under in enumerate(HELD_OUT):
        assert got_C[:, member] == pytest.approx(full_C(kind, under, (), clock_s), abs=0.5)


def test_members_are_released_as_the_full_model_is() -> None:
    acts = (
        PadAct(1200, "A", "turn_down", 0.4),
        PadAct(1500, "A", "off"),
        PadAct(1500, "B", "turn_down", 0.5),
        PadAct(1800, "B", "off"),
    )
    kin, zone = Kin(ground("weak"), HELD_OUT), zone_of_kind("weak")
    clock_s = np.arange(1200.0, 5000.0, 60.0)
    read = ground("weak").read(places_of(zone, zone.layer("bond")))
    got_C = kin.run(acts, 0.0, 5000.0, kin.cold()).on(clock_s).at(read)
    for member, under in enumerate(HELD_OUT):
        assert got_C[:, member] == pytest.approx(full_C("weak", under, acts, clock_s), abs=0.7)


def test_a_lifted_pads_sensors_fall_as_in_the_full_model() -> None:
    zone, base = zone_of_kind("weak"), ground("weak")
    under = Conditions(1.2, 0.9, pad_contact=(("A", 0.1),))
    row = int(np.argmin(np.abs(base.nominal.times_s - HEATED_S)))
    at_s, state_C = float(base.nominal.times_s[row]), base.nominal.node_C[row]
    run = Kin(base, (under,)).run((), at_s, at_s + 900, base.amounts_of(state_C)[None])
    full = simulate(zone, base.layout, under, until_s=at_s + 900, start=(at_s, state_C), accuracy=FINE)
    clock_s = np.arange(at_s, at_s + 900, 60.0)
    got_C = run.on(clock_s).at(base.read(sensor_places(zone)))[:, 0]
    wanted_C = at_times(full, histories(full, sensor_places(zone)), clock_s)
    assert np.ptp(wanted_C[:, 0]) > 10
    assert got_C == pytest.approx(wanted_C, abs=0.5)


def test_a_zone_whose_acts_lift_a_pad_is_run_with_the_pads_face_bare() -> None:
    zone = replace(zone_of_kind("weak"), acts=(PadAct(900, "A", "lift"),))
    nominal = simulate(zone, layout_of(zone, mesh_of(zone, QUICK)), acts=zone.acts)
    base = ground_of(zone, nominal, 600.0)
    kin = Kin(base, (Conditions(0.8, 1.2),))
    clock_s = np.arange(60.0, 2400.0, 60.0)
    places = places_of(zone, zone.layer("bond"))
    got_C = kin.run(zone.acts, 0.0, 2400.0, kin.cold()).on(clock_s).at(base.read(places))[:, 0]
    full = simulate(zone, base.layout, kin.under[0], acts=zone.acts, accuracy=FINE)
    assert got_C == pytest.approx(at_times(full, histories(full, places), clock_s), abs=0.6)
