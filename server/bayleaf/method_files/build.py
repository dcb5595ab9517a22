"""Builds the canonical method document from a method file without faults."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from .figures import positions_of, scaled, seconds

ID_LENGTH = 64
MARGIN = {"removal": "workable_min_C", "cure": "bondline_min_C"}
COPIED = {
    "lot": ("of",),
    "tally": ("group", "to"),
    "countersign": ("of", "other_device", "at_the_car"),
    "compute": ("computation", "groups"),
}

Row = dict[str, Any]


def documents(values: Row, drawings: Mapping[str, str]) -> list[Row]:
    """One document per method of the file, in its order; `drawings` are digests by drawing id."""
    return [_document(values, method, drawings) for method in values["methods"]]


def _document(values: Row, method: Row, drawings: Mapping[str, str]) -> Row:
    scenario = values["scenario"]
    return {
        "form": 1,
        "id": method["id"],
        "title": method["title"],
        "revision": method["revision"],
        "invented": scenario["invented"],
        "conditions": values.get("standing_conditions", []),
        "groups": [_group(row) for row in scenario.get("rivet_groups", [])],
        "zones": [_zone(row, scenario.get("sensors_per_zone", [])) for row in scenario.get("heat_zones", [])],
        "materials": scenario.get("materials", []),
        "drawings": dict(drawings),
        "stages": [
            {
                "id": stage["id"],
                "title": stage["title"],
                "steps": [_step(step, scenario) for step in stage["steps"]],
            }
            for stage in method["stages"]
        ],
    }


def _group(row: Row) -> Row:
    return {
        "id": row["id"],
        "name": row.get("name", spaced(row["id"])),
        "positions": positions_of(row["positions"]),
    }


def _zone(row: Row, sensors: list[Row]) -> Row:
    return {
        "id": row["id"],
        "name": row.get("name", spaced(row["id"])),
        "pads": [
            {"id": pad["id"], "name": pad.get("name", pad.get("face", pad["id"]))} for pad in row["pads"]
        ],
        "sensors": [{"id": sensor["id"], "name": sensor["at"]} for sensor in sensors],
    }


def _step(row: Row, scenario: Row) -> Row:
    return {
        "id": row["id"],
        "title": row["title"],
        "instruction": row["do"].strip(),
        "caution": row.get("caution", ""),
        "tools": row.get("tools", []),
        "who": row.get("who", ["technician"]),
        "people": row.get("people", 1),
        "needs": row.get("needs", []),
        "hold": row.get("hold_point", False),
        "hold_countersign": row.get("deviation_countersign", ""),
        "meanwhile": row.get("meanwhile", []),
        "sets": row.get("sets", []),
        "clears": row.get("clears", []),
        "asks": [_ask(ask, scenario) for ask in row.get("asks", [])],
    }


def _ask(row: Row, scenario: Row) -> Row:
    ask = {"id": row["id"], "kind": row["ask"], "name": row.get("name", spaced(row["id"]))}
    return ask | _of_kind(row, scenario)


def _of_kind(row: Row, scenario: Row) -> Row:
    """What only this kind of ask holds; tick and text hold nothing more."""
    match row["ask"]:
        case "choice":
            return {"options": _options(row)}
        case "reading":
            return _reading(row)
        case "photo":
            return {"show": row["show"], "deadline": row.get("deadline", {}).get("before_step", "")}
        case "heat_run":
            settings = _settings(scenario["heat_settings"][row["purpose"]], row)
            return {"zone": row["zone"], "purpose": row["purpose"], "settings": settings}
        case kind:
            return {key: row[key] for key in COPIED.get(kind, ())}


def _options(row: Row) -> list[Row]:
    stops = row.get("stop_if", [])
    return [{"id": option_id(name), "name": name, "stop": name in stops} for name in row["options"]]


def _reading(row: Row) -> Row:
    decimals = row["decimals"]
    limits: Row = {key: scaled(row[key], decimals) for key in ("min", "max") if key in row}
    if "plausible" in row:
        limits["plausible"] = [scaled(figure, decimals) for figure in row["plausible"]]
    return {"unit": row["unit"], "decimals": decimals, "points": row.get("repeat", []), **limits}


def _settings(figures: Row, ask: Row) -> Row:
    return {
        "sensors_unit": "C",
        "decimals": 0,
        "lagging_min": figures[MARGIN[ask["purpose"]]],
        "leading_max": figures["leading_max_C"],
        "soak_s": seconds(figures["soak_min_minutes"]),
        "gap_max_s": figures["gap_max_seconds"],
        "ramp_s": seconds(figures["ramp_expected_minutes"]),
        "release": ask["release_order"],
        "cold_below": figures["cold_below_C"],
    }


def option_id(name: str) -> str:
    """The id of an option as people read it: `taken out, locked` is `taken_out_locked`."""
    return re.sub(r"[^a-z0-9]+", "_", name.lower()).strip("_")[:ID_LENGTH]


def spaced(name: str) -> str:
    return name.replace("_", " ")
