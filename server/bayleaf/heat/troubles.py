"""What makes a heat plan infeasible, and the single change that would mend it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from bayleaf.heat.bondline import layer_curves, steepest_K_min, workable_s
from bayleaf.heat.electric import electric_of
from bayleaf.heat.layout import layout_of
from bayleaf.heat.mesh import QUICK, mesh_of
from bayleaf.heat.places import Place, histories, places_of
from bayleaf.heat.run import Run, simulate
from bayleaf.heat.step_length import ROUGH
from bayleaf.heat.zone import Pad, Supply, Zone

SETPOINTS = (0.9, 0.8, 0.7, 0.6, 0.5)
POWERS = (0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3)
STRONGER = (1.25, 1.5, 2.0)
CONTACTS = (1.5, 2.5)
LONGER = (1.5, 2.5)
TOO_STEEP_TO_RELEASE = "cooling_too_steep"


@dataclass(frozen=True)
class Trouble:
    """One reason why the plan cannot be kept: a code, and the sentence with figure and limit."""

    code: str
    sentence: str


def troubles_of(zone: Zone, run: Run) -> tuple[Trouble, ...]:
    """Everything about a run's heating that breaks a limit of the zone."""
    checks = (_never_workable, _too_short, _too_hot, _layers, _neighbours, _circuit, _ramp)
    return tuple(trouble for check in checks for trouble in check(zone, run))


def _never_workable(zone: Zone, run: Run) -> Iterator[Trouble]:
    curves = layer_curves(run, zone, zone.bondline)
    if math.isinf(workable_s(curves, zone.workable_C)):
        best = float(curves.coldest_C.max())
        yield Trouble(
            "never_workable",
            f"coldest bondline reaches {best:.0f} C, workable from {zone.workable_C:.0f} C",
        )


def _too_short(zone: Zone, run: Run) -> Iterator[Trouble]:
    """The soak and the wedging have to fit, unless the document brings a release of its own."""
    soft_s = workable_s(layer_curves(run, zone, zone.bondline), zone.workable_C)
    needed_s = soft_s + after_workable_s(zone)
    if math.isfinite(soft_s) and needed_s > zone.duration_s and not zone.acts:
        done = "soaked and wedged" if zone.purpose == "removal" else "soaked"
        found = f"workable after {soft_s / 60:.0f} min and {done} after {needed_s / 60:.0f} min"
        yield Trouble("run_too_short", f"{found}, the longest run is {zone.duration_s / 60:.0f} min")


def after_workable_s(zone: Zone) -> float:
    """How long the pads stay on once the coldest place is workable: soak, and for a removal wedging."""
    return zone.soak_s + (zone.wedging_s if zone.purpose == "removal" else 0.0)


def _too_hot(zone: Zone, run: Run) -> Iterator[Trouble]:
    peak = float(layer_curves(run, zone, zone.bondline).T_C.max())
    if peak > zone.maximum_C:
        yield Trouble("bondline_too_hot", f"bondline reaches {peak:.0f} C, maximum {zone.maximum_C:.0f} C")


def _layers(zone: Zone, run: Run) -> Iterator[Trouble]:
    for layer in zone.layers_and_wall:
        if layer.limit_C is None:
            continue
        peak = float(histories(run, places_of(zone, layer)).max())
        if peak > layer.limit_C:
            sentence = f"{layer.name} reaches {peak:.0f} C, its limit is {layer.limit_C:.0f} C"
            yield Trouble(f"layer_too_hot:{layer.id}", sentence)


def _neighbours(zone: Zone, run: Run) -> Iterator[Trouble]:
    for one in zone.neighbours:
        peak = float(histories(run, (Place(one.layer, one.x_m, one.y_m),)).max())
        if peak > one.limit_C:
            sentence = f"{one.name} reaches {peak:.0f} C, its limit is {one.limit_C:.0f} C"
            yield Trouble(f"neighbour_too_hot:{one.id}", sentence)


def _circuit(zone: Zone, run: Run) -> Iterator[Trouble]:
    drawn = electric_of(zone, run)
    if not drawn.fits:
        sentence = f"pads draw {drawn.current_A:.1f} A, the circuit gives {drawn.circuit_A:.0f} A"
        yield Trouble("circuit_overloaded", sentence)


