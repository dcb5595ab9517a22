"""What contact and loss make of a plan's answers: each figure at the ends of the band.

Every member is heated until its own bondline has been workable, soaked and wedged (or to the end of the
zone's time), then released by the plan's acts from there on, as a technician does who follows the readings.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.ageing import above_s
from bayleaf.heat.bondline import Curves, steepest_K_min, whole_window_s, windows
from bayleaf.heat.exposure import ageing_share, counted_C
from bayleaf.heat.ground import Ground, Kin
from bayleaf.heat.places import Place, places_of
from bayleaf.heat.reduced_run import FamilyRun
from bayleaf.heat.touch import touch_safe
from bayleaf.heat.zone import Layer, PadAct, Zone

Floats = NDArray[np.float64]
EVERY_S = 20.0


@dataclass(frozen=True)
class Span:
    """Lowest and highest figure over the band."""

    low: float
    high: float

    @classmethod
    def of(cls, figures: Iterable[float]) -> Span:
        found = list(figures)
        return cls(min(found), max(found))


@dataclass(frozen=True)
class Course:
    """One member from switch-on to the end of its cool-down."""

    ground: Ground
    times_s: Floats  # even, every 20 s
    amounts: Floats
    heat_until_s: float

    def curves(self, places: tuple[Place, ...]) -> Curves:
        return self.read(places, self.ground.read(places))

    def read(self, places: tuple[Place, ...], read: Floats) -> Curves:
        """Curves at places by what takes the shapes' amounts to them."""
        return Curves(self.times_s, places, self.ground.modes.ambient_C + self.amounts @ read.T)


@dataclass(frozen=True)
class LayerBands:
    """One layer's peak, minutes of this run above each counted temperature, and ageing (metals)."""

    layer: str
    peak_C: Span
    above_min: tuple[tuple[float, Span], ...]
    ageing_share: Span | None


@dataclass(frozen=True)
class Bands:
    """Answers at the ends of the band; times in s after switch-on, infinity for never."""

    heat_until_s: Span
    ramp_K_min: Span
    cooling_K_min: Span
    coldest_C: tuple[tuple[float, Span], ...]  # of the bondline, every minute
    hottest_C: tuple[tuple[float, Span], ...]
    layers: tuple[LayerBands, ...]
    neighbours_C: tuple[tuple[str, Span], ...]
    window_from_s: Span  # when all of the bondline can be wedged, end to end
    window_until_s: Span
    touch_s: tuple[tuple[str, str, Span], ...]  # layer, contact


def courses_of(
    kin: Kin, heated: FamilyRun, until_s: Floats, *, acts: tuple[PadAct, ...], begins_s: float, after_s: float
) -> tuple[Course, ...]:
    """Each member heated until its own time, then under the acts counted from there, `after_s` long."""
    own = [_heated(heated, n, float(end_s)) for n, end_s in enumerate(until_s)]
    if not acts or after_s <= 0:
        return tuple(
            Course(kin.ground, t, a, float(end_s)) for (t, a), end_s in zip(own, until_s, strict=True)
        )
    moved = tuple(PadAct(act.at_s - begins_s, act.pad, act.act, act.share) for act in acts)
    starts = np.array([amounts[-1] for _, amounts in own])
    clock_s = np.arange(EVERY_S, after_s, EVERY_S)
    later = kin.run(moved, 0.0, after_s, starts).on(clock_s).amounts
    return tuple(
        Course(
            kin.ground, np.concatenate([t, end_s + clock_s]), np.concatenate([a, later[:, n]]), float(end_s)
        )
        for n, ((t, a), end_s) in enumerate(zip(own, until_s, strict=True))
    )


def _heated(heated: FamilyRun, member: int, end_s: float) -> tuple[Floats, Floats]:
    count = int(end_s // EVERY_S)
    clock_s = np.asarray(end_s - EVERY_S * np.arange(count, -1, -1), dtype=np.float64)
    return clock_s, heated.only([member]).on(clock_s).amounts[:, 0]


def bands_of(zone: Zone, courses: tuple[Course, ...]) -> Bands:
    """Every answer over the members."""
    told = {layer.id: _told(places_of(zone, layer), courses) for layer in zone.layers_and_wall}
    bond = told[zone.bondline]
    spans = [whole_window_s(curves, windows(curves, zone.workable_C, zone.maximum_C)) for curves in bond]
    heating = [curves.until(course.heat_until_s) for curves, course in zip(bond, courses, strict=True)]
    metals = [layer.id for layer in zone.layers if layer.role == "metal"]
    return Bands(
        heat_until_s=Span.of(course.heat_until_s for course in courses),
        ramp_K_min=Span.of(steepest_K_min(curves, falling=False)[0] for curves in heating),
        cooling_K_min=Span.of(steepest_K_min(curves, falling=True)[0] for curves in bond),
        coldest_C=_by_minute(bond, lambda curves: curves.coldest_C),
        hottest_C=_by_minute(bond, lambda curves: curves.hottest_C),
        layers=tuple(_layer(zone, layer, told[layer.id]) for layer in zone.layers_and_wall),
        neighbours_C=tuple(
            (one.id, Span.of(peaks_C(course, (Place(one.layer, one.x_m, one.y_m),))[0] for course in courses))
            for one in zone.neighbours
        ),
        window_from_s=Span.of(low for low, _ in spans),
        window_until_s=Span.of(high for _, high in spans),
        touch_s=tuple(row for layer in metals for row in _touch(layer, told[layer])),
    )


def _told(places: tuple[Place, ...], courses: tuple[Course, ...]) -> list[Curves]:
    """The same places of every member."""
    read = courses[0].ground.read(places)
    return [course.read(places, read) for course in courses]


def peaks_C(course: Course, places: tuple[Place, ...]) -> Floats:
    """The highest temperature of each place."""
    return np.asarray(course.curves(places).T_C.max(axis=0))


def _layer(zone: Zone, layer: Layer, told: list[Curves]) -> LayerBands:
    above = tuple(
        (limit_C, Span.of(float(above_s(one.times_s, one.T_C, limit_C).max()) / 60 for one in told))
        for limit_C in counted_C(zone, layer)
    )
    shares = [ageing_share(one, int(one.T_C.max(axis=0).argmax())) for one in told]
    aged = Span.of(shares) if layer.role == "metal" else None
    return LayerBands(layer.id, Span.of(float(one.T_C.max()) for one in told), above, aged)


def _by_minute(bond: list[Curves], figure: Callable[[Curves], Floats]) -> tuple[tuple[float, Span], ...]:
    end_s = min(float(curves.times_s[-1]) for curves in bond)
    clock_s = np.arange(0.0, end_s + 1, 60.0)
    rows = np.array([np.interp(clock_s, curves.times_s, figure(curves)) for curves in bond])
    return tuple(
        (float(t), Span(float(low), float(high)))
        for t, low, high in zip(clock_s, rows.min(axis=0), rows.max(axis=0), strict=True)
    )


def _touch(layer_id: str, told: list[Curves]) -> list[tuple[str, str, Span]]:
    safe = [touch_safe(curves, layer_id) for curves in told]
    return [
        (layer_id, rows[0].contact, Span.of(one.from_s for one in rows)) for rows in zip(*safe, strict=True)
    ]
