"""Reads a question from typed JSON: `kind` says what an input is. Shared vectors are written so."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from bayleaf.domain.asks import RivetRow
from bayleaf.fastening.tally import Rivet
from bayleaf.step_computations import inputs as given
from bayleaf.step_computations.plans import figures_of
from bayleaf.step_computations.question import Group, Place, Question
from bayleaf.step_computations.shapes import Value

Json = Mapping[str, Any]


def question_of(computation: str, document: Json) -> Question:
    """The question in a document with `inputs` and, where it has them, the things that it is about."""
    return Question(
        computation=computation,
        inputs={name: input_of(one) for name, one in document["inputs"].items()},
        groups=tuple(Group(one["id"], tuple(one["positions"])) for one in document.get("groups", ())),
        places=tuple(
            Place(one["id"], (one["at_mm"][0], one["at_mm"][1], one["at_mm"][2]))
            for one in document.get("places", ())
        ),
        settings={name: _quantity(one) for name, one in document.get("settings", {}).items()},
        facts={name: _quantity(one) for name, one in document.get("facts", {}).items()},
        damaged=tuple(document.get("damaged", ())),
        asked_at_ms=document.get("asked_at_ms", 0),
        log=tuple((at_ms, value) for at_ms, value in document.get("log", ())),
    )


def input_of(one: Json) -> given.Input:
    """One input by its kind."""
    return _BY_KIND[one["kind"]](one)


def _quantity(one: Json) -> given.Quantity:
    return given.Quantity(one["value"], one["unit"], one["decimals"], one.get("at_ms", 0))


def _points(one: Json) -> given.Points:
    at = tuple((point, value) for point, value in one["at"])
    return given.Points(at, one["unit"], one["decimals"], one.get("at_ms", 0))


def _earlier(one: Json) -> given.Earlier:
    values = tuple(Value(v["name"], v["value"], v["unit"], v["decimals"]) for v in one["values"])
    return given.Earlier(one["computation"], values, one["verdict"], one["at_ms"])


def _run(one: Json) -> given.Run:
    sensors = tuple(
        given.SensorLog(log["sensor"], log["of"], tuple((ms, value) for ms, value in log["points"]))
        for log in one["sensors"]
    )
    return given.Run(
        one["on_ms"],
        one["aborted"],
        one["decimals"],
        one["soak_ms"],
        one["soak_s"],
        one["gap_max_s"],
        sensors,
        one.get("purpose", "removal"),
        tuple(given.RunAct(*act) for act in one.get("acts", ())),
        tuple(one.get("release", ())),
    )


def _rivets(one: Json) -> given.Rivets:
    rivets = tuple(Rivet(r["position"], r["generation"], r["state"], tuple(r["lost"])) for r in one["rivets"])
    return given.Rivets(one["ladder"], rivets)


def table_of(one: Json) -> given.RivetTable:
    """A table of rivet lengths, as vectors and sheets write it."""
    rows = tuple(RivetRow(**row) for row in one["rows"])
    return given.RivetTable(rows, one["unit"], one["decimals"])


_BY_KIND: Final[dict[str, Callable[[Json], given.Input]]] = {
    "quantity": _quantity,
    "points": _points,
    "word": lambda one: given.Word(one["text"]),
    "chosen": lambda one: given.Chosen(one["option"], one["stop"]),
    "moment": lambda one: given.Moment(one["at_ms"]),
    "lots": lambda one: given.Lots(
        tuple(given.Lot(lot["lot"], lot["wrong"], lot["expired"]) for lot in one["lots"])
    ),
    "earlier": _earlier,
    "runs": lambda one: given.Runs(tuple(_run(run) for run in one["runs"])),
    "rivets": _rivets,
    "table": table_of,
    "plan": lambda one: given.Plan(one["plan"], figures_of(one["figures"])),
}
