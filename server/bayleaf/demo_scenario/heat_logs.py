"""Readings of a run's sensors: straight between the scenario's corners, as a logger writes them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from bayleaf.demo_scenario.deeds import HeatScript

MINUTE_MS = 60_000


def series(script: HeatScript, first: int, last: int) -> Iterator[tuple[str, list[list[int]]]]:
    """Each sensor with its (run_ms, value) from one minute to another, both included."""
    for sensor, corners in script.sensors.items():
        minutes = range(first, last + 1, script.every_min)
        yield sensor, [[minute * MINUTE_MS, at_minute(corners, minute)] for minute in minutes]


def at_minute(corners: tuple[tuple[int, int], ...], minute: int) -> int:
    """The temperature at a minute, in whole degrees, halves upwards."""
    for (left, low), (right, high) in pairwise(corners):
        if minute <= right:
            doubled = 2 * (low * (right - left) + (high - low) * (minute - left)) + (right - left)
            return doubled // (2 * (right - left))
    return corners[-1][1]
