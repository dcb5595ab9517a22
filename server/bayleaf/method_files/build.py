"""Builds the canonical method document from a method file without faults.

A member that the language gained later is written only where it says something, so that a method that
does not use it keeps its steps to the byte.
"""

from __future__ import annotations

from collections.abc import Mapping

from .book import Book, Row
from .build_asks import ask_of
from .build_scenario import facts_of, groups_of, materials_of, point_sets_of, zones_of
from .index import Index, StepAt, index_of
from .words import said


def documents(book: Book, drawings: Mapping[str, str], maps: list[Row]) -> list[Row]:
    """One document per method of the file, in its order; `drawings` are digests by drawing id."""
    index = index_of(book)
    methods = book.source.values["methods"]
    return [_document(book.source.values, index, method, drawings, maps) for method in methods]


def _document(values: Row, index: Index, method: Row, drawings: Mapping[str, str], maps: list[Row]) -> Row:
    scenario = values["scenario"]
    document = {
        "form": 1,
        "id": method["id"],
        "title": method["title"],
        "revision": method["revision"],
        "invented": scenario["invented"],
        "conditions": values.get("standing_conditions", []),
        "groups": groups_of(scenario),
        "zones": zones_of(scenario),
        "materials": materials_of(values),
        "drawings": dict(drawings),
        "stages": [
            {
                "id": stage["id"],
                "title": stage["title"],
                "steps": [_step(index.steps[step["id"]], scenario, index) for step in stage["steps"]],
            }
            for stage in method["stages"]
        ],
    }
    grown = {
        "vehicle": scenario.get("vehicle", ""),
        "part": scenario.get("part", ""),
        "needs_method": method.get("needs_method", ""),
        "point_sets": point_sets_of(scenario),
        "maps": maps,
        "facts": facts_of(scenario),
    }
    return document | said(grown)


def _step(step: StepAt, scenario: Row, index: Index) -> Row:
    row = step.row
    return {
        "id": row["id"],
        "title": row["title"],
        "instruction": row["do"].strip(),
        "caution": row.get("caution", ""),
        "tools": row.get("tools", []),
        "who": row.get("who", ["technician"]),
        "people": row.get("people", 1),
        "needs": [_need(need, step, index) for need in row.get("needs", [])],
        "hold": row.get("hold_point", False),
        "hold_countersign": row.get("deviation_countersign", ""),
        "meanwhile": row.get("meanwhile", []),
        "sets": row.get("sets", []),
        "clears": row.get("clears", []),
        "asks": [ask_of(ask, scenario, index) for ask in index.asks_of(step)],
        **said({"minutes": row.get("minutes")}),
    }


def _need(need: str, step: StepAt, index: Index) -> str:
    """A step of another method is told with its method: `removal/rem-41`."""
    wanted = index.steps[need.partition("@")[0]]
    return need if wanted.method == step.method else f"{wanted.method}/{need}"
