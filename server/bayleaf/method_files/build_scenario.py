"""Builds what a method's steps speak of: rivet groups, heat zones, materials, point sets, facts."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from .book import Row
from .figures import exact, positions_of
from .words import said, slug, spaced

FACTS = ("adhesive", "bond", "rivet", "split", "stack_up_mm")
POINT_SETS = ("datum_points", "gap_points", "rivet_points")
SENSORS_OF = {"m": "metal", "n": "neighbour"}  # by its letter, where the file does not say; others: the bond


def groups_of(scenario: Row) -> list[Row]:
    """The rivet groups with their positions written out."""
    return [
        {
            "id": row["id"],
            "name": row.get("name", spaced(row["id"])),
            "positions": positions_of(row["positions"]),
            **said({"where": row.get("where", "")}),
        }
        for row in scenario.get("rivet_groups", [])
    ]


def zones_of(scenario: Row) -> list[Row]:
    """The heat zones; one that is made of others carries their pads and sensors."""
    rows = {row["id"]: row for row in scenario.get("heat_zones", [])}
    sensors = [_sensor(row) for row in scenario.get("sensors_per_zone", [])]
    return [_zone(row, rows, sensors) for row in rows.values()]


def _zone(row: Row, rows: dict[str, Row], sensors: list[Row]) -> Row:
    made_of = row.get("made_of", [])
    parts = [rows[name] for name in made_of]
    pads = [_pad(pad, part["id"]) for part in parts for pad in part["pads"]]
    theirs = [_sensor_in(part, sensor) for part in parts for sensor in sensors]
    return {
        "id": row["id"],
        "name": _name(row),
        "pads": pads if made_of else [_pad(pad, "") for pad in row["pads"]],
        "sensors": theirs if made_of else sensors,
        **said({"where": row.get("where", ""), "made_of": made_of}),
    }


def _name(row: Row) -> str:
    return str(row.get("name", spaced(row["id"])))


def _pad(row: Row, zone: str) -> Row:
    size: Any = row.get("size_mm", [])
    name = row.get("name", row.get("face", row["id"]))
    return {"id": row["id"], "name": name, **said({"size_mm": size, "zone": zone})}


def _sensor(row: Row) -> Row:
    told = sensor_of(row)
    return {"id": row["id"], "name": row["at"], **said({"of": "" if told == "bond" else told})}


def sensor_of(row: Row) -> str:
    """What a thermocouple is on: bond, metal or neighbour."""
    return str(row.get("of", SENSORS_OF.get(row["id"], "bond")))


def _sensor_in(zone: Row, sensor: Row) -> Row:
    return sensor | {"id": f"{zone['id']}_{sensor['id']}", "name": f"{_name(zone)}: {sensor['name']}"}


def materials_of(values: Row) -> list[Row]:
    """The scenario's materials; where it lists none, what the lots of the file are of."""
    listed: list[Row] | None = values["scenario"].get("materials")
    if listed is not None:
        return listed
    found: dict[str, str] = {}
    for words in _lots(values):
        found.setdefault(slug(words), words)
    return [{"id": name, "name": words} for name, words in found.items()]


def _lots(values: Row) -> Iterator[str]:
    for method in values["methods"]:
        for stage in method["stages"]:
            for step in stage["steps"]:
                yield from (ask["of"] for ask in step.get("asks", []) if ask["ask"] == "lot")


def point_sets_of(scenario: Row) -> list[Row]:
    """The sets of measured points that computations name."""
    return [
        {"id": name, "points": [_point(row) for row in scenario[name]]}
        for name in POINT_SETS
        if name in scenario
    ]


def _point(row: Row) -> Row:
    named = {"id": row["id"], "name": row.get("name", row.get("where", row["id"]))}
    return named | said({"at_mm": row.get("at_mm", [])})


def facts_of(scenario: Row) -> list[Row]:
    """Figures and words of the part, flat and sorted: `bond.length_mm`; a range is its low and its high."""
    found = [fact for name in FACTS if name in scenario for fact in _flat(name, scenario[name])]
    return sorted(found, key=lambda fact: str(fact["name"]))


def _flat(name: str, value: Any) -> Iterator[Row]:
    match value:
        case dict():
            for key, inner in value.items():
                yield from _flat(f"{name}.{key}", inner)
        case list():
            for end, inner in zip(("low", "high"), value, strict=True):
                yield from _flat(f"{name}.{end}", inner)
        case int() | Decimal():
            yield {"name": name, **exact(value)}
        case _:
            yield {"name": name, "text": str(value)}
