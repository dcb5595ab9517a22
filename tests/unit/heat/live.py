"""Live readings for tests: a finer model with parameters off the family's grid, and noise of 2 K, seeded."""

from __future__ import annotations

import json
import math
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.bondline import layer_curves, workable_s
from bayleaf.heat.fit import Reading, fit
from bayleaf.heat.layout import layout_of
from bayleaf.heat.mesh import STANDARD, mesh_of
from bayleaf.heat.places import Place, histories
from bayleaf.heat.plan import plan_of
from bayleaf.heat.probes import at_times
from bayleaf.heat.response import family_of_response
from bayleaf.heat.response_plan import response_of
from bayleaf.heat.run import Run, simulate
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.zone import Conditions, Layer, Zone
from unit.heat.zones import joint, joint_zone

Floats = NDArray[np.float64]
VECTORS = Path(__file__).parents[2] / "vectors" / "live"
NOISE_K = 2.0
EVERY_S = 30.0
AIR_S = 30.0  # how fast a fallen sensor goes to the air's temperature
TRUTH = Accuracy(0.1)


@dataclass(frozen=True)
class Truth:
    """What is so in one run: factors on contact, loss and material, and what goes wrong from when on."""

    contact: float
    loss: float
    material: float
    pad: str = ""
    sensor: str = ""
    from_s: float = math.inf


def slow_zone() -> Zone:
    """The short joint with weak pads: workable in 13 to 30 min, so that 12 min of readings are a forecast."""
    pads = [{**pad, "power_W_cm2": 0.68} for pad in joint()["pads"]]
    return joint_zone(pads=pads, duration_min=60)


def drawn(chance: np.random.Generator, **wrong: Any) -> Truth:
    """A truth off the family's grid, inside its band, with loss so low that it becomes workable."""
    contact, loss = np.exp(chance.uniform(np.log([0.65, 0.75]), np.log([1.4, 1.12])))
    return Truth(float(contact), float(loss), float(chance.uniform(0.97, 1.03)), **wrong)


def runs_of(zone: Zone, truth: Truth, until_s: float) -> list[Run]:
    """One run, or two where a pad lifts on the way."""
    other = replace(zone, layers=tuple(_other(layer, truth.material) for layer in zone.layers))
    layout = layout_of(other, mesh_of(other, STANDARD))
    under = Conditions(truth.contact, truth.loss)
    if not truth.pad:
        return [simulate(other, layout, under, until_s=until_s, accuracy=TRUTH)]
    before = simulate(other, layout, under, until_s=truth.from_s, accuracy=TRUTH)
    lifted = replace(under, pad_contact=((truth.pad, 0.1),))
    start = (truth.from_s, before.node_C[-1])
    return [before, simulate(other, layout, lifted, until_s=until_s, start=start, accuracy=TRUTH)]


def _other(layer: Layer, factor: float) -> Layer:
    cp = tuple((at_C, cp_J_kgK * (2 - factor)) for at_C, cp_J_kgK in layer.specific_heat_J_kgK)
    return replace(
        layer, kx_W_mK=factor * layer.kx_W_mK, ky_W_mK=factor * layer.ky_W_mK, specific_heat_J_kgK=cp
    )


def readings_of(zone: Zone, truth: Truth, until_s: float, chance: np.random.Generator) -> tuple[Reading, ...]:
    """Every sensor every 30 s, with noise."""
    times_s = np.arange(EVERY_S, until_s + 1, EVERY_S)
    places = tuple(Place(sensor.layer, sensor.x_m, sensor.y_m) for sensor in zone.sensors)
    read_C = np.zeros((len(times_s), len(places)))
    for run in runs_of(zone, truth, until_s):
        later = times_s >= run.times_s[0]
        upto = np.minimum(times_s[later], run.times_s[-1])
        read_C[later] = at_times(run, histories(run, places), upto)
    read_C += chance.normal(0.0, NOISE_K, read_C.shape)
    for number, sensor in enumerate(zone.sensors):
        if sensor.id == truth.sensor:
            fallen = np.exp(-np.maximum(times_s - truth.from_s, 0) / AIR_S)
            read_C[:, number] = zone.ambient_C + (read_C[:, number] - zone.ambient_C) * fallen
    return tuple(
        Reading(float(t), sensor.id, round(float(T), 1))
        for t, row in zip(times_s, read_C, strict=True)
        for sensor, T in zip(zone.sensors, row, strict=True)
    )


def true_workable_s(zone: Zone, truth: Truth) -> float:
    (run,) = runs_of(zone, truth, zone.duration_s)
    return workable_s(layer_curves(run, zone, zone.bondline), zone.workable_C)


@dataclass(frozen=True)
class Told:
    """A case of the live vectors: what is so, until when it is read, and what is kept of the readings."""

    about: str
    truth: Truth
    until_s: float = 600.0
    silent: tuple[str, float] = ("", math.inf)  # "*": all of them

    def keeps(self, reading: Reading) -> bool:
        sensor, from_s = self.silent
        return sensor not in ("*", reading.sensor) or reading.at_s < from_s


def told_cases(chance: np.random.Generator) -> tuple[Told, ...]:
    """Healthy runs, and everything that a phone must tell from them."""
    return (
        Told("two healthy runs differ: the slower one is told later", drawn(chance)),
        Told("the other healthy run", drawn(chance)),
        Told("pad A lifts at 5 min", drawn(chance, pad="A", from_s=300.0)),
        Told("sensor b falls off at 5 min", drawn(chance, sensor="b", from_s=300.0)),
        Told("pad B lifts at 8 min", drawn(chance, pad="B", from_s=480.0), 780.0),
        Told("sensor a falls off at 8 min", drawn(chance, sensor="a", from_s=480.0), 720.0),
        Told("a draught: six times the planned loss", Truth(1.0, 6.0, 1.0)),
        Told("another stack-up: it conducts far better than planned", Truth(1.0, 1.0, 1.6)),
        Told("no reading yet: the plan's own band", drawn(chance), 90.0, ("*", 0.0)),
        Told("three readings a sensor: a wide band", drawn(chance), 90.0),
        Told("one sensor is silent from the 3rd minute on", drawn(chance), 600.0, ("c", 180.0)),
        Told("25 min of readings, past workable", drawn(chance), 1500.0),
    )


def write_vectors() -> None:
    """Makes tests/vectors/live anew: one response set, and what its fit says to some readings."""
    zone = slow_zone()
    document = response_of(plan_of(zone))
    sensors = tuple(document["sensors"])
    family, chance = family_of_response(document), np.random.default_rng(11)
    cases = []
    for case in told_cases(chance):
        all_of_them = readings_of(zone, case.truth, case.until_s, chance)
        readings = tuple(one for one in all_of_them if case.keeps(one))
        told = fit(family, sensors, readings, zone.workable_C)
        rows = [[one.at_s, one.sensor, one.T_C] for one in readings]
        times = {"workable_s": told.workable_s, "from_s": told.from_s, "until_s": told.until_s}
        finite = {name: at_s for name, at_s in times.items() if math.isfinite(at_s)}
        fitted = {"contact": told.contact, "loss": told.loss, "misfit_K": told.misfit_K}
        what = {"looks_like": told.looks_like, "names": told.names}
        cases.append({"about": case.about, "readings": rows, **finite, **fitted, **what})
    VECTORS.mkdir(exist_ok=True)
    for name, content in (("response", document), ("fits", {"workable_C": zone.workable_C, "cases": cases})):
        (VECTORS / f"{name}.json").write_text(json.dumps(content, separators=(",", ":")) + "\n", "utf-8")


if __name__ == "__main__":
    write_vectors()
