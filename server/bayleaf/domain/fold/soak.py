"""The soak and peak of a heat run, from its readings and the method's settings.

An interval between two neighbouring moments counts if the lagging sensor is at or above the minimum at
both ends and the gap is within the method's limit. A moment is a `run_ms` at which every sensor of the
zone has a value. Readings of other sensors, or in another unit or scale than the settings', do not count.
Where one sensor has two values at one moment the lower is taken for the soak and the higher for the peak,
so that in doubt a soak errs long.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from bayleaf.domain.asks import HeatSettings
from bayleaf.domain.entries import Entry

MS_PER_S = 1000


@dataclass(frozen=True, slots=True)
class Soak:
    """How long the soak counts, and up to which `run_ms`; the peak as (value, sensor), if any was read."""

    soak_ms: int
    counts_to_ms: int
    peak: tuple[int, str] | None
    over_maximum: list[Entry]


NO_SOAK = Soak(0, 0, None, [])


def read_soak(readings: Iterable[Entry], sensors: Sequence[str], settings: HeatSettings) -> Soak:
    """The soak of a run whose zone has these sensors."""
    counted = [entry for entry in readings if _is_counted(entry, sensors, settings)]
    soak_ms, counts_to_ms = _soak(_lagging(counted, sensors), settings)
    return Soak(soak_ms, counts_to_ms, _peak(counted), _too_hot(counted, settings))


def _is_counted(entry: Entry, sensors: Sequence[str], settings: HeatSettings) -> bool:
    body = entry.body
    same_scale = body["unit"] == settings.sensors_unit and body["decimals"] == settings.decimals
    return same_scale and body["sensor"] in sensors


def _lagging(counted: Iterable[Entry], sensors: Sequence[str]) -> list[tuple[int, int]]:
    """(run_ms, lowest value) of each moment, in order."""
    lowest: defaultdict[int, dict[str, int]] = defaultdict(dict)
    for entry in counted:
        sensor = entry.body["sensor"]
        for run_ms, value in entry.body["points"]:
            at_moment = lowest[run_ms]
            at_moment[sensor] = min(value, at_moment.get(sensor, value))
    return sorted(
        (ms, min(values.values())) for ms, values in lowest.items() if len(values) == len(set(sensors))
    )


def _soak(lagging: Sequence[tuple[int, int]], settings: HeatSettings) -> tuple[int, int]:
    total_ms = counts_to_ms = 0
    for (from_ms, low), (to_ms, next_low) in pairwise(lagging):
        within_gap = to_ms - from_ms <= settings.gap_max_s * MS_PER_S
        if within_gap and min(low, next_low) >= settings.lagging_min:
            total_ms += to_ms - from_ms
            counts_to_ms = to_ms
    return total_ms, counts_to_ms


def _peak(counted: Iterable[Entry]) -> tuple[int, str] | None:
    values = [(-value, entry.body["sensor"]) for entry in counted for _, value in entry.body["points"]]
    if not values:
        return None
    negated, sensor = min(values)
    return -negated, sensor


def _too_hot(counted: Iterable[Entry], settings: HeatSettings) -> list[Entry]:
    return [
        entry for entry in counted if any(value > settings.leading_max for _, value in entry.body["points"])
    ]
