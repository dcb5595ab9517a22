"""Words for writing a vector: inputs by kind, expected figures, lines."""

from __future__ import annotations

import math
from typing import Any

Json = dict[str, Any]
T0 = 1_800_000_000_000
MIN = 60_000


def q(value: int, unit: str, decimals: int = 0, at_ms: int = 0) -> Json:
    """A reading or a constant, as a whole number of its last decimal."""
    made: Json = {"kind": "quantity", "value": value, "unit": unit, "decimals": decimals}
    return {**made, "at_ms": at_ms} if at_ms else made


def points(unit: str, decimals: int, **at: int) -> Json:
    return {"kind": "points", "at": [list(one) for one in at.items()], "unit": unit, "decimals": decimals}


def table(unit: str, decimals: int, *rows: tuple[int, int, int] | tuple[int, int, int, str]) -> Json:
    """(length, smallest grip, largest grip[, part]) each."""
    names = ("length", "low", "high", "part")
    told = [dict(zip(names, row, strict=False)) for row in rows]
    return {"kind": "table", "rows": told, "unit": unit, "decimals": decimals}


def word(text: str) -> Json:
    return {"kind": "word", "text": text}


def chosen(option: str, *, stop: bool = False) -> Json:
    return {"kind": "chosen", "option": option, "stop": stop}


def moment(at_ms: int) -> Json:
    return {"kind": "moment", "at_ms": at_ms}


def lots(*lots: tuple[str, bool, bool]) -> Json:
    """(lot, wrong, expired) each."""
    return {
        "kind": "lots",
        "lots": [{"lot": lot, "wrong": wrong, "expired": expired} for lot, wrong, expired in lots],
    }


def v(name: str, value: int, unit: str, decimals: int = 0) -> Json:
    return {"name": name, "value": value, "unit": unit, "decimals": decimals}


def earlier(computation: str, verdict: str, *values: Json, at_ms: int = T0) -> Json:
    return {
        "kind": "earlier",
        "computation": computation,
        "values": list(values),
        "verdict": verdict,
        "at_ms": at_ms,
    }


def run(
    on_ms: int,
    sensors: dict[str, list[tuple[int, int]]],
    *,
    soak_ms: int = 0,
    of: dict[str, str] | None = None,
    **more: Any,
) -> Json:
    """Sensor logs as (minute, tenths of a degree)."""
    return {
        "on_ms": on_ms,
        "aborted": False,
        "decimals": 1,
        "soak_ms": soak_ms,
        "soak_s": 3600,
        "gap_max_s": 900,
        "sensors": [
            {
                "sensor": name,
                "of": (of or {}).get(name, "bond"),
                "points": [[m * MIN, value] for m, value in log],
            }
            for name, log in sensors.items()
        ],
        **more,
    }


def runs(*runs: Json) -> Json:
    return {"kind": "runs", "runs": list(runs)}


def rivets(ladder: str, *each: tuple[str, int, str] | tuple[str, int, str, str]) -> Json:
    """(position, generation, state[, lost piece]) each."""
    return {
        "kind": "rivets",
        "ladder": ladder,
        "rivets": [
            {"position": one[0], "generation": one[1], "state": one[2], "lost": list(one[3:])} for one in each
        ],
    }


def group(name: str, *positions: str) -> Json:
    return {"id": name, "positions": list(positions)}


def on_paper(number: float, decimals: int) -> int:
    """Half away from zero, written here anew."""
    scaled: float = abs(number) * 10**decimals
    whole = math.floor(scaled)
    up: int = whole + 1 if scaled - whole >= 0.5 - 1e-9 else whole
    return -up if number < 0 else up


def fig(name: str, number: float, unit: str, decimals: int) -> Json:
    return v(name, on_paper(number, decimals), unit, decimals)


def case(
    about: str,
    source: str,
    inputs: Json,
    values: list[Json] | None = None,
    verdict: str = "",
    **more: Any,
) -> Json:
    """A vector; without values it is a refusal, and `more` says `refused`."""
    told = {} if values is None else {"values": values, "verdict": verdict}
    return {"about": about, "source": source, "inputs": inputs, **told, **more}
