"""The heat plan of a zone: everything that is asked before the pads are switched on."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bayleaf.heat.bands import Bands, Course, Span, bands_of, courses_of
from bayleaf.heat.bondline import (
    Curves,
    Spot,
    Window,
    curves_of,
    layer_curves,
    spot,
    steepest_K_min,
    windows,
    workable_s,
)
from bayleaf.heat.electric import Electric, electric_of
from bayleaf.heat.exposure import Exposure, exposures_of
from bayleaf.heat.factors import FactorStore
from bayleaf.heat.family import Family, family_on, heated, kin_of, workable_band
from bayleaf.heat.ground import Ground, Kin, ground_of
from bayleaf.heat.layout import layout_of
from bayleaf.heat.mesh import STANDARD, mesh_of
from bayleaf.heat.nearby import NeighbourAnswer, neighbour_answers
from bayleaf.heat.places import Place, places_of
from bayleaf.heat.reduced_run import FamilyRun
from bayleaf.heat.release import Release, plan_release
from bayleaf.heat.run import AFTER_ACT_S, Run, simulate
from bayleaf.heat.touch import TouchSafe, touch_safe
from bayleaf.heat.troubles import (
    TOO_STEEP_TO_RELEASE,
    Trouble,
    after_workable_s,
    mending_change,
    troubles_of,
)
from bayleaf.heat.zone import PadAct, Zone

Floats = NDArray[np.float64]
MODEL = (
    "coupled thin plates in the plane of the joint, sub-layered through it; TR-BDF2 in time; "
    "faces lose heat through half a layer"
)
FIRST = "The vehicle maker's instructions and the adhesive's data sheet come first."
COOL_DOWN_S = 7200.0
MEMBER_CLOCK_S = 20.0
Tick = Callable[[str, float], None]


@dataclass(frozen=True)
class Plan:
    """All answers of a plan; times in s after switch-on, infinity for never."""

    zone: Zone
    run: Run
    bond: Curves
    sensors: Curves
    workable_s: float
    workable_from_s: float  # band over contact and loss
    workable_to_s: float
    peak_band_C: tuple[float, float]  # hottest bondline over the family
    metal_band_C: tuple[float, float]
    leading: Spot
    lagging: Spot
    heat_until_s: float
    ramp_K_min: float
    cooling_K_min: float
    windows: tuple[Window, ...]
    exposures: tuple[Exposure, ...]
    neighbours: tuple[NeighbourAnswer, ...]
    acts: tuple[PadAct, ...]
    release: Release | None
    touch: tuple[TouchSafe, ...]
    electric: Electric
    troubles: tuple[Trouble, ...]
    mend: str
    family: Family
    bands: Bands

    @property
    def first_act_s(self) -> float:
        """When the first pad is turned down or off; without acts when heating ends."""
        return min((act.at_s for act in self.acts), default=self.heat_until_s)

    @property
    def last_act_s(self) -> float:
        """When the last pad is turned down or off; without acts when heating ends."""
        return max((act.at_s for act in self.acts), default=self.heat_until_s)


def plan_of(zone: Zone, tick: Tick | None = None, family_size: int = 5) -> Plan:
    """Plans a zone that has a bondline. `tick` is told what is being done and the share; it may raise to
    cancel.
    """
    say = tick or (lambda _what, _share: None)
    say("heating", 0.0)
    layout, end_s = layout_of(zone, mesh_of(zone, STANDARD)), zone.duration_s
    store = FactorStore()
    nominal = simulate(
        zone, layout, acts=zone.acts, store=store, tick=lambda t: say("heating", 0.25 * t / end_s)
    )
    heat_until_s = _heat_until(zone, layer_curves(nominal, zone, zone.bondline))
    say("family", 0.25)
    ground = ground_of(
        zone, nominal, min(heat_until_s, end_s), lambda share: say("family", 0.25 + 0.35 * share)
    )
    kin = kin_of(ground, family_size)
    hot = heated(kin)
    until_s = _members_until(zone, ground, hot)
    say("release", 0.7)
    release = None
    if not zone.acts and heat_until_s <= end_s:
        release = _release(ground, kin, hot, until_s, heat_until_s)
    say("run", 0.8)
    acts = release.acts if release else zone.acts
    run = _released(zone, nominal, release, store) if release else nominal
    say("answers", 0.9)
    family = family_on(ground, kin, hot, family_size)
    until_s = until_s if release else np.full(len(kin.under), end_s)
    after_s = float(run.times_s[-1]) - heat_until_s if release else 0.0
    few = _crossing(family_size, {0, family_size // 2, family_size - 1})
    courses = courses_of(
        kin.only(few), hot.only(few), until_s[few], acts=acts, begins_s=heat_until_s, after_s=after_s
    )
    return _answers(zone, run, release, family=family, courses=courses, heat_until_s=min(heat_until_s, end_s))


def _heat_until(zone: Zone, bond: Curves) -> float:
    """When the release may begin: workable, soaked and (for a removal) wedged; infinity if never workable."""
    soft_s = workable_s(bond, zone.workable_C)
    return soft_s + after_workable_s(zone)


def _members_until(zone: Zone, ground: Ground, hot: FamilyRun) -> Floats:
    """The same for every member, at most the zone's time."""
    places = places_of(zone, zone.layer(zone.bondline))
    clock_s = np.arange(0.0, zone.duration_s + 1, MEMBER_CLOCK_S).clip(max=zone.duration_s)
    bond_C = hot.on(clock_s).at(ground.read(places))
    until_s = [_heat_until(zone, Curves(clock_s, places, T_C)) for T_C in np.moveaxis(bond_C, 1, 0)]
    return np.minimum(until_s, zone.duration_s)


