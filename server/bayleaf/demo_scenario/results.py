"""The body of a result: what a computation that a step asks for gives by now."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from bayleaf.domain.asks import ComputeAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.fold import fold
from bayleaf.domain.method import MethodDoc
from bayleaf.step_computations import Answer, Record, answer, gather


def worked_out(
    methods: Mapping[str, MethodDoc], entries: Sequence[Entry], method: MethodDoc, ask: ComputeAsk, at_ms: int
) -> dict[str, Any]:
    """What a result says beside its place: computation, model, inputs, values, verdict."""
    record = Record(fold(methods, entries), {one.hash: one for one in entries}, tuple(methods.values()))
    gathered = gather(record, method, ask, at_ms)
    told = _told(answer(gathered.question))
    return {"computation": ask.computation, "inputs": list(gathered.hashes), **told}


def _told(found: Answer) -> dict[str, Any]:
    values = [
        {"name": one.name, "value": one.value, "unit": one.unit, "decimals": one.decimals}
        for one in found.values
    ]
    return {"model": found.model, "values": values, "verdict": found.verdict}
