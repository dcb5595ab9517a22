"""The question of a compute ask: what its inputs answer by now, and the entries that they rest on.

The twin of the phone's `compute_inputs.ts`, for jobs that are played without a phone.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Final

from bayleaf.demo_scenario import answers_given as given_at
from bayleaf.demo_scenario.answers_given import Found, Job
from bayleaf.domain.asks import ComputeAsk, ComputeInput, HeatAsk, HeatSettings
from bayleaf.domain.method import MethodDoc
from bayleaf.step_computations import inputs as given
from bayleaf.step_computations.question import Group, Place, Question

_TIMES: Final = ("started",)
_UNITS: Final = {"soak_s": "s", "gap_max_s": "s", "ramp_s": "s", "ramp_max": "K/min", "cooling_max": "K/min"}
_NO_FIGURES: Final = ("sensors_unit", "decimals", "release")


@dataclass(frozen=True)
class Gathered:
    """A question, and the hashes of the entries that it rests on, sorted."""

    question: Question
    hashes: tuple[str, ...]


def gather(job: Job, method: MethodDoc, ask: ComputeAsk, at_ms: int) -> Gathered:
    """The question of an ask as it stands, asked at that moment by the writer's clock."""
    found = {one.name: _input(job, one) for one in ask.inputs}
    inputs = {name: one.input for name, one in found.items() if one.input is not None}
    hashes = {value for one in found.values() for value in one.hashes}
    if ask.computation == "tally_reconciliation":
        rivets, counted = given_at.rivets_of(job, method, ask)
        inputs["tallies"] = rivets
        hashes.update(counted)
    damaged = given_at.damaged_of(job, method, ask)
    question = Question(
        computation=ask.computation,
        inputs=inputs,
        groups=tuple(Group(one.id, one.positions) for one in method.groups if one.id in ask.groups),
        places=_places(method, ask),
        settings=_settings(job.methods, ask),
        facts=_facts(job.methods),
        damaged=tuple(sorted(damaged)),
        asked_at_ms=at_ms if isinstance(inputs.get("started"), given.Moment) else 0,
    )
    return Gathered(question, tuple(sorted(hashes | set(damaged.values()))))


def _input(job: Job, one: ComputeInput) -> Found:
    if one.text:
        return Found(given.Word(one.text))
    if one.value is not None:
        return Found(given.Quantity(one.value, one.unit, one.decimals))
    return _merged([given_at.answer_at(job, ref, as_time=one.name in _TIMES) for ref in one.sources])


def _merged(all_found: Sequence[Found]) -> Found:
    """Several answers of one input: runs one after another; of other kinds a method names one."""
    runs = tuple(run for one in all_found if isinstance(one.input, given.Runs) for run in one.input.runs)
    first = given.Runs(runs) if runs else all_found[0].input
    return Found(first, tuple(value for one in all_found for value in one.hashes))


def _places(method: MethodDoc, ask: ComputeAsk) -> tuple[Place, ...]:
    points = next((one.points for one in method.point_sets if one.id == ask.points), ())
    return tuple(Place(one.id, one.at_mm) for one in points if one.at_mm is not None)


def _settings(methods: Mapping[str, MethodDoc], ask: ComputeAsk) -> dict[str, given.Quantity]:
    """Settings of the run of that zone and purpose, where a pinned method has one."""
    if not ask.zone or not ask.purpose:
        return {}
    for one in _heat_asks(methods):
        if one.continues is None and (one.zone, one.purpose) == (ask.zone, ask.purpose):
            return dict(_figures(one.settings))
    return {}


def _heat_asks(methods: Mapping[str, MethodDoc]) -> Iterator[HeatAsk]:
    for method in methods.values():
        for step in method.steps():
            yield from (ask for ask in step.asks if isinstance(ask, HeatAsk))


def _figures(settings: HeatSettings) -> Iterator[tuple[str, given.Quantity]]:
    for member in fields(settings):
        value = getattr(settings, member.name)
        if member.name not in _NO_FIGURES and value is not None:
            unit = _UNITS.get(member.name, settings.sensors_unit)
            yield member.name, given.Quantity(value, unit, 0 if unit == "s" else settings.decimals)


def _facts(methods: Mapping[str, MethodDoc]) -> dict[str, given.Quantity]:
    """Figures of all pinned methods; the later method's word counts."""
    return {
        fact.name: given.Quantity(fact.value, "", fact.decimals)
        for method in methods.values()
        for fact in method.facts
        if fact.value is not None
    }
