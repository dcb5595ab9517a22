"""The heat plan of a zone: everything that is asked before the pads are switched on."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

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
from bayleaf.heat.family import COARSE, ROUGH, Family, family_of, peaks, workable_band
from bayleaf.heat.layout import layout_of
from bayleaf.heat.mesh import QUICK, STANDARD, mesh_of
from bayleaf.heat.nearby import NeighbourAnswer, neighbour_answers
from bayleaf.heat.places import Place
from bayleaf.heat.release import Release, plan_release
from bayleaf.heat.run import Run, simulate
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.touch import TouchSafe, touch_safe
from bayleaf.heat.troubles import Trouble, mending_change, troubles_of
from bayleaf.heat.zone import Conditions, PadAct, Zone

MODEL = (
    "coupled thin plates in the plane of the joint, sub-layered through it; TR-BDF2 in time; "
    "faces lose heat through half a layer"
)
FIRST = "The vehicle maker's instructions and the adhesive's data sheet come first."
COOL_DOWN_S = 3600.0
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


def plan_of(zone: Zone, tick: Tick | None = None, family_size: int = 5) -> Plan:
    """Plans a zone that has a bondline. `tick` is told what is being done and the share; it may raise to
    cancel.
    """
    say = tick or (lambda _what, _share: None)
    say("heating", 0.0)
    hot = simulate(zone, layout_of(zone, mesh_of(zone, QUICK)), accuracy=Accuracy(0.15))
    heat_until_s = _heat_until(zone, hot)
    say("release", 0.2)
    release = (
        None if zone.acts or math.isinf(heat_until_s) else plan_release(zone, hot.layout, hot, heat_until_s)
    )
    acts = zone.acts or (release.acts if release else ())
    end_s = _end_s(zone, acts)
    say("run", 0.4)
    layout = layout_of(zone, mesh_of(zone, STANDARD))
    run = simulate(zone, layout, acts=acts, until_s=end_s, tick=lambda t: say("run", 0.4 + 0.2 * t / end_s))
    say("family", 0.6)
    family = family_of(zone, family_size, lambda share: say("family", 0.6 + 0.35 * share))
    say("answers", 0.95)
    return _answers(zone, run, release, acts, family=family, heat_until_s=min(heat_until_s, zone.duration_s))


def _heat_until(zone: Zone, hot: Run) -> float:
    """When the release may begin: workable, soaked and (for a removal) wedged; infinity if never workable."""
    soft_s = workable_s(layer_curves(hot, zone, zone.bondline), zone.workable_C)
    return soft_s + zone.soak_s + (zone.wedging_s if zone.purpose == "removal" else 0.0)


def _end_s(zone: Zone, acts: tuple[PadAct, ...]) -> float:
    last_s = max((act.at_s for act in acts), default=0.0)
    return max(zone.duration_s, last_s + COOL_DOWN_S) if acts and not zone.acts else zone.duration_s


def _answers(
    zone: Zone,
    run: Run,
    release: Release | None,
    acts: tuple[PadAct, ...],
    *,
    family: Family,
    heat_until_s: float,
) -> Plan:
    bond = layer_curves(run, zone, zone.bondline)
    soft_s = workable_s(bond, zone.workable_C)
    judged_s = min(soft_s, heat_until_s)
    bond_peaks, metal_peaks = zip(*peaks(family, zone), strict=True)
    early_s, late_s = workable_band(family, zone.workable_C)
    metal = [layer for layer in zone.layers if layer.role == "metal"]
    troubles = _troubles(zone, run, release)
    return Plan(
        zone=zone,
        run=run,
        bond=bond,
        sensors=curves_of(run, tuple(Place(s.layer, s.x_m, s.y_m) for s in zone.sensors)),
        workable_s=soft_s,
        workable_from_s=min(early_s, soft_s),
        workable_to_s=max(late_s, soft_s),
        peak_band_C=(min(bond_peaks), max(bond_peaks)),
        metal_band_C=(min(metal_peaks), max(metal_peaks)),
        leading=spot(bond, zone, judged_s, leading=True),
        lagging=spot(bond, zone, judged_s, leading=False),
        heat_until_s=heat_until_s,
        ramp_K_min=steepest_K_min(bond.until(heat_until_s), falling=False)[0],
        cooling_K_min=steepest_K_min(bond, falling=True)[0],
        windows=windows(bond, zone.workable_C, zone.maximum_C),
        exposures=exposures_of(run, zone),
        neighbours=neighbour_answers(zone, run, _hot_run(zone, acts, float(run.times_s[-1]))),
        acts=acts,
        release=release,
        touch=tuple(t for layer in metal for t in touch_safe(layer_curves(run, zone, layer.id), layer.id)),
        electric=electric_of(zone, run),
        troubles=troubles,
        mend=mending_change(zone, troubles) if troubles else "",
        family=family,
    )


def _hot_run(zone: Zone, acts: tuple[PadAct, ...], end_s: float) -> Run:
    """The hot side of the band: good contact, little loss."""
    under = Conditions(zone.contact_band[1], zone.loss_band[0])
    layout = layout_of(zone, mesh_of(zone, COARSE))
    return simulate(zone, layout, under, acts=acts, until_s=end_s, accuracy=ROUGH)


def _troubles(zone: Zone, run: Run, release: Release | None) -> tuple[Trouble, ...]:
    found = troubles_of(zone, run)
    if release and not release.keeps_limit:
        limit = zone.limits.cooling_K_min
        sentence = f"release falls by {release.steepest_K_min:.1f} K/min, the limit is {limit:.1f} K/min"
        found = (*found, Trouble("cooling_too_steep", sentence))
    return found
