"""The body of a result: what a computation that a step asks for gives by now."""

from __future__ import annotations

from typing import Any

from bayleaf.demo_scenario.stage import Stage
from bayleaf.domain.asks import ComputeAsk
from bayleaf.domain.fold import fold
from bayleaf.step_computations import Answer, Record, answer, gather


def worked_out(stage: Stage, ask: ComputeAsk, at_ms: int) -> dict[str, Any]:
    """What a result says beside its place: computation, model, inputs, values, verdict, tables if any."""
    entries, methods = stage.memory.entries, stage.methods
    by_hash, docs = {one.hash: one for one in entries}, tuple(methods.values())
    record = Record(fold(methods, entries), by_hash, docs, stage.sheets, stage.plans)
    gathered = gather(record, stage.method, ask, at_ms)
    told = {"inputs": list(gathered.hashes), **_told(answer(gathered.question))}
    if gathered.tables:
        told["tables"] = list(gathered.tables)
    return {"computation": ask.computation, **told}


def _told(found: Answer) -> dict[str, Any]:
    values = [
        {"name": one.name, "value": one.value, "unit": one.unit, "decimals": one.decimals}
        for one in found.values
    ]
    return {"model": found.model, "values": values, "verdict": found.verdict}
