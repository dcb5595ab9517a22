"""The fit that a phone makes of its readings: when workable, with a band, or what is wrong."""

from __future__ import annotations

import json
import math
from typing import Any

import numpy as np
import pytest

from bayleaf.heat.family import Family, family_on, heated, kin_of
from bayleaf.heat.fit import Forecast, Reading, fit
from bayleaf.heat.forecast_words import sentence
from bayleaf.heat.ground import ground_of
from bayleaf.heat.layout import layout_of
from bayleaf.heat.mesh import QUICK, mesh_of
from bayleaf.heat.plan import FIRST
from bayleaf.heat.response import MOST_GZIPPED_BYTES, family_of_response, packed, response_set
from bayleaf.heat.run import simulate
from bayleaf.heat.step_length import ROUGH
from bayleaf.heat.zone import Zone
from unit.heat.live import VECTORS, drawn, readings_of, slow_zone, true_workable_s

RUNS = 10
TWELVE_MIN_S = 720.0


def family_of(zone: Zone, size: int = 5) -> Family:
    """The family on a quick mesh, without a plan."""
    nominal = simulate(zone, layout_of(zone, mesh_of(zone, QUICK)), acts=zone.acts, accuracy=ROUGH)
    ground = ground_of(zone, nominal, zone.duration_s)
    kin = kin_of(ground, size)
    return family_on(ground, kin, heated(kin), size)


@pytest.fixture(scope="module")
def zone() -> Zone:
    return slow_zone()


@pytest.fixture(scope="module")
def document(zone: Zone) -> dict[str, Any]:
    return response_set(zone, family_of(zone), (), FIRST)


@pytest.fixture(scope="module")
def family(document: dict[str, Any]) -> Family:
    return family_of_response(document)


def told(family: Family, zone: Zone, readings: tuple[Reading, ...]) -> Forecast:
    return fit(family, tuple(sensor.id for sensor in zone.sensors), readings, zone.workable_C)


def test_a_response_set_is_small_and_carries_the_line(document: dict[str, Any]) -> None:
    assert len(packed(document)) < MOST_GZIPPED_BYTES
    assert packed(document) == packed(document)
    assert document["first"] == FIRST


def test_curves_survive_the_small_form_to_a_tenth_of_a_degree(zone: Zone) -> None:
    made = family_of(zone, size=3)
    back = family_of_response(response_set(zone, made, (), FIRST))
    assert back.members[0][2].coldest_C == pytest.approx(made.members[0][2].coldest_C, abs=0.051)


def test_after_twelve_minutes_healthy_runs_are_forecast_with_a_band_that_covers(
    family: Family, zone: Zone
) -> None:
    """Readings with 2 K of noise from a finer model with other parameters than the family's grid."""
    chance = np.random.default_rng(20)
    near = covered = false_calls = 0
    for _ in range(RUNS):
        truth = drawn(chance)
        forecast = told(family, zone, readings_of(zone, truth, TWELVE_MIN_S, chance))
        true_s = true_workable_s(zone, truth)
        assert true_s > 0.9 * TWELVE_MIN_S
        near += forecast.workable_s == pytest.approx(true_s, rel=0.15)
        covered += forecast.from_s <= true_s <= forecast.until_s
        false_calls += bool(forecast.looks_like)
    assert near >= 9
    assert covered >= 8
    assert false_calls <= 1


def test_a_lifting_pad_is_named_within_five_minutes(family: Family, zone: Zone) -> None:
    chance = np.random.default_rng(21)
    named = 0
    for k in range(RUNS):
        pad, from_s = zone.pads[k % 2].id, float(chance.choice([240.0, 480.0, 600.0]))
        truth = drawn(chance, pad=pad, from_s=from_s)
        forecast = told(family, zone, readings_of(zone, truth, from_s + 300, chance))
        named += (forecast.looks_like, forecast.names) == ("pad_lifting", pad)
    assert named >= 8


def test_a_fallen_sensor_is_named_within_five_minutes(family: Family, zone: Zone) -> None:
    chance = np.random.default_rng(22)
    named = 0
    for k in range(RUNS):
        sensor, from_s = zone.sensors[k % 3].id, float(chance.choice([240.0, 480.0, 600.0]))
        truth = drawn(chance, sensor=sensor, from_s=from_s)
        forecast = told(family, zone, readings_of(zone, truth, from_s + 300, chance))
        named += (forecast.looks_like, forecast.names) == ("sensor_off", sensor)
    assert named >= 8


def test_readings_that_no_member_makes_fit_nothing(family: Family, zone: Zone) -> None:
    odd = tuple(Reading(t, s.id, 20 + 0.5 * t) for t in np.arange(30.0, 400.0, 30.0) for s in zone.sensors)
    assert told(family, zone, odd).looks_like == "wrong_stack_up"


def test_without_readings_the_forecast_is_the_plans_band(family: Family, zone: Zone) -> None:
    forecast = told(family, zone, ())
    nominal = family.members[2][2].coldest_C
    assert np.interp(forecast.workable_s, family.times_s, nominal) == pytest.approx(zone.workable_C, abs=4)
    assert forecast.from_s < forecast.workable_s < forecast.until_s


def test_what_is_said_on_the_phone() -> None:
    ready = Forecast(1260, 1140, 1440, 1.0, 1.0, 2.0, "", "")
    assert sentence(ready, 600) == "workable in 11 min (9-14)"
    assert sentence(ready, 1300) == "workable"
    never = Forecast(math.inf, 1140, math.inf, 1.0, 1.0, 2.0, "", "")
    assert sentence(never, 600) == "not workable under this plan"
    lifting = Forecast(1260, 1140, 1440, 1.0, 1.0, 2.0, "pad_lifting", "U2")
    assert sentence(lifting, 600) == "pad U2 seems to lift: press it flush"


def test_the_fit_gives_what_the_shared_vectors_say() -> None:
    response = json.loads((VECTORS / "response.json").read_text("utf-8"))
    fits = json.loads((VECTORS / "fits.json").read_text("utf-8"))
    family = family_of_response(response)
    for case in fits["cases"]:
        readings = tuple(Reading(*row) for row in case["readings"])
        forecast = fit(family, tuple(response["sensors"]), readings, fits["workable_C"])
        assert (forecast.looks_like, forecast.names) == (case["looks_like"], case["names"])
        for name in ("workable_s", "from_s", "until_s", "contact", "loss", "misfit_K"):
            assert getattr(forecast, name) == pytest.approx(case.get(name, math.inf), rel=1e-6)