def _crossing(size: int, at: set[int]) -> list[int]:
    """The members where these rows and columns meet."""
    return [row * size + column for row in sorted(at) for column in sorted(at)]


def _release(ground: Ground, kin: Kin, hot: FamilyRun, until_s: Floats, begins_s: float) -> Release:
    size = math.isqrt(len(kin.under))
    middle = len(kin.under) // 2
    few = [middle, *(n for n in _crossing(size, {0, size - 1}) if n != middle)]
    starts = np.array([hot.only([n]).on(until_s[[n]]).amounts[0, 0] for n in few])
    return plan_release(ground, kin.only(few), starts, begins_s)


def _released(zone: Zone, nominal: Run, release: Release, store: FactorStore) -> Run:
    """The nominal run up to the release's begin, and through it until two hours after its end.

    With the nominal run's factors, unless heat capacities change: then the hot zone needs its own.
    """
    shared = None if nominal.systems[-1].tables else store
    row = int(np.searchsorted(nominal.times_s, release.begins_s + 1e-6)) - 1
    start = (float(nominal.times_s[row]), nominal.node_C[row])
    end_s = max(zone.duration_s, release.ends_s + COOL_DOWN_S)
    later = simulate(
        zone, nominal.layout, acts=release.acts, until_s=end_s, start=start, first_s=AFTER_ACT_S, store=shared
    )
    return nominal.followed_by(later)


def _answers(
    zone: Zone,
    run: Run,
    release: Release | None,
    *,
    family: Family,
    courses: tuple[Course, ...],
    heat_until_s: float,
) -> Plan:
    bond = layer_curves(run, zone, zone.bondline)
    soft_s = workable_s(bond, zone.workable_C)
    judged_s = min(soft_s, heat_until_s)
    early_s, late_s = workable_band(family, zone.workable_C)
    metal = [layer for layer in zone.layers if layer.role == "metal"]
    troubles = _troubles(zone, run, release)
    bands = bands_of(zone, courses)
    exposures = exposures_of(run, zone)
    metals = [
        one.peak_C for one, layer in zip(bands.layers, zone.layers, strict=False) if layer.role == "metal"
    ]
    bond_peak = next(one.peak_C for one in bands.layers if one.layer == zone.bondline)
    return Plan(
        zone=zone,
        run=run,
        bond=bond,
        sensors=curves_of(run, tuple(Place(s.layer, s.x_m, s.y_m) for s in zone.sensors)),
        workable_s=soft_s,
        workable_from_s=min(early_s, soft_s),
        workable_to_s=max(late_s, soft_s),
        peak_band_C=(bond_peak.low, bond_peak.high),
        metal_band_C=_widest(metals or [bond_peak]),
        leading=spot(bond, zone, judged_s, leading=True),
        lagging=spot(bond, zone, judged_s, leading=False),
        heat_until_s=heat_until_s,
        ramp_K_min=steepest_K_min(bond.until(heat_until_s), falling=False)[0],
        cooling_K_min=steepest_K_min(bond, falling=True)[0],
        windows=windows(bond, zone.workable_C, zone.maximum_C),
        exposures=exposures,
        neighbours=neighbour_answers(zone, run, courses),
        acts=release.acts if release else zone.acts,
        release=release,
        touch=tuple(t for layer in metal for t in touch_safe(layer_curves(run, zone, layer.id), layer.id)),
        electric=electric_of(zone, run),
        troubles=troubles,
        mend=mending_change(zone, troubles) if troubles else "",
        family=family,
        bands=bands,
    )


def _widest(spans: list[Span]) -> tuple[float, float]:
    return min(span.low for span in spans), max(span.high for span in spans)


def _troubles(zone: Zone, run: Run, release: Release | None) -> tuple[Trouble, ...]:
    found = troubles_of(zone, run)
    if release and not release.keeps_limit:
        limit = zone.limits.cooling_K_min
        sentence = f"release falls by {release.steepest_K_min:.1f} K/min, the limit is {limit:.1f} K/min"
        found = (*found, Trouble(TOO_STEEP_TO_RELEASE, sentence))
    return found
