"""The body of a result: what a computation that a step asks for gives by now."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from bayleaf.demo_scenario.answers_given import Job
from bayleaf.demo_scenario.questions import Gathered, gather
from bayleaf.domain.asks import ComputeAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.fold import fold
from bayleaf.domain.method import MethodDoc
from bayleaf.step_computations import Answer, answer


def asked(
    methods: Mapping[str, MethodDoc], entries: Sequence[Entry], method: MethodDoc, ask: ComputeAsk, at_ms: int
) -> Gathered:
    """The question of an ask of a method, from these entries."""
    job = Job(methods, fold(methods, entries), {entry.hash: entry for entry in entries})
    return gather(job, method, ask, at_ms)


def worked_out(
    methods: Mapping[str, MethodDoc], entries: Sequence[Entry], method: MethodDoc, ask: ComputeAsk, at_ms: int
) -> dict[str, Any]:
    """What a result says beside its place: computation, model, inputs, values, verdict."""
    gathered = asked(methods, entries, method, ask, at_ms)
    return {
        "computation": ask.computation,
        "inputs": list(gathered.hashes),
        **_told(answer(gathered.question)),
    }


def _told(found: Answer) -> dict[str, Any]:
    values = [
        {"name": one.name, "value": one.value, "unit": one.unit, "decimals": one.decimals}
        for one in found.values
    ]
    return {"model": found.model, "values": values, "verdict": found.verdict}
