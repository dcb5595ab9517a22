"""What earlier steps answer a computation: each answer as it stands, typed, with its entries' hashes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from bayleaf.domain.asks import (
    AnswerRef,
    Ask,
    ChoiceAsk,
    ComputeAsk,
    HeatAsk,
    LotAsk,
    ReadingAsk,
    TallyAsk,
    TextAsk,
    TickAsk,
)
from bayleaf.domain.entries import Entry
from bayleaf.domain.fold.log import read_log
from bayleaf.domain.fold.tally import Ladder, Position, Tally, is_counted, read_tally, reconciliation_inputs
from bayleaf.domain.method import TAKING_OUT, MethodDoc, StepDoc
from bayleaf.domain.state import CardState, RunState
from bayleaf.step_computations import inputs as given
from bayleaf.step_computations.shapes import Value


@dataclass(frozen=True)
class Job:
    """A job as a computation reads it."""

    methods: Mapping[str, MethodDoc]
    state: CardState
    entries: Mapping[str, Entry]

    def step(self, ref: AnswerRef) -> tuple[MethodDoc, StepDoc] | None:
        for method in self.methods.values():
            step = method.step(ref.step)
            if method.id == ref.method and step is not None:
                return method, step
        return None

    def shown(self, kind: str, ref: AnswerRef, point: str) -> Entry | None:
        """The value that answers; one that was sent back answers nothing."""
        key = (kind, ref.method, ref.step, ref.ask, point)
        for one in self.state["registers"]:
            here = (one["kind"], one["method"], one["step"], one["ask"], one["point"])
            if here == key and one["shown"] and one["shown"] not in one["sent_back"]:
                return self.entries[one["shown"]]
        return None


@dataclass(frozen=True)
class Found:
    """An input, None where nothing answers, and the entries that it rests on."""

    input: given.Input | None
    hashes: tuple[str, ...] = ()


NOTHING = Found(None)


def answer_at(job: Job, ref: AnswerRef, *, as_time: bool) -> Found:
    """What an answer of some step gives; `as_time` takes it for when it was given."""
    place = job.step(ref)
    ask = place[1].ask(ref.ask) if place else None
    if place is None or ask is None:
        return NOTHING
    match ask:
        case ReadingAsk():
            return _reading(job, ref, ask, as_time=as_time)
        case TickAsk() | TextAsk() | ChoiceAsk():
            return _value(job, ref, ask, as_time=as_time)
        case ComputeAsk():
            return _result(job, ref)
        case LotAsk():
            return _lots(job, ref, ask)
        case HeatAsk():
            return _runs(job, ref, ask)
        case _:
            return NOTHING


def _reading(job: Job, ref: AnswerRef, ask: ReadingAsk, *, as_time: bool) -> Found:
    points = (ref.point,) if ref.point else ask.point_ids()
    found = [(point, job.shown("reading", ref, point)) for point in points]
    read = [(point, entry) for point, entry in found if entry is not None]
    if len(read) < len(points):
        return NOTHING
    at_ms = max(entry.at_ms for _, entry in read)
    hashes = tuple(entry.hash for _, entry in read)
    if as_time:
        return Found(given.Moment(at_ms), hashes)
    if len(read) == 1:
        return Found(given.Quantity(read[0][1].body["value"], ask.unit, ask.decimals, at_ms), hashes)
    at = tuple((point, int(entry.body["value"])) for point, entry in read)
    return Found(given.Points(at, ask.unit, ask.decimals, at_ms), hashes)


def _value(job: Job, ref: AnswerRef, ask: TickAsk | TextAsk | ChoiceAsk, *, as_time: bool) -> Found:
    kind = {TickAsk: "tick", TextAsk: "text", ChoiceAsk: "choice"}[type(ask)]
    entry = job.shown(kind, ref, "")
    return NOTHING if entry is None else Found(_typed(entry, ask, as_time=as_time), (entry.hash,))


def _typed(entry: Entry, ask: Ask, *, as_time: bool) -> given.Input:
    if as_time or isinstance(ask, TickAsk):
        return given.Moment(entry.at_ms)
    if isinstance(ask, ChoiceAsk):
        option = entry.body["option"]
        return given.Chosen(option, any(one.id == option and one.stop for one in ask.options))
    return given.Word(entry.body["value"])


def _result(job: Job, ref: AnswerRef) -> Found:
    entry = job.shown("result", ref, "")
    if entry is None:
        return NOTHING
    body = entry.body
    values = tuple(Value(v["name"], v["value"], v["unit"], v["decimals"]) for v in body["values"])
    return Found(given.Earlier(body["computation"], values, body["verdict"], entry.at_ms), (entry.hash,))


def _lots(job: Job, ref: AnswerRef, ask: LotAsk) -> Found:
    key = (ref.method, ref.step, ref.ask)
    rows = [row for row in job.state["lots"] if (row["method"], row["step"], row["ask"]) == key]
    entries = [job.entries[value] for row in rows for value in row["answers"]]
    if not entries:
        return NOTHING
    lots = tuple(_lot(entry, entry.body, ask) for entry in entries)
    return Found(given.Lots(lots), tuple(entry.hash for entry in entries))


def _lot(entry: Entry, body: Mapping[str, Any], ask: LotAsk) -> given.Lot:
    expired = body["expires_ms"] != 0 and entry.at_ms > body["expires_ms"]
    return given.Lot(body["lot"], body["material"] != ask.of, expired)


def _runs(job: Job, ref: AnswerRef, ask: HeatAsk) -> Found:
    """Runs that were begun for the ask and not aborted, the oldest first."""
    begun = ask.continues or ref
    key = (begun.method, begun.step, begun.ask)
    states = [
        run
        for run in job.state["runs"]
        if not run["aborted"] and (run["method"], run["step"], run["ask"]) == key
    ]
    if not states:
        return NOTHING
    runs = sorted((_run(job, run) for run in states), key=lambda run: run.on_ms)
    return Found(given.Runs(tuple(runs)), tuple(h for run in states for h in (run["run"], *run["readings"])))


def _run(job: Job, run: RunState) -> given.Run:
    place = job.step(AnswerRef(run["method"], run["step"], run["ask"]))
    ask = place[1].ask(run["ask"]) if place else None
    zone = place[0].zone(run["zone"]) if place else None
    assert isinstance(ask, HeatAsk)  # noqa: S101  (the fold lists runs of heat asks)
    assert zone is not None  # noqa: S101
    readings = [job.entries[value].body for value in run["readings"]]
    acts = [job.entries[value].body for value in run["acts"]]
    return given.Run(
        on_ms=job.entries[run["run"]].at_ms,
        aborted=run["aborted"],
        decimals=ask.settings.decimals,
        soak_ms=run["soak_ms"],
        soak_s=ask.settings.soak_s,
        gap_max_s=ask.settings.gap_max_s,
        sensors=tuple(
            given.SensorLog(sensor.id, sensor.of, _log(readings, sensor.id)) for sensor in zone.sensors
        ),
        purpose="cure" if run["purpose"] == "cure" else "removal",
        acts=tuple(given.RunAct(act["act"], act["pad"], act["run_ms"]) for act in acts),
        release=ask.settings.release,
    )


def _log(readings: list[Mapping[str, Any]], sensor: str) -> tuple[tuple[int, int], ...]:
    points = [point for body in readings if body["sensor"] == sensor for point in body["points"]]
    return tuple((int(run_ms), int(value)) for run_ms, value in sorted(points, key=lambda one: one[0]))


def rivets_of(job: Job, method: MethodDoc, ask: ComputeAsk) -> tuple[given.Rivets, tuple[str, ...]]:
    """Every rivet of the groups with its open losts, for a reconciliation, and all that it rests on."""
    tally = read_tally(read_log(job.entries.values()))
    ladder = _ladder(job, ask)
    rivets = [
        rivet
        for group in method.groups
        if group.id in ask.groups
        for name in group.positions
        for rivet in _rivets(name, tally.get(name))
        if is_counted(rivet.generation, ladder)
    ]
    return given.Rivets(ladder or "taking_out", tuple(rivets)), _resting_on(tally, method, ask, ladder)


def _resting_on(tally: Tally, method: MethodDoc, ask: ComputeAsk, ladder: Ladder) -> tuple[str, ...]:
    positions = [name for group in ask.groups for name in method.group_positions(group)]
    return tuple(reconciliation_inputs(tally, positions, ladder))


def _ladder(job: Job, ask: ComputeAsk) -> Ladder:
    """On which half of the ladder the tallies of a computation are counted."""
    for one in ask.inputs:
        for ref in one.sources:
            place = job.step(ref)
            found = place[1].ask(ref.ask) if place else None
            if isinstance(found, TallyAsk):
                return "taking_out" if found.to in TAKING_OUT else "setting"
    return ""


def _rivets(name: str, position: Position | None) -> Iterator[given.Rivet]:
    if position is None:
        return
    for generation in sorted({entry.body["generation"] for entry in position.entries}):
        lost = tuple(m.body["piece"] for m in position.open_losts if m.body["generation"] == generation)
        yield given.Rivet(name, generation, position.state(generation), lost)


def damaged_of(job: Job, method: MethodDoc, ask: ComputeAsk) -> dict[str, str]:
    """Positions of a hole decision with an open mark of a damaged hole, and the mark."""
    if ask.computation != "hole_decision":
        return {}
    positions = {name for group in ask.groups for name in method.group_positions(group)}
    return {
        row["position"]: mark["hash"]
        for row in job.state["positions"]
        for mark in row["marks"]
        if row["position"] in positions and mark["mark"] == "damaged_hole" and mark["open"]
    }
