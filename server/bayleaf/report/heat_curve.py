"""A heat run's readings as lines of a picture, in permille of its frame, so that typesetting only draws."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, Final

from bayleaf.domain.asks import HeatSettings
from bayleaf.domain.part import Sensor
from bayleaf.report.words import MS_PER_MIN, quantity

Points = list[tuple[int, int]]
FULL: Final = 1000
STEPS: Final = (1, 2, 5, 10, 15, 20, 30, 60, 120, 240, 480, 1440)
MOST_TICKS: Final = 8
DEGREES: Final = (5, 10, 20, 25, 50, 100)


@dataclass(frozen=True)
class Curves:
    """Readings by sensor, and the lagging and leading of the bond; (run_ms, value in the settings' scale)."""

    by_sensor: dict[str, Points]
    lagging: Points
    leading: Points
    soaked: list[tuple[int, int]]

    @property
    def until_ms(self) -> int:
        """The last reading of any sensor."""
        return max((points[-1][0] for points in self.by_sensor.values() if points), default=0)


def curves_of(readings: Iterable[Any], sensors: Sequence[Sensor], settings: HeatSettings) -> Curves:
    """From the bodies of a run's readings; those in another scale than the settings' are left out."""
    by_sensor: defaultdict[str, dict[int, int]] = defaultdict(dict)
    for body in readings:
        if body["unit"] == settings.sensors_unit and body["decimals"] == settings.decimals:
            by_sensor[body["sensor"]].update(dict(map(tuple, body["points"])))
    bond = [one.id for one in sensors if one.of == "bond"]
    moments = set.intersection(*(set(by_sensor.get(one, {})) for one in bond)) if bond else set()
    lagging = sorted((ms, min(by_sensor[one][ms] for one in bond)) for ms in moments)
    leading = sorted((ms, max(by_sensor[one][ms] for one in bond)) for ms in moments)
    series = {sensor: sorted(points.items()) for sensor, points in by_sensor.items()}
    return Curves(series, lagging, leading, _soaked(lagging, settings))


def _soaked(lagging: Points, settings: HeatSettings) -> list[tuple[int, int]]:
    """The stretches that count as soak, joined where they meet."""
    joined: list[tuple[int, int]] = []
    for (from_ms, low), (to_ms, next_low) in pairwise(lagging):
        if to_ms - from_ms <= settings.gap_max_s * 1000 and min(low, next_low) >= settings.lagging_min:
            begun = joined.pop()[0] if joined and joined[-1][1] == from_ms else from_ms
            joined.append((begun, to_ms))
    return joined


@dataclass(frozen=True)
class Frame:
    """What the picture spans."""

    until_ms: int
    low: int
    high: int

    def x(self, ms: int) -> int:
        return round(FULL * ms / self.until_ms)

    def y(self, value: int) -> int:
        return round(FULL * (value - self.low) / (self.high - self.low))

    def line(self, points: Points) -> list[list[int]]:
        return [[self.x(ms), self.y(value)] for ms, value in points]


def frame_of(curves: Curves, limits: Sequence[int], last_ms: int, scale: int) -> Frame:
    """Room for every reading, limit and act; from 0 or below up to a round figure."""
    values = [value for points in curves.by_sensor.values() for _, value in points]
    until = max([last_ms, MS_PER_MIN, *(ms for points in curves.by_sensor.values() for ms, _ in points)])
    low = min([0, *values])
    high = max([*values, *limits, 10 * scale])
    return Frame(until, low - (low % (10 * scale)), high + 10 * scale - (high % (10 * scale)))


def _tick_step(span: int, steps: Sequence[int]) -> int:
    """The smallest round step that leaves few ticks; for a span beyond all of them, a part of it."""
    return next((one for one in steps if span <= MOST_TICKS * one), 1 + span // MOST_TICKS)


def ticks(frame: Frame, settings: HeatSettings) -> dict[str, list[dict[str, Any]]]:
    """Round minutes along the foot, round degrees up the side."""
    minutes, scale = frame.until_ms // MS_PER_MIN, 10**settings.decimals
    step = _tick_step(minutes, STEPS)
    rise = _tick_step((frame.high - frame.low) // scale, DEGREES) * scale
    along = range(0, minutes + 1, step)
    up = range(frame.low - frame.low % rise, frame.high + 1, rise)
    return {
        "x": [{"at": frame.x(one * MS_PER_MIN), "words": str(one)} for one in along],
        "y": [{"at": frame.y(one), "words": quantity(one // scale, 0, "")} for one in up if one >= frame.low],
    }
