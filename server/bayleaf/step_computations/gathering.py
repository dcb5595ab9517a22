"""A computation's question, gathered from earlier entries, with the hashes of those that it rests on.

The twin of the phone's `compute_inputs.ts`: same entries, same question.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from typing import Final

from bayleaf.domain.asks import AnswerRef, ComputeAsk, ComputeInput, HeatSettings, TallyAsk
from bayleaf.domain.fold.log import read_log
from bayleaf.domain.fold.tally import (
    UNTOUCHED,
    Ladder,
    is_counted,
    ladder_to,
    read_tally,
    reconciliation_inputs,
)
from bayleaf.domain.fold.tally import Position as Recorded
from bayleaf.domain.method import MethodDoc
from bayleaf.fastening.tally import Rivet
from bayleaf.step_computations import inputs as given
from bayleaf.step_computations.question import Group, Place, Question
from bayleaf.step_computations.record import Record
from bayleaf.step_computations.sheet_inputs import from_sheets
from bayleaf.step_computations.sources import Read, read_answer

_TIMES: Final = ("started",)
_UNITS: Final = {
    "soak_s": "s",
    "gap_max_s": "s",
    "ramp_s": "s",
    "ramp_max": "K/min",
    "cooling_max": "K/min",
}
_NO_FIGURE: Final = ("sensors_unit", "decimals", "release")


@dataclass(frozen=True, slots=True)
class Gathered:
    """The question, the sorted hashes of the entries used, and the answers that are not there yet.

    `tables` are the sorted digests of what it rests on beside entries: suppliers' sheets, response sets.
    """

    question: Question
    hashes: tuple[str, ...]
    waits: tuple[AnswerRef, ...]
    tables: tuple[str, ...] = ()


def gather(record: Record, method: MethodDoc, ask: ComputeAsk, asked_at_ms: int = 0) -> Gathered:
    """The question of an ask of a method; nothing is worked out while `waits` names something."""
    read = {one.name: _read(record, one) for one in ask.inputs}
    sheets = from_sheets(record, ask)
    answered = {name: one.input for name, one in read.items() if one.input is not None}
    inputs: dict[str, given.Input] = {**answered, **sheets.inputs}
    for name in sheets.instead_of:
        inputs.pop(name, None)
    plan = record.plan(method.id, ask.zone) if ask.computation == "heat_plan" else None
    if plan is not None:
        inputs["plan"] = given.Plan(plan.plan, plan.figures)
    rivets, tallied = _tallies(record, method, ask)
    damaged = list(_damaged(record, ask))
    question = Question(
        computation=ask.computation,
        inputs=inputs if rivets is None else {**inputs, "tallies": rivets},
        groups=tuple(Group(one.id, one.positions) for one in method.groups if one.id in ask.groups),
        places=tuple(_places(method, ask.points)),
        settings=_settings(record, ask),
        facts={**_facts(record), **sheets.facts},
        damaged=tuple(dict.fromkeys(position for position, _ in damaged)),
        asked_at_ms=asked_at_ms if any(name in inputs for name in _TIMES) else 0,
        log=_log(record, ask, inputs),
    )
    hashes = {one for answer in read.values() for one in answer.hashes}
    hashes |= tallied | {one for _, one in damaged}
    waits = tuple(wait for one in read.values() for wait in one.waits)
    return Gathered(
        question,
        tuple(sorted(hashes)),
        waits,
        tuple(sorted((*sheets.digests, *([plan.sha256] if plan else ())))),
    )


def _facts(record: Record) -> dict[str, given.Quantity]:
    """Figures of all pinned methods; the later method's word counts."""
    return {
        fact.name: given.Quantity(fact.value, "", fact.decimals)
        for one in record.methods
        for fact in one.facts
        if fact.value is not None
    }


def _read(record: Record, one: ComputeInput) -> Read:
    if one.text:
        return Read(given.Word(one.text))
    if one.rows:
        return Read(given.RivetTable(one.rows, one.unit, one.decimals))
    if one.value is not None:
        return Read(given.Quantity(one.value, one.unit, one.decimals))
    found = [read_answer(record, ref, as_time=one.name in _TIMES) for ref in one.sources]
    runs = tuple(run for read in found if isinstance(read.input, given.Runs) for run in read.input.runs)
    return Read(
        given.Runs(runs) if runs else found[0].input if found else None,
        tuple(used for read in found for used in read.hashes),
        tuple(wait for read in found for wait in read.waits),
    )


