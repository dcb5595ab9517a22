"""Builds a heat run's ask: its zone, its parts, and the settings that the run is judged by."""

from __future__ import annotations

from typing import Any

from .book import Row
from .figures import seconds
from .heat_references import PARTS
from .index import AskAt, Index
from .words import said

# Taken where the file does not say; common practice, no source.
GAP_MAX_S = 300
RAMP_S = 2700

OPTIONAL = {
    "metal_max": "metal_max_C",
    "neighbour_max": "neighbour_max_C",
    "ramp_max": "ramp_max_K_per_min",
    "cooling_max": "cooling_max_K_per_min",
    "lift_below": "lift_pads_below_C",
    "setpoint": "pad_setpoint_C",
}


def heat_of(ask: AskAt, scenario: Row, index: Index) -> Row:
    """Zone, purpose and settings, and the parts where they are not all of the run."""
    row = ask.row
    parts = [part for part in PARTS if part in row.get("parts", PARTS)]
    return {
        "zone": row["zone"],
        "purpose": row["purpose"],
        "settings": _settings(scenario["heat_settings"][row["purpose"]], _release(ask, scenario, index)),
        **said({"parts": [] if parts == list(PARTS) else parts}),
    }


def _settings(figures: Row, release: list[str]) -> Row:
    ramp = figures.get("ramp_expected_minutes")
    settings = {
        "sensors_unit": "C",
        "decimals": 0,
        "lagging_min": _first(figures, "workable_min_C", "bondline_min_C"),
        "leading_max": _first(figures, "leading_max_C", "bondline_max_C"),
        "soak_s": seconds(_first(figures, "soak_min_minutes", "hold_minutes")),
        "gap_max_s": figures.get("gap_max_seconds", GAP_MAX_S),
        "ramp_s": RAMP_S if ramp is None else seconds(ramp),
        "release": release,
        "cold_below": figures["cold_below_C"],
    }
    return settings | {name: figures[key] for name, key in OPTIONAL.items() if key in figures}


def _first(figures: Row, *keys: str) -> Any:
    return next(figures[key] for key in keys if key in figures)


def _release(ask: AskAt, scenario: Row, index: Index) -> list[str]:
    """The run's order of release: from whichever of its steps says it, else the pads as they stand."""
    begun = ask.row.get("continues", f"{ask.step.id}.{ask.id}")
    of_run = [
        one.row["release_order"]
        for one in (ask, *index.asks.values())
        if one.row.get("continues", f"{one.step.id}.{one.id}") == begun and "release_order" in one.row
    ]
    return list(of_run[0]) if of_run else pads_as_listed(scenario, ask.row["zone"])


def pads_as_listed(scenario: Row, zone: str) -> list[str]:
    """The pads of a zone as the file lists them."""
    rows = {row["id"]: row for row in scenario["heat_zones"]}
    parts = rows[zone].get("made_of", [zone])
    return [pad["id"] for part in parts for pad in rows[part]["pads"]]
