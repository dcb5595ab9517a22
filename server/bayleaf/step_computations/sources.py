"""Where the inputs of a computation come from: each answer as it stands, or what is still waited for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bayleaf.domain.asks import (
    AnswerRef,
    ChoiceAsk,
    ComputeAsk,
    HeatAsk,
    HeatSettings,
    LotAsk,
    ReadingAsk,
    TextAsk,
    TickAsk,
)
from bayleaf.domain.entries import Entry
from bayleaf.domain.part import Zone
from bayleaf.domain.state import RunState
from bayleaf.step_computations import inputs as given
from bayleaf.step_computations.record import Found, Record
from bayleaf.step_computations.shapes import Value


@dataclass(frozen=True, slots=True)
class Read:
    """What one answer gives; the input is None while it waits, and where nothing was asked."""

    input: given.Input | None = None
    hashes: tuple[str, ...] = ()
    waits: tuple[AnswerRef, ...] = ()


def read_answer(record: Record, ref: AnswerRef, *, as_time: bool) -> Read:
    """An answer of some step; `as_time` takes it for when it was given."""
    at = record.find(ref.method, ref.step, ref.ask)
    if at is None:
        return Read(waits=(ref,))
    if not at.is_asked:
        return _not_asked(at, ref)
    match at.ask:
        case ReadingAsk():
            return _reading(record, at, at.ask, ref, as_time=as_time)
        case TickAsk() | TextAsk() | ChoiceAsk():
            return _value(record, at, ref, as_time=as_time)
        case ComputeAsk():
            return _result(record, at, ref)
        case LotAsk():
            return _lots(record, at, at.ask, ref)
        case HeatAsk():
            return _runs(record, at.ask, ref)
        case _:
            return Read()


def _not_asked(at: Found, ref: AnswerRef) -> Read:
    """Left out; but while the choice that it hangs on is open, that choice is waited for."""
    when = at.ask.when
    if when is None or when.ask not in at.state["open"]:
        return Read()
    return Read(waits=(AnswerRef(ref.method, ref.step, when.ask),))


def _reading(record: Record, at: Found, ask: ReadingAsk, ref: AnswerRef, *, as_time: bool) -> Read:
    points = (ref.point,) if ref.point else ask.point_ids()
    read = [(point, record.answer("reading", at, point)) for point in points]
    waits = tuple(AnswerRef(ref.method, ref.step, ref.ask, point) for point, entry in read if entry is None)
    found = [(point, entry) for point, entry in read if entry is not None]
    if ask.where_needed and not found:
        return Read()
    if waits and not ask.where_needed:
        return Read(waits=waits)
    at_ms = max(entry.at_ms for _, entry in found)
    hashes = tuple(entry.hash for _, entry in found)
    if as_time:
        return Read(given.Moment(at_ms), hashes)
    values = tuple((point, int(entry.body["value"])) for point, entry in found)
    if len(points) == 1:
        return Read(given.Quantity(values[0][1], ask.unit, ask.decimals, at_ms), hashes)
    return Read(given.Points(values, ask.unit, ask.decimals, at_ms), hashes)


def read_so_far(record: Record, ref: AnswerRef) -> given.Points | None:
    """What is read so far at the points of a reading; None where nothing is, or where it has no points."""
    at = record.find(ref.method, ref.step, ref.ask)
    if at is None or not isinstance(at.ask, ReadingAsk) or not at.ask.points:
        return None
    read = [(point, record.answer("reading", at, point)) for point in at.ask.point_ids()]
    values = tuple((point, int(entry.body["value"])) for point, entry in read if entry is not None)
    return given.Points(values, at.ask.unit, at.ask.decimals) if values else None


def _value(record: Record, at: Found, ref: AnswerRef, *, as_time: bool) -> Read:
    kind = "tick" if isinstance(at.ask, TickAsk) else "choice" if isinstance(at.ask, ChoiceAsk) else "text"
    entry = record.answer(kind, at)
    if entry is None:
        return Read(waits=(ref,))
    return Read(_input_of(entry, at, as_time=as_time or kind == "tick"), (entry.hash,))


def _input_of(entry: Entry, at: Found, *, as_time: bool) -> given.Input:
    if as_time:
        return given.Moment(entry.at_ms)
    if isinstance(at.ask, ChoiceAsk):
        option = entry.body["option"]
        return given.Chosen(option, any(one.id == option and one.stop for one in at.ask.options))
    return given.Word(entry.body["value"])


def _result(record: Record, at: Found, ref: AnswerRef) -> Read:
    """A result that is not there, or was worked out from older records, is waited for."""
    entry = record.answer("result", at)
    if entry is None or at.ask.id in at.state["open"]:
        return Read(waits=(ref,))
    values = tuple(
        Value(one["name"], one["value"], one["unit"], one["decimals"]) for one in entry.body["values"]
    )
    body = entry.body
    return Read(given.Earlier(body["computation"], values, body["verdict"], entry.at_ms), (entry.hash,))


def _lots(record: Record, at: Found, ask: LotAsk, ref: AnswerRef) -> Read:
    key = (at.method.id, at.step.id, ask.id)
    hashes = [
        value
        for one in record.state["lots"]
        if (one["method"], one["step"], one["ask"]) == key
        for value in one["answers"]
    ]
    entries = [record.entries[one] for one in hashes if one in record.entries]
    if not entries:
        return Read(waits=(ref,))
    lots = tuple(
        given.Lot(
            one.body["lot"],
            wrong=one.body["material"] != ask.of,
            expired=one.body["expires_ms"] != 0 and one.at_ms > one.body["expires_ms"],
        )
        for one in entries
    )
    return Read(given.Lots(lots), tuple(one.hash for one in entries))


def _runs(record: Record, ask: HeatAsk, ref: AnswerRef) -> Read:
    """Runs that were begun for the ask and not aborted, the oldest first."""
    begun = ask.continues or ref
    states = [
        run
        for run in record.state["runs"]
        if not run["aborted"]
        and (run["method"], run["step"], run["ask"]) == (begun.method, begun.step, begun.ask)
    ]
    if not states:
        return Read(waits=(ref,))
    runs = sorted(_found(record, states), key=lambda run: run.on_ms)
    hashes = tuple(one for run in states for one in (run["run"], *run["readings"]))
    return Read(given.Runs(tuple(runs)), hashes)


def _found(record: Record, states: Sequence[RunState]) -> Iterator[given.Run]:
    for run in states:
        at = record.find(run["method"], run["step"], run["ask"])
        zone = at.method.zone(run["zone"]) if at else None
        if at is not None and zone is not None and isinstance(at.ask, HeatAsk):
            yield run_of(record, run, zone, at.ask.settings)


def run_of(record: Record, run: RunState, zone: Zone, settings: HeatSettings) -> given.Run:
    """A run as a question has it, under the zone and the settings that it was begun for."""
    return given.Run(
        on_ms=record.entries[run["run"]].at_ms,
        aborted=run["aborted"],
        decimals=settings.decimals,
        soak_ms=run["soak_ms"],
        soak_s=settings.soak_s,
        gap_max_s=settings.gap_max_s,
        sensors=tuple(given.SensorLog(one.id, one.of, _points(record, run, one.id)) for one in zone.sensors),
        purpose="cure" if run["purpose"] == "cure" else "removal",
        acts=_acts(record, run),
        release=settings.release,
    )


def _points(record: Record, run: RunState, sensor: str) -> tuple[tuple[int, int], ...]:
    """What a sensor of a run read, as (run_ms, value), in the order of the run's clock."""
    bodies = [record.entries[one].body for one in run["readings"]]
    rows = [
        (int(run_ms), int(value))
        for body in bodies
        if body["sensor"] == sensor
        for run_ms, value in body["points"]
    ]
    return tuple(sorted(rows, key=lambda row: row[0]))


def _acts(record: Record, run: RunState) -> tuple[given.RunAct, ...]:
    """What was done in a run after it was switched on, in that order."""
    bodies = [record.entries[one].body for one in run["acts"]]
    acts = [given.RunAct(body["act"], body["pad"], body["run_ms"]) for body in bodies if body["act"] != "on"]
    return tuple(sorted(acts, key=lambda act: act.run_ms))
