"""The figures that a zone document asks for by name: temperatures at places and times, and pads' powers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bayleaf.heat.layout import Layout, layout_of
from bayleaf.heat.mesh import STANDARD, Grading, mesh_of
from bayleaf.heat.probes import at_times, probe_history
from bayleaf.heat.run import Run, simulate
from bayleaf.heat.step_length import USUAL, Accuracy
from bayleaf.heat.zone import NOMINAL, Conditions, Zone

FINER = (4.0, 2.5)
MOST_UNKNOWNS = 16_000


@dataclass(frozen=True)
class Asked:
    """One asked figure."""

    place: str
    t_s: float
    T_C: float


@dataclass(frozen=True)
class AskedPower:
    """A pad's power density at one time."""

    pad: str
    t_s: float
    power_W_m2: float


def asked_run(
    zone: Zone, grading: Grading | None = None, accuracy: Accuracy = USUAL, under: Conditions = NOMINAL
) -> Run:
    """The zone run once, under its own acts; without a grading, on the finest mesh that costs little."""
    layout = _asked_layout(zone) if grading is None else layout_of(zone, mesh_of(zone, grading))
    return simulate(zone, layout, under, acts=zone.acts, accuracy=accuracy)


def _asked_layout(zone: Zone) -> Layout:
    """A zone that is only asked about, such as one with an exact answer, gets finer cells than a plan."""
    for times in () if zone.bondline else FINER:
        layout = layout_of(zone, mesh_of(zone, STANDARD.finer(times)))
        if layout.count <= MOST_UNKNOWNS:
            return layout
    return layout_of(zone, mesh_of(zone, STANDARD))


def asked_figures(zone: Zone, run: Run) -> list[Asked]:
    """Every asked place at every asked time that the run reaches."""
    times_s = [t for t in zone.report_times_s if t <= zone.duration_s]
    figures = []
    for probe in zone.probes:
        curve = at_times(run, probe_history(run, zone, probe), times_s)
        figures += [Asked(probe.id, t, float(T)) for t, T in zip(times_s, curve, strict=True)]
    return figures


def asked_powers(zone: Zone, run: Run) -> list[AskedPower]:
    """Every pad's power at every asked time: the mean over the step that holds it."""
    rows = np.minimum(np.searchsorted(run.times_s, zone.report_times_s), len(run.times_s) - 1)
    return [
        AskedPower(pad.id, t, float(run.power_W_m2[row, number]))
        for number, pad in enumerate(zone.pads)
        for t, row in zip(zone.report_times_s, rows, strict=True)
    ]