def _log(record: Record, ask: ComputeAsk, inputs: Mapping[str, given.Input]) -> tuple[tuple[int, int], ...]:
    """Every unstruck reading of the coldest place since the start, those that a later one replaced too."""
    started, coldest = inputs.get("started"), inputs.get("coldest")
    if not isinstance(started, given.Moment) or not isinstance(coldest, given.Quantity):
        return ()
    out = {struck["target"] for struck in record.state["struck"]} | set(record.state["aside"])
    refs = {
        (ref.method, ref.step, ref.ask) for one in ask.inputs if one.name == "coldest" for ref in one.sources
    }
    return tuple(
        sorted(
            (entry.at_ms, int(entry.body["value"]))
            for entry in record.entries.values()
            if entry.kind == "reading"
            and "run" not in entry.body
            and (entry.body["method"], entry.body["step"], entry.body["ask"]) in refs
            and entry.body["decimals"] == coldest.decimals
            and entry.hash not in out
            and entry.at_ms >= started.at_ms
        )
    )


def _places(method: MethodDoc, points: str) -> Iterator[Place]:
    for one in method.point_sets:
        if one.id == points:
            yield from (Place(point.id, point.at_mm) for point in one.points if point.at_mm is not None)


def _settings(record: Record, ask: ComputeAsk) -> dict[str, given.Quantity]:
    """Settings of the run of that zone and purpose, where a pinned method has one."""
    if not ask.zone or not ask.purpose:
        return {}
    for one in record.heat_asks():
        if (one.zone, one.purpose) == (ask.zone, ask.purpose):
            return quantities_of(one.settings)
    return {}


def quantities_of(settings: HeatSettings) -> dict[str, given.Quantity]:
    """The settings of a run as a question has them."""
    made: dict[str, given.Quantity] = {}
    for name in (field.name for field in fields(settings) if field.name not in _NO_FIGURE):
        value = getattr(settings, name)
        unit = _UNITS.get(name, settings.sensors_unit)
        if value is not None:
            made[name] = given.Quantity(value, unit, 0 if unit == "s" else settings.decimals)
    return made


def ladder_of(record: Record, ask: ComputeAsk) -> Ladder:
    """On which half of the ladder the named tallies are counted; "" where the method names none."""
    for one in ask.inputs:
        for ref in one.sources:
            at = record.find(ref.method, ref.step, ref.ask)
            if at is not None and isinstance(at.ask, TallyAsk):
                return ladder_to(at.ask.to)
    return ""


def _tallies(record: Record, method: MethodDoc, ask: ComputeAsk) -> tuple[given.Rivets | None, set[str]]:
    """The rivets of the groups: those found on the car for taking out, those set for setting, else all."""
    if ask.computation != "tally_reconciliation":
        return None, set()
    spots = read_tally(read_log(record.entries.values()))
    ladder = ladder_of(record, ask)
    positions = [name for group in ask.groups for name in method.group_positions(group)]
    rivets = [
        _rivet(name, spot, generation)
        for name in positions
        for spot in (spots.get(name, UNTOUCHED),)
        for generation in sorted(_generations(spot))
        if is_counted(generation, ladder)
    ]
    hashes = set(reconciliation_inputs(spots, positions, ladder))
    return given.Rivets(ladder or "taking_out", tuple(rivets)), hashes


def _generations(spot: Recorded) -> set[int]:
    return {entry.body["generation"] for entry in spot.entries}


def _rivet(position: str, spot: Recorded, generation: int) -> Rivet:
    lost = tuple(
        mark.body["piece"]
        for mark in spot.open_losts
        if mark.body["generation"] == generation and mark.body["piece"]
    )
    return Rivet(position, generation, spot.state(generation), lost)


def _damaged(record: Record, ask: ComputeAsk) -> Iterator[tuple[str, str]]:
    """Open marks of damaged holes at the groups' positions, for a decision about holes."""
    if ask.computation != "hole_decision":
        return
    for at in record.state["positions"]:
        if at["group"] in ask.groups:
            yield from (
                (at["position"], mark["hash"])
                for mark in at["marks"]
                if mark["mark"] == "damaged_hole" and mark["open"]
            )
