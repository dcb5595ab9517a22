"""What the bondline does: curves, which place leads and which lags, when it is workable, and for how long."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.places import Place, histories, places_of
from bayleaf.heat.probes import at_times
from bayleaf.heat.run import Run
from bayleaf.heat.zone import Zone

Floats = NDArray[np.float64]
EVERY_S = 10.0
KEPT_CURVES = 8


@dataclass(frozen=True)
class Curves:
    """Temperatures of places every 10 s: T_C has shape (times, places)."""

    times_s: Floats
    places: tuple[Place, ...]
    T_C: Floats

    @property
    def coldest_C(self) -> Floats:
        return np.asarray(self.T_C.min(axis=1))

    @property
    def hottest_C(self) -> Floats:
        return np.asarray(self.T_C.max(axis=1))

    def until(self, end_s: float) -> Curves:
        kept = self.times_s <= end_s + 1e-6
        return Curves(self.times_s[kept], self.places, self.T_C[kept])


@dataclass(frozen=True)
class Spot:
    """A leading or lagging place, the sensor nearest to it, and how the sensor reads against it."""

    place: Place
    T_C: float
    sensor: str
    sensor_away_m: float
    sensor_reads_K: float


@dataclass(frozen=True)
class Window:
    """When one place along the joint can be wedged."""

    x_m: float
    from_s: float
    until_s: float


@lru_cache(maxsize=KEPT_CURVES)
def curves_of(run: Run, places: tuple[Place, ...]) -> Curves:
    """Curves on an even clock of 10 s, as ageing and rates need it."""
    count = math.ceil(round(run.times_s[-1] / EVERY_S, 6))
    times_s = np.minimum(np.arange(count + 1) * EVERY_S, run.times_s[-1])
    return Curves(times_s, places, at_times(run, histories(run, places), times_s))


def layer_curves(run: Run, zone: Zone, layer_id: str) -> Curves:
    return curves_of(run, places_of(zone, zone.layer(layer_id)))


def reached_s(times_s: Floats, T_C: Floats, wanted_C: float) -> float:
    """First time at or above a temperature, straight between readings; infinity if never."""
    over = np.flatnonzero(wanted_C <= T_C)
    if not len(over):
        return math.inf
    first = int(over[0])
    if first == 0:
        return float(times_s[0])
    share = (wanted_C - T_C[first - 1]) / (T_C[first] - T_C[first - 1])
    return float(times_s[first - 1] + share * (times_s[first] - times_s[first - 1]))


def workable_s(curves: Curves, workable_C: float) -> float:
    """When the coldest place becomes workable; infinity if it never does."""
    return reached_s(curves.times_s, curves.coldest_C, workable_C)


def spot(curves: Curves, zone: Zone, at_s: float, *, leading: bool) -> Spot:
    """The hottest or coldest bondline place at a time, with the reachable sensor nearest to it."""
    row = row_at(curves, at_s)
    number = int(curves.T_C[row].argmax() if leading else curves.T_C[row].argmin())
    place, T_C = curves.places[number], float(curves.T_C[row, number])
    sensors = [sensor for sensor in zone.sensors if sensor.layer == zone.bondline]
    if not sensors:
        return Spot(place, T_C, "", math.inf, math.nan)
    near = min(sensors, key=lambda sensor: place.distance_m(sensor.x_m, sensor.y_m))
    reads_K = reading_near(curves, row, near.x_m, near.y_m) - T_C
    return Spot(place, T_C, near.id, place.distance_m(near.x_m, near.y_m), reads_K)


def row_at(curves: Curves, at_s: float) -> int:
    """The row of a time; the last one for what comes later."""
    return int(np.clip(np.searchsorted(curves.times_s, at_s), 0, len(curves.times_s) - 1))


def reading_near(curves: Curves, row: int, x_m: float, y_m: float) -> float:
    """What the place nearest to a sensor has at a row."""
    beside = min(range(len(curves.places)), key=lambda n: curves.places[n].distance_m(x_m, y_m))
    return float(curves.T_C[row, beside])


def windows(curves: Curves, workable_C: float, maximum_C: float) -> tuple[Window, ...]:
    """Per place along the joint: from when all of its width is workable until it no longer is, zone end to
    end.
    """
    made, at = [], defaultdict(list)
    for n, place in enumerate(curves.places):
        at[place.x_m].append(n)
    for x, across in sorted(at.items()):
        soft = (curves.T_C[:, across].min(axis=1) >= workable_C) & (
            curves.T_C[:, across].max(axis=1) <= maximum_C
        )
        rows = np.flatnonzero(soft)
        if len(rows):
            made.append(Window(x, float(curves.times_s[rows[0]]), float(curves.times_s[rows[-1]])))
    return tuple(made)


def whole_window_s(curves: Curves, found: tuple[Window, ...]) -> tuple[float, float]:
    """From when until when the whole zone can be wedged, end to end; never: (infinity, infinity)."""
    if len(found) < len({place.x_m for place in curves.places}):
        return math.inf, math.inf
    low, high = max(one.from_s for one in found), min(one.until_s for one in found)
    return (low, high) if low <= high else (math.inf, math.inf)


def steepest_K_min(curves: Curves, *, falling: bool, over_s: float = 60.0) -> tuple[float, float, Place]:
    """(rate, time, place) of the steepest rise or fall, as the mean over a minute that a logger shows."""
    span = max(1, round(over_s / float(curves.times_s[1] - curves.times_s[0])))
    if len(curves.times_s) <= span:
        return 0.0, 0.0, curves.places[0]
    rate = (curves.T_C[span:] - curves.T_C[:-span]) / over_s * 60.0
    rate = -rate if falling else rate
    row, number = np.unravel_index(int(rate.argmax()), rate.shape)
    return float(rate[row, number]), float(curves.times_s[row]), curves.places[int(number)]
