"""What each layer sees in a run: peak, minutes above its limits summed with earlier runs, ageing of
aluminium.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from bayleaf.heat.ageing import above_s, equivalent_s
from bayleaf.heat.bondline import Curves, curves_of
from bayleaf.heat.places import Place, places_of
from bayleaf.heat.run import Run
from bayleaf.heat.zone import Earlier, Layer, Zone

AGEING_SOURCE = (
    "Donovan, Fortune, Trout, Elevated temperature effects on age-hardened 6xxx extrusions, student "
    "project, California Polytechnic State University 2015: 6061-T6 and 6063-T6 fell under the minimum "
    "yield strength after 16 h at 199 C and 4 h at 218 C, two stronger alloys after 30 min at 218 C"
)
AGEING_REFERENCE_C = 199.0
AGEING_HOURS = 16.0
AGEING_J_MOL = 140_700.0  # from the source's two points: R ln(16/4) / (1/472.15 - 1/491.15)
STRONGER_TIMES = 8.0  # 4 h against 30 min at 218 C


@dataclass(frozen=True)
class Above:
    """Minutes that the worst place of a layer is above a temperature: this run, earlier runs, together.

    `zones`: what of the earlier minutes came from runs of neighbouring zones, by their names.
    """

    above_C: float
    run_min: float
    earlier_min: float
    is_limit: bool
    zones: tuple[tuple[str, float], ...] = ()

    @property
    def total_min(self) -> float:
        return self.run_min + self.earlier_min


@dataclass(frozen=True)
class Exposure:
    """One layer's run."""

    layer: str
    role: str
    peak_C: float
    peak_at_s: float
    peak_place: Place
    limit_C: float | None
    above: tuple[Above, ...]
    ageing_share: (
        float | None
    )  # of the time to fall under the minimum strength, at the worst place; metals only


def exposure_of(run: Run, zone: Zone, layer: Layer) -> Exposure:
    """A layer's peak and minutes, at fixed places, each minute count at its own worst place."""
    curves = curves_of(run, places_of(zone, layer))
    row, number = divmod(int(curves.T_C.argmax()), len(curves.places))
    above = tuple(_above(zone, layer, curves, limit) for limit in counted_C(zone, layer))
    share = ageing_share(curves, number) if layer.role == "metal" else None
    return Exposure(
        layer.id, layer.role, float(curves.T_C[row, number]), float(curves.times_s[row]),
        curves.places[number], layer.limit_C, above, share,
    )  # fmt: skip


def exposures_of(run: Run, zone: Zone) -> tuple[Exposure, ...]:
    return tuple(exposure_of(run, zone, layer) for layer in zone.layers_and_wall)


def counted_C(zone: Zone, layer: Layer) -> list[float]:
    """The temperatures above which a layer's minutes are counted."""
    own = {layer.limit_C} if layer.limit_C is not None else set()
    own |= {zone.maximum_C} if layer.id == zone.bondline else set()
    general = set(zone.limits.count_above_C) if layer.role == "metal" else set()
    earlier = {one.above_C for one in zone.earlier if one.layer == layer.id}
    return sorted(own | general | earlier)


def _above(zone: Zone, layer: Layer, curves: Curves, limit_C: float) -> Above:
    run_min = float(above_s(curves.times_s, curves.T_C, limit_C).max()) / 60
    earlier = [one for one in zone.earlier if one.layer == layer.id and one.above_C == limit_C]
    is_limit = limit_C == layer.limit_C or (layer.id == zone.bondline and limit_C == zone.maximum_C)
    return Above(limit_C, run_min, float(sum(one.minutes for one in earlier)), is_limit, _by_zone(earlier))


def _by_zone(earlier: list[Earlier]) -> tuple[tuple[str, float], ...]:
    minutes: defaultdict[str, float] = defaultdict(float)
    for one in earlier:
        minutes[one.zone] += one.minutes
    return tuple((name, total) for name, total in minutes.items() if name)


def ageing_share(curves: Curves, number: int) -> float:
    """Time at the source's reference temperature as a share of its hours, at the hottest place."""
    aged_s = equivalent_s(curves.times_s, curves.T_C[:, number], AGEING_J_MOL, AGEING_REFERENCE_C)
    return aged_s / (AGEING_HOURS * 3600)