def _ramp(zone: Zone, run: Run) -> Iterator[Trouble]:
    limit = zone.limits.ramp_K_min
    if limit is None:
        return
    rate, _, _ = steepest_K_min(layer_curves(run, zone, zone.bondline), falling=False)
    if rate > limit:
        yield Trouble("ramp_too_steep", f"bondline rises by {rate:.1f} K/min, the limit is {limit:.1f} K/min")


def mending_change(zone: Zone, troubles: tuple[Trouble, ...]) -> str:
    """The first single change that a workshop can make under which nothing is broken; '' if none does.

    Only changes that can help against these troubles are tried. A release that falls too steeply is not
    released anew under each: against it nothing is promised.
    """
    kinds = {trouble.code.split(":")[0] for trouble in troubles}
    if TOO_STEEP_TO_RELEASE in kinds:
        return ""
    for sentence, changed in _changes(zone, kinds):
        if not troubles_of(changed, _heated(changed)):
            return sentence
    return ""


def _heated(zone: Zone) -> Run:
    """The zone heated until workable and soaked, or to its end, on a coarse mesh."""
    run = simulate(zone, layout_of(zone, mesh_of(zone, QUICK)), accuracy=ROUGH)
    soft_s = workable_s(layer_curves(run, zone, zone.bondline), zone.workable_C)
    return run.until(soft_s + after_workable_s(zone))


def _changes(zone: Zone, kinds: set[str]) -> Iterator[tuple[str, Zone]]:
    if kinds == {"circuit_overloaded"} and zone.supply:
        need_A = electric_need_A(zone)
        yield (
            f"use a circuit of {need_A} A or more",
            replace(zone, supply=Supply(zone.supply.voltage_V, need_A)),
        )
    if kinds == {"neighbour_too_hot"}:
        for one in zone.neighbours:
            others = tuple(two for two in zone.neighbours if two.id != one.id)
            yield f"move {one.name} away, or shield it", replace(zone, neighbours=others)
    if "never_workable" in kinds:
        yield from _hotter(zone)
    elif "run_too_short" in kinds:
        yield from _longer(zone)
        yield from _hotter(zone)
    else:
        for share in POWERS:
            yield f"turn all pads down to {share:.0%} of their power", _powered(zone, share)
        yield from _setpoints(zone)


def electric_need_A(zone: Zone) -> int:
    """The circuit that all pads at full power ask for, in whole amperes."""
    power_W = sum(pad.power_W_m2 * pad.power_share * pad.box.area_m2 for pad in zone.pads)
    return math.ceil(power_W / zone.supply.voltage_V) if zone.supply else 0


def _powered(zone: Zone, times: float) -> Zone:
    return replace(zone, pads=tuple(replace(pad, power_W_m2=times * pad.power_W_m2) for pad in zone.pads))


def _hotter(zone: Zone) -> Iterator[tuple[str, Zone]]:
    spared = [pad.name for pad in zone.pads if pad.power_share < 1 and pad.power_W_m2 > 0]
    if spared:
        whole = tuple(replace(pad, power_share=1.0) for pad in zone.pads)
        yield f"give {' and '.join(spared)} full power", replace(zone, pads=whole)
    for times in CONTACTS:
        pads = tuple(_pressed(pad, times) for pad in zone.pads)
        yield f"press the pads flush: {times:g} times the contact", replace(zone, pads=pads)
    yield from _longer(zone)
    for times in STRONGER:
        yield f"use pads of {times:g} times the power", _powered(zone, times)


def _longer(zone: Zone) -> Iterator[tuple[str, Zone]]:
    for times in LONGER:
        minutes = times * zone.duration_s / 60
        yield f"heat for {minutes:.0f} min", replace(zone, duration_s=times * zone.duration_s)


def _setpoints(zone: Zone) -> Iterator[tuple[str, Zone]]:
    held = [pad.setpoint_C for pad in zone.pads if pad.setpoint_C is not None]
    for share in SETPOINTS if held else ():
        top_C = round(max(held) * share / 5) * 5.0
        pads = tuple(
            replace(p, setpoint_C=min(top_C, p.setpoint_C)) if p.setpoint_C else p for p in zone.pads
        )
        yield f"set the pads to {top_C:.0f} C", replace(zone, pads=pads)


def _pressed(pad: Pad, times: float) -> Pad:
    return replace(pad, contact_W_m2K=pad.contact_W_m2K * times) if pad.contact_W_m2K else pad
