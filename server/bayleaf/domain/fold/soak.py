"""The soak and peaks of a heat run, from its readings and the method's settings.

An interval between two neighbouring moments counts if the lagging sensor is at or above the minimum at
both ends and the gap is within the method's limit. A moment is a `run_ms` at which every sensor on the bond
of the zone has a value; those on the metal or on a neighbour say nothing of the soak. Each place has its
own maximum; one that the method does not set is none. The peak is of bond and metal. Readings of other
sensors, or in another unit or scale than the settings', do not count. Where one sensor has two values at
one moment the lower is taken for the soak and the higher for the peak, so that in doubt a soak errs long.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from itertools import pairwise

from bayleaf.domain.asks import HeatSettings
from bayleaf.domain.entries import Entry
from bayleaf.domain.part import Sensor, SensorOf

MS_PER_S = 1000


@dataclass(frozen=True, slots=True)
class Soak:
    """How long the soak counts, and up to which `run_ms`; the peak as (value, sensor), if any was read.

    `peaks` are those of each sensor that was read, as (sensor, value), sorted.
    """

    soak_ms: int
    counts_to_ms: int
    peak: tuple[int, str] | None
    peaks: list[tuple[str, int]]
    over_maximum: list[Entry]


NO_SOAK = Soak(0, 0, None, [], [])


def read_soak(readings: Iterable[Entry], sensors: Sequence[Sensor], settings: HeatSettings) -> Soak:
    """The soak of a run whose zone has these sensors."""
    of = {sensor.id: sensor.of for sensor in sensors}
    counted = [entry for entry in readings if _is_counted(entry, of, settings)]
    bond = {sensor for sensor, where in of.items() if where == "bond"}
    soak_ms, counts_to_ms = _soak(_lagging(counted, bond), settings)
    peaks = _peaks(counted)
    hottest = [(value, sensor) for sensor, value in peaks if of[sensor] != "neighbour"]
    return Soak(
        soak_ms,
        counts_to_ms,
        peak=min(hottest, key=lambda one: (-one[0], one[1]), default=None),
        peaks=peaks,
        over_maximum=_too_hot(counted, of, settings),
    )


def _is_counted(entry: Entry, of: Mapping[str, SensorOf], settings: HeatSettings) -> bool:
    body = entry.body
    same_scale = body["unit"] == settings.sensors_unit and body["decimals"] == settings.decimals
    return same_scale and body["sensor"] in of


def _lagging(counted: Iterable[Entry], bond: AbstractSet[str]) -> list[tuple[int, int]]:
    """(run_ms, lowest value on the bond) of each moment, in order."""
    lowest: defaultdict[int, dict[str, int]] = defaultdict(dict)
    for entry in counted:
        sensor = entry.body["sensor"]
        for run_ms, value in entry.body["points"] if sensor in bond else ():
            at_moment = lowest[run_ms]
            at_moment[sensor] = min(value, at_moment.get(sensor, value))
    return sorted((ms, min(values.values())) for ms, values in lowest.items() if len(values) == len(bond))


def _soak(lagging: Sequence[tuple[int, int]], settings: HeatSettings) -> tuple[int, int]:
    total_ms = counts_to_ms = 0
    for (from_ms, low), (to_ms, next_low) in pairwise(lagging):
        within_gap = to_ms - from_ms <= settings.gap_max_s * MS_PER_S
        if within_gap and min(low, next_low) >= settings.lagging_min:
            total_ms += to_ms - from_ms
            counts_to_ms = to_ms
    return total_ms, counts_to_ms


def _peaks(counted: Iterable[Entry]) -> list[tuple[str, int]]:
    highest: dict[str, int] = {}
    for entry in counted:
        sensor = entry.body["sensor"]
        for _, value in entry.body["points"]:
            highest[sensor] = max(value, highest.get(sensor, value))
    return sorted(highest.items())


def _too_hot(counted: Iterable[Entry], of: Mapping[str, SensorOf], settings: HeatSettings) -> list[Entry]:
    most: dict[SensorOf, int | None] = {
        "bond": settings.leading_max,
        "metal": settings.metal_max,
        "neighbour": settings.neighbour_max,
    }
    return [entry for entry in counted if _is_over(entry, most[of[entry.body["sensor"]]])]


def _is_over(entry: Entry, maximum: int | None) -> bool:
    return maximum is not None and any(value > maximum for _, value in entry.body["points"])
