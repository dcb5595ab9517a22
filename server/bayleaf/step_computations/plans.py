"""What computations know of a heat plan that the office pinned to a zone of a job's method.

The twin of the phone's `plan_figures.ts`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import Any


@dataclass(frozen=True, slots=True)
class PlanFigures:
    """A plan's figures: times in s after switch-on (None: never), temperatures in tenths of a degree C."""

    model: str
    feasible: bool
    ambient_dC: int
    workable_s: int | None
    from_s: int | None
    until_s: int | None
    heat_until_s: int | None
    release_until_s: int | None
    soak_s: int
    window_from_s: int | None
    window_until_s: int | None
    bond_peak_dC: tuple[int, int]
    metal_peak_dC: tuple[int, int]


@dataclass(frozen=True, slots=True)
class ZonePlan:
    """Where a plan is pinned; `plan` is the zone document's digest, `sha256` its response set's."""

    method: str
    zone: str
    plan: str
    sha256: str
    figures: PlanFigures


def figures_of(document: Mapping[str, Any]) -> PlanFigures:
    """As the bundle tells them; members that are not known here are left out."""
    made = {one.name: document[one.name] for one in fields(PlanFigures)}
    for name in ("bond_peak_dC", "metal_peak_dC"):
        low, high = made[name]
        made[name] = (low, high)
    return PlanFigures(**made)
