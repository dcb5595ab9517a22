"""Where to put the sensors: for the lagging and the leading spot the nearest place that a hand reaches.

A hand reaches the bondline at its edge, and only where the joint is open there: nothing lies beyond that
edge on the heated side, or nothing on the inner side.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from bayleaf.heat.bondline import Curves, Spot, reading_near, row_at
from bayleaf.heat.places import INSET_M, Place
from bayleaf.heat.zone import SIDES, Box, Layer, Sensor, Side, Zone

LEAVE_WITHIN_K = 2.0  # what two readings of one place differ by; common practice, no source
MOVED_WITHIN_M = 0.1  # farther than that a sensor stands for another stretch: put one more
BEYOND_M = 0.001
NEAR_M = 1e-6

Spots = Literal["lagging", "leading"]
Advised = Literal["leave", "move", "put", "none"]
AWAY: dict[Side, tuple[int, int]] = {"x_low": (-1, 0), "x_high": (1, 0), "y_low": (0, -1), "y_high": (0, 1)}


@dataclass(frozen=True)
class Advice:
    """What to do with which sensor for one spot; how much more than the spot it then reads, K."""

    spot: Spots
    advised: Advised
    sensor: str = ""
    place: Place | None = None
    moved_m: float = 0.0
    reads_K: float = 0.0


def sensor_advice(
    zone: Zone, bond: Curves, at_s: float, lagging: Spot, leading: Spot
) -> tuple[Advice, Advice]:
    """For the lagging spot first, as the soak counts by it; a sensor stands for one spot only."""
    row = row_at(bond, at_s)
    free = [sensor for sensor in zone.sensors if sensor.layer == zone.bondline]
    first = _advice(zone, bond, row, lagging, name="lagging", free=free)
    left = [sensor for sensor in free if sensor.id != first.sensor]
    return first, _advice(zone, bond, row, leading, name="leading", free=left)


def _advice(zone: Zone, bond: Curves, row: int, spot: Spot, *, name: Spots, free: list[Sensor]) -> Advice:
    near = min(free, key=lambda one: spot.place.distance_m(one.x_m, one.y_m), default=None)
    numbers = [n for n, place in enumerate(bond.places) if is_reachable(zone, place)]
    best = min(numbers, key=lambda n: _how_far(bond, row, spot, n), default=None)
    put = Advice(name, "none")
    if best is not None:
        put = Advice(name, "put", "", bond.places[best], 0.0, float(bond.T_C[row, best]) - spot.T_C)
    if near is None:
        return put
    reads_K = reading_near(bond, row, near.x_m, near.y_m) - spot.T_C
    if put.place is None or abs(reads_K) <= max(LEAVE_WITHIN_K, abs(put.reads_K)):
        return Advice(name, "leave", near.id, Place(near.layer, near.x_m, near.y_m), 0.0, reads_K)
    moved_m = put.place.distance_m(near.x_m, near.y_m)
    return put if moved_m > MOVED_WITHIN_M else replace(put, advised="move", sensor=near.id, moved_m=moved_m)


def _how_far(bond: Curves, row: int, spot: Spot, number: int) -> tuple[float, float]:
    """By distance, to a tenth of a millimetre; then by how alike it reads."""
    place = bond.places[number]
    away_m = round(spot.place.distance_m(place.x_m, place.y_m), 4)
    return away_m, abs(float(bond.T_C[row, number]) - spot.T_C)


def is_reachable(zone: Zone, place: Place) -> bool:
    """Whether a hand can put a sensor into the bondline there: beside an edge that is open."""
    bond = zone.layer(zone.bondline)
    return any(_is_open(zone, bond, x, y) for x, y in _beyond(bond, place))


def _beyond(bond: Layer, place: Place) -> Iterator[tuple[float, float]]:
    """Points just beyond the edges of the bondline that the place lies beside."""
    for box in bond.covers:
        if not box.holds(place.x_m, place.y_m):
            continue
        for side in SIDES:
            if _inside_by_m(box, side, place) <= INSET_M + NEAR_M:
                (right, up), to_m = AWAY[side], _inside_by_m(box, side, place) + BEYOND_M
                yield place.x_m + right * to_m, place.y_m + up * to_m


def _inside_by_m(box: Box, side: Side, place: Place) -> float:
    return {
        "x_low": place.x_m - box.x0,
        "x_high": box.x1 - place.x_m,
        "y_low": place.y_m - box.y0,
        "y_high": box.y1 - place.y_m,
    }[side]


def _is_open(zone: Zone, bond: Layer, x_m: float, y_m: float) -> bool:
    at = zone.layers.index(bond) if bond in zone.layers else 0
    if _lies(zone, bond, x_m, y_m):
        return False
    sides = (zone.layers[:at], zone.layers[at + 1 :])
    return any(not any(_lies(zone, layer, x_m, y_m) for layer in side) for side in sides)


def _lies(zone: Zone, layer: Layer, x_m: float, y_m: float) -> bool:
    """Whether a layer lies there; beyond the zone only the heated layer does, where it runs on."""
    if zone.outline.holds(x_m, y_m):
        return any(box.holds(x_m, y_m) for box in layer.covers)
    return layer == zone.layers[0] and any(zone.edges[side].runs_on_m > 0 for side in _past(zone, x_m, y_m))


def _past(zone: Zone, x_m: float, y_m: float) -> Iterator[Side]:
    """The sides of the zone that a point lies beyond, as far as anything is said of them."""
    past = {
        "x_low": x_m < 0,
        "x_high": x_m > zone.size_m[0],
        "y_low": y_m < 0,
        "y_high": y_m > zone.size_m[1],
    }
    return (side for side in SIDES if past[side] and side in zone.edges)
