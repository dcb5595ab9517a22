"""The verdict on every heat run of a job, from the entries alone: by purpose, line by line.

The lines are those of `heat_verdict`, under the settings of the ask that each run was begun for. Minutes of
the metal above its limit add up over the runs of a job, aborted ones too: they share the profile, and a zone
warms the one beside it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from bayleaf.domain.asks import HeatAsk, HeatSettings
from bayleaf.domain.entries import Entry
from bayleaf.domain.method import MethodDoc
from bayleaf.domain.part import Zone
from bayleaf.domain.state import CardState, RunState
from bayleaf.heat.verdict import DEVIATES
from bayleaf.step_computations import inputs as given
from bayleaf.step_computations.gathering import quantities_of
from bayleaf.step_computations.heat_verdict import heat_verdict
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.record import Record
from bayleaf.step_computations.shapes import Value
from bayleaf.step_computations.sources import run_of

Overall = Literal["conforming", "conforming_with_deviations", "not_conforming", "not_judged"]
Standing = str
PENDING: Final = "pending"
"""How a line stands that only the rest of the run can settle."""
_SETTLED_LAST: Final = ("soak", "release", "cold")
_TILL_RECORDED: Final = "not_recorded"
"""How a line stands that wants an act which the rest of the run may bring."""


@dataclass(frozen=True, slots=True)
class VerdictLine:
    """What was found, and the limit where the method sets one."""

    code: str
    standing: Standing
    figure: Value
    limit: Value | None


@dataclass(frozen=True, slots=True)
class RunVerdict:
    """How a run stands. `over`: it is cold or was aborted; before that the verdict is one so far.

    `earlier` are the runs whose minutes of the metal are in the sum.
    """

    run: str
    method: str
    step: str
    zone: str
    zone_name: str
    purpose: str
    on_ms: int
    over: bool
    aborted: bool
    model: str
    overall: Overall
    lines: tuple[VerdictLine, ...]
    earlier: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Begun:
    """A run with what it was begun under, and as a question has it."""

    state: RunState
    on: Entry
    zone: Zone
    settings: HeatSettings
    run: given.Run


def run_verdicts(
    state: CardState, entries: Mapping[str, Entry], methods: Mapping[str, MethodDoc]
) -> list[RunVerdict]:
    """In the order in which they were switched on; a run whose method is not here is left out."""
    record = Record(state, entries, tuple(methods.values()))
    runs = [one for run in state["runs"] for one in _begun(record, run, methods)]
    runs.sort(key=lambda one: (one.on.at_ms, one.on.hash))
    return [_verdict(one, runs[:at]) for at, one in enumerate(runs)]


def _begun(record: Record, run: RunState, methods: Mapping[str, MethodDoc]) -> list[_Begun]:
    on = record.entries.get(run["run"])
    method = methods.get(on.body["digest"]) if on is not None else None
    step = method.step(run["step"]) if method else None
    ask = step.ask(run["ask"]) if step else None
    zone = method.zone(run["zone"]) if method else None
    if on is None or zone is None or not isinstance(ask, HeatAsk):
        return []
    return [_Begun(run, on, zone, ask.settings, run_of(record, run, zone, ask.settings))]


def _verdict(one: _Begun, before: Sequence[_Begun]) -> RunVerdict:
    earlier = [run for run in before if run.state["readings"]]
    inputs: dict[str, given.Input] = {"run": given.Runs((one.run,))}
    if earlier:
        inputs["earlier_runs"] = given.Runs(tuple(begun.run for begun in earlier))
    answer = heat_verdict(Question("heat_verdict", inputs, settings=quantities_of(one.settings)))
    over = one.state["aborted"] or "cold" in one.state["moments"]
    lines = tuple(_line(line.code, line.at[0], line.values, over=over) for line in answer.lines)
    return RunVerdict(
        run=one.state["run"],
        method=one.state["method"],
        step=one.state["step"],
        zone=one.state["zone"],
        zone_name=one.zone.name,
        purpose=one.state["purpose"],
        on_ms=one.on.at_ms,
        over=over,
        aborted=one.state["aborted"],
        model=answer.model,
        overall=_overall(lines, aborted=one.state["aborted"]),
        lines=lines,
        earlier=tuple(run.state["run"] for run in earlier),
    )


def _line(code: str, standing: Standing, values: Sequence[Value], *, over: bool) -> VerdictLine:
    figure, *limit = values
    name = code.removeprefix("heat_")
    unsettled = name in _SETTLED_LAST and standing not in ("conforming", "not_judged")
    waits = not over and (unsettled or standing == _TILL_RECORDED)
    return VerdictLine(name, PENDING if waits else standing, figure, limit[0] if limit else None)


def _overall(lines: Sequence[VerdictLine], *, aborted: bool) -> Overall:
    if not lines:
        return "not_judged"
    if any(line.standing == "not_conforming" for line in lines):
        return "not_conforming"
    deviates = aborted or any(line.standing in DEVIATES for line in lines)
    return "conforming_with_deviations" if deviates else "conforming"
