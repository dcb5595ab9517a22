"""Builds each ask of a step as the document holds it."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from .book import Row
from .build_heat import heat_of
from .figures import exact, scaled
from .index import AskAt, Index
from .length_tables import built_table
from .words import option_id, said, slug, spaced

COPIED = {
    "tally": ("group", "to"),
    "countersign": ("of", "other_device", "at_the_car"),
}


def ask_of(ask: AskAt, scenario: Row, index: Index) -> Row:
    """One ask; the members of its kind, then on what it depends."""
    row = ask.row
    built = {"id": row["id"], "kind": row["ask"], "name": row.get("name", spaced(row["id"]))}
    return built | _of_kind(ask, scenario, index) | _when(row)


def answer_of(words: str, index: Index) -> Row:
    """An earlier answer: `rem-21.pieces.shanks` with the method that its step is of."""
    step, _, rest = words.partition(".")
    ask, _, point = rest.partition(".")
    return {"method": index.steps[step].method, "step": step, "ask": ask, **said({"point": point})}


def _when(row: Row) -> Row:
    told = [{"ask": ask, "option": option_id(name)} for ask, name in row.get("when", {}).items()]
    return {"when": told[0]} if told else {}


def _of_kind(ask: AskAt, scenario: Row, index: Index) -> Row:
    """What only this kind of ask holds; a tick holds nothing more."""
    row = ask.row
    match row["ask"]:
        case "text":
            return said({"of": row.get("of", "")})
        case "choice":
            return {"options": _options(row)}
        case "reading":
            return _reading(row, index)
        case "photo":
            return _photo(row)
        case "lot":
            return {"of": slug(row["of"])}
        case "heat_run":
            return heat_of(ask, scenario, index) | _answers(row, ("continues",), index)
        case "compute":
            return _compute(row, index)
        case kind:
            return {key: row[key] for key in COPIED.get(kind, ())}


def _options(row: Row) -> list[Row]:
    stops = row.get("stop_if", [])
    return [{"id": option_id(name), "name": name, "stop": name in stops} for name in row["options"]]


def _reading(row: Row, index: Index) -> Row:
    decimals = row["decimals"]
    limits: Row = {key: scaled(row[key], decimals) for key in ("min", "max") if key in row}
    if "plausible" in row:
        limits["plausible"] = [scaled(figure, decimals) for figure in row["plausible"]]
    read = {"unit": row["unit"], "decimals": decimals, "points": row.get("repeat", [])}
    needed = said({"where_needed": row.get("where_needed") or None})
    return read | limits | _answers(row, ("against", "since"), index) | needed


def _answers(row: Row, keys: tuple[str, ...], index: Index) -> Row:
    return {key: answer_of(row[key], index) for key in keys if key in row}


def _photo(row: Row) -> Row:
    deadline = row.get("deadline", {}).get("before_step", "")
    drawn = said({"framing": row.get("framing", ""), "outline": row.get("outline", "")})
    return {"show": row["show"], "deadline": deadline, **drawn}


def _compute(row: Row, index: Index) -> Row:
    inputs = [_input(name, given, index) for name, given in sorted(row.get("inputs", {}).items())]
    about = said({key: row.get(key, "") for key in ("zone", "purpose", "points")})
    groups = row.get("groups", [])
    return {"computation": row["computation"], "groups": groups, **about, **said({"inputs": inputs})}


def _input(name: str, given: Any, index: Index) -> Row:
    match given:
        case {"value": int() | Decimal() as value, "unit": unit}:
            return {"name": name, "unit": unit, **exact(value)}
        case {"rows": list() as rows, "unit": unit}:
            return built_table(name, rows, unit)
        case {"value": text, "unit": unit}:
            return {"name": name, "text": text, "unit": unit}
        case list():
            return {"name": name, "from": [answer_of(words, index) for words in given], "many": True}
    return {"name": name, "from": [answer_of(given, index)]}
