"""Reference cases of fastening and bonding, asked through the commands, and how their answers compare.

Each case carries its published source, tolerance and provenance; made without the code that it checks.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from click.testing import CliRunner

from bayleaf.cli import main

HERE = Path(__file__).parent
REFUSED = 3

# Which computation answers a case: by the beginning of its id, the longest that fits.
ROUTES = {
    "fastening": {
        "rivet-table-15981": "rivet-table",
        "rivet-hole-table": "hole-table",
        "rivet-table-length": "rivet-lengths",
        "rivet-body": "rivet-body",
        "grip": "grip",
        "grip-multi-range": "grip-offered",
        "edge": "edge",
        "pitch": "pitch",
        "pitch-added": "pitch-added",
        "pitch-two-diameters": "pitch-pair",
        "hole": "hole",
        "galvanic": "galvanic-pair",
        "galvanic-rivet": "galvanic-rivet",
        "tally": "tally",
        "tally-found": "tally-events",
        "tally-signed": "tally-events",
        "bit": "bits",
        "pick": "pick-line",
        "pick-grouped": "pick-list",
        "vin": "vin",
    },
    "bonding": {
        "dew": "dew-point",
        "dew-rule": "margin",
        "dew-rule-full": "dew-point",
        "dew-trend": "margin-trend",
        "cure": "cure-time",
        "cure-doubling-published": "cure-rate",
        "cure-implied": "implied-energy",
        "cure-forecast": "cure-forecast",
        "cure-floor": "cure-against-sheet",
        "open-time": "open-time",
        "open-time-step": "open-time-step",
        "bead": "bead",
        "bead-pressed": "bead-pressed",
        "bead-height": "bead-height",
        "bead-over": "bead-over-gaps",
        "bondline-gaps": "bondline-gaps",
        "cartridges": "cartridges",
        "mix": "mix",
        "mismatch-free": "mismatch-travel",
        "mismatch-bound": "mismatch-bound",
        "mismatch-shear-lag": "mismatch-shear-lag",
        "mismatch-double-lap": "double-lap",
        "mismatch-aluminium": "expansion-aluminium",
        "mismatch-steel": "expansion-steel",
        "mismatch-laminate": "expansion-laminate",
        "fit": "best-fit",
        "burn": "burn",
    },
}
# Said of every log at once, so no one document asks for it: the property tests hold it.
PROPERTIES = {"cure-property-monotone"}


@dataclass(frozen=True)
class Case:
    """One case, and the command that answers it."""

    id: str
    command: str
    computation: str
    source: str
    inputs: dict[str, Any]
    expected: dict[str, Any]
    tolerance: dict[str, Any]

    def __str__(self) -> str:
        return self.id


def cases_of(command: str) -> list[Case]:
    """All cases of a command, each routed to its computation."""
    document = json.loads((HERE / f"{command}_cases.json").read_text("utf-8"))
    return [
        Case(
            id=one["id"],
            command=command,
            computation=_route(command, one["id"]),
            source=one["source"],
            inputs=one["inputs"],
            expected=one["expected"],
            tolerance=one["tolerance"],
        )
        for one in document["cases"]
        if one["id"] not in PROPERTIES
    ]


def examined_of(command: str) -> list[Case]:
    """More cases of the same families, at and just beyond limits; each names its computation itself."""
    document = json.loads((HERE / f"{command}_examined.json").read_text("utf-8"))
    return [Case(command=command, **one) for one in document["cases"]]


def ask(command: str, computation: str, inputs: Any) -> dict[str, Any]:
    """The answer of `bayleaf COMMAND COMPUTATION -`, which must end with 0, or 2 where it refuses."""
    written = inputs if isinstance(inputs, str) else json.dumps(inputs)
    ran = CliRunner().invoke(main, [command, computation, "-"], input=written)
    answer: dict[str, Any] = json.loads(ran.stdout)
    refused = answer["result"].get("refused") is True
    assert ran.exit_code == (REFUSED if refused else 0), ran.output
    assert bool(ran.stderr) is refused
    return answer


def differences(case: Case, result: dict[str, Any]) -> list[str]:
    """Where a result leaves the case's tolerance, as sentences; none if it passes."""
    return [
        f"{key}: {result.get(key)!r}, expected {wanted!r} within {case.tolerance[key]} ({case.source})"
        for key, wanted in case.expected.items()
        if not agrees(result.get(key, "nothing"), wanted, case.tolerance[key])
    ]


def agrees(found: Any, wanted: Any, tolerance: Any) -> bool:
    """Equal, or within the tolerance for every number of a list or map."""
    match wanted:
        case dict():
            same = isinstance(found, dict) and found.keys() == wanted.keys()
            return same and all(agrees(found[key], wanted[key], tolerance) for key in wanted)
        case list():
            same = isinstance(found, list) and len(found) == len(wanted)
            return same and all(agrees(a, b, tolerance) for a, b in zip(found, wanted, strict=True))
        case bool() | str() | None:
            return bool(found == wanted and type(found) is type(wanted))
        case _ if tolerance == "exact":
            return bool(found == wanted)
        case _:
            return isinstance(found, int | float) and abs(found - wanted) <= tolerance


def _route(command: str, case_id: str) -> str:
    routes = ROUTES[command]
    return routes[max((start for start in routes if case_id.startswith(start)), key=len)]
