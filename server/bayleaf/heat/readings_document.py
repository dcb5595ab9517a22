"""Reads a finished run for its verdict: purpose, limits, readings and acts, as one JSON or YAML document."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError

from bayleaf.heat.faults import Fault, ZoneFault
from bayleaf.heat.zone import Purpose

NEEDED = ("purpose", "limits", "readings")
Rows = dict[str, tuple[tuple[float, float], ...]]
COLDEST_C, HOTTEST_C = -50.0, 700.0


@dataclass(frozen=True)
class RunLimits:
    """Limits of a run; None where the method gives none. Seconds, K/min, C."""

    lagging_min_C: float
    leading_max_C: float
    soak_s: float
    gap_max_s: float
    ramp_K_min: float | None = None
    cooling_K_min: float | None = None
    metal_max_C: float | None = None
    neighbour_max_C: float | None = None
    metal_above_C: float | None = None
    metal_above_max_min: float | None = None
    cold_below_C: float | None = None
    bond_above_C: float | None = None
    bond_above_max_min: float | None = None
    composite_max_C: float | None = None
    composite_above_C: float | None = None
    composite_above_max_min: float | None = None


@dataclass(frozen=True)
class RunAct:
    at_s: float
    act: str
    pad: str


@dataclass(frozen=True)
class FinishedRun:
    """Readings per bond, metal, neighbour and composite sensor: (s after switch-on, C), sorted by time.

    `earlier_above_min` are the minutes above the metal's counted temperature in earlier runs on this metal;
    `earlier_composite_above_min` the same of the composite.
    """

    purpose: Purpose
    limits: RunLimits
    bond: Rows
    metal: Rows
    acts: tuple[RunAct, ...] = ()
    release_order: tuple[str, ...] = ()
    neighbour: Rows = field(default_factory=dict)
    earlier_above_min: float = 0.0
    composite: Rows = field(default_factory=dict)
    earlier_composite_above_min: float = 0.0


def read_run(text: str) -> FinishedRun:
    """The run of a document; ZoneFault with every fault, each naming the field."""
    try:
        document = YAML(typ="safe", pure=True).load(text)
    except YAMLError as error:
        raise ZoneFault([Fault("document", "not YAML or JSON")]) from error
    faults = _faults(document)
    if faults:
        raise ZoneFault(faults)
    return _run(document)


def _faults(doc: Any) -> list[Fault]:
    if not isinstance(doc, dict):
        return [Fault("document", "found no mapping, allowed purpose, limits, readings")]
    faults = [Fault(key, "missing") for key in NEEDED if key not in doc]
    faults += [
        Fault(str(key), f"unknown field, allowed: {', '.join(sorted(ALLOWED))}")
        for key in doc
        if key not in ALLOWED
    ]
    if faults:
        return faults
    if doc["purpose"] not in ("removal", "cure"):
        faults.append(Fault("purpose", f"found {doc['purpose']}, allowed removal, cure"))
    return [
        *faults,
        *_limit_faults(doc["limits"]),
        *_reading_faults(doc["readings"]),
        *_act_faults(doc.get("acts", [])),
        *_sensor_faults(doc),
        *(fault for key in EARLIER for fault in _earlier_faults(key, doc.get(key, 0))),
    ]


SENSORS = ("metal_sensors", "neighbour_sensors", "composite_sensors")
EARLIER = ("earlier_metal_above_min", "earlier_composite_above_min")
ALLOWED = {"purpose", "limits", "readings", *SENSORS, *EARLIER, "acts", "release_order", "name", "invented"}
LIMIT_KEYS = {
    "lagging_min_C": True, "leading_max_C": True, "soak_min": True, "gap_max_s": True, "ramp_K_min": False,
    "cooling_K_min": False, "metal_max_C": False, "metal_above_C": False, "metal_above_max_min": False,
    "cold_below_C": False, "neighbour_max_C": False, "bond_above_C": False, "bond_above_max_min": False,
    "composite_max_C": False, "composite_above_C": False, "composite_above_max_min": False,
}  # fmt: skip


def _number(value: object) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool) and math.isfinite(value)


def _limit_faults(limits: Any) -> list[Fault]:
    if not isinstance(limits, dict):
        return [Fault("limits", "found no mapping")]
    faults = [
        Fault(f"limits.{key}", "missing")
        for key, needed in LIMIT_KEYS.items()
        if needed and key not in limits
    ]
    for key, value in limits.items():
        if key not in LIMIT_KEYS:
            faults.append(Fault(f"limits.{key}", f"unknown field, allowed: {', '.join(LIMIT_KEYS)}"))
        elif not _number(value) or value < (COLDEST_C if key.endswith("_C") else 0):
            faults.append(Fault(f"limits.{key}", f"found {value}, allowed a finite figure of that unit"))
    faults += [
        Fault(f"limits.{of}_above_max_min", f"found {limits[f'{of}_above_max_min']}, but no {of}_above_C")
        for of in ("metal", "bond", "composite")
        if f"{of}_above_max_min" in limits and f"{of}_above_C" not in limits
    ]
    if not faults and limits["lagging_min_C"] >= limits["leading_max_C"]:
        found = f"found {limits['leading_max_C']}, allowed above lagging_min_C = {limits['lagging_min_C']}"
        faults.append(Fault("limits.leading_max_C", found))
    return faults


def _reading_faults(readings: Any) -> list[Fault]:
    if not isinstance(readings, dict) or not readings:
        return [Fault("readings", "found none, allowed sensor ids with lists of [s, C]")]
    faults = []
    for sensor, rows in readings.items():
        if rows == []:
            faults.append(Fault(f"readings.{sensor}", "found none, allowed one or more of [s, C]"))
        for number, row in enumerate(rows if isinstance(rows, list) else [rows]):
            at = f"readings.{sensor}[{number}]"
            if not isinstance(row, list) or len(row) != 2 or not all(map(_number, row)):  # noqa: PLR2004  a pair
                faults.append(Fault(at, f"found {row}, allowed [s after switch-on, C], both finite"))
            elif row[0] < 0 or not COLDEST_C <= row[1] <= HOTTEST_C:
                faults.append(
                    Fault(at, f"found {row}, allowed s from 0 and C from {COLDEST_C:g} to {HOTTEST_C:g}")
                )
    return faults


def _act_faults(acts: Any) -> list[Fault]:
    names = ("turn_down", "lift", "off", "workable", "soaked", "cold")
    if not isinstance(acts, list):
        return [Fault("acts", f"found {acts}, allowed a list")]
    faults = []
    for number, act in enumerate(acts):
        if not isinstance(act, dict) or not _number(act.get("at_s")) or act.get("act") not in names:
            faults.append(
                Fault(f"acts[{number}]", f"found {act}, allowed at_s, act ({', '.join(names)}) and pad")
            )
    return faults


def _sensor_faults(doc: dict[str, Any]) -> list[Fault]:
    """A sensor that is named for a layer has readings, and is on one layer; one of them is on the bond."""
    read = doc["readings"] if isinstance(doc["readings"], dict) else {}
    faults, placed = [], dict[str, str]()
    for key in SENSORS:
        named = doc.get(key, [])
        if not isinstance(named, list):
            faults.append(Fault(key, f"found {named}, allowed a list of sensor ids"))
            continue
        for number, sensor in enumerate(map(str, named)):
            if sensor not in map(str, read):
                faults.append(Fault(f"{key}[{number}]", f"found {sensor}, which has no readings"))
            elif sensor in placed:
                faults.append(Fault(f"{key}[{number}]", f"found {sensor}, which is in {placed[sensor]} too"))
            placed[sensor] = key
    if read and not faults and len(placed) == len(read):
        faults.append(Fault("readings", "found no sensor on the bond, allowed one or more"))
    return faults


def _earlier_faults(key: str, minutes: Any) -> list[Fault]:
    if _number(minutes) and minutes >= 0:
        return []
    return [Fault(key, f"found {minutes}, allowed minutes from 0")]


def _run(doc: dict[str, Any]) -> FinishedRun:
    metal, neighbour, composite = (set(map(str, doc.get(key, []))) for key in SENSORS)
    rows = {
        str(sensor): tuple(sorted((float(s), float(T)) for s, T in readings))
        for sensor, readings in doc["readings"].items()
    }
    limits = {key: float(value) for key, value in doc["limits"].items()}
    limits["soak_s"] = 60 * limits.pop("soak_min")
    acts = sorted(
        (RunAct(float(a["at_s"]), a["act"], str(a.get("pad", ""))) for a in doc.get("acts", [])),
        key=lambda act: act.at_s,
    )
    return FinishedRun(
        doc["purpose"],
        RunLimits(**limits),
        _of(rows, set(rows) - metal - neighbour - composite),
        _of(rows, metal),
        tuple(acts),
        tuple(map(str, doc.get("release_order", []))),
        _of(rows, neighbour),
        float(doc.get("earlier_metal_above_min", 0)),
        _of(rows, composite),
        float(doc.get("earlier_composite_above_min", 0)),
    )


def _of(rows: Rows, sensors: set[str]) -> Rows:
    return {sensor: one for sensor, one in rows.items() if sensor in sensors}
