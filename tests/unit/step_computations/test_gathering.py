"""Questions gathered from a whole played job: the server works out what was recorded, from its entries."""

from typing import Any

import pytest

from bayleaf.domain.asks import ComputeAsk
from bayleaf.step_computations import Record, answer, gather
from bayleaf.step_computations.forecast import cure_forecasts
from harness.played import frame_methods, played_fitting

JOB = played_fitting()
DOCS = list(frame_methods().values())
RECORD = Record(JOB.state(), {entry.hash: entry for entry in JOB.entries}, DOCS)
ASKS = [
    (method, step, ask)
    for method in DOCS
    for step in method.steps()
    for ask in step.asks
    if isinstance(ask, ComputeAsk)
]
CASES = {f"{step.id}.{ask.id}": (method, step, ask) for method, step, ask in ASKS}


def _shown(method: str, step: str, ask: str) -> Any:
    return next(
        (
            RECORD.entries[one["shown"]]
            for one in RECORD.state["registers"]
            if (one["kind"], one["method"], one["step"], one["ask"]) == ("result", method, step, ask)
        ),
        None,
    )


@pytest.mark.parametrize("name", CASES)
def test_the_server_works_out_what_the_phone_recorded(name: str) -> None:
    method, step, ask = CASES[name]
    recorded = _shown(method.id, step.id, ask.id)
    state = next(one for one in RECORD.state["steps"] if one["step"] == step.id)
    if recorded is None:
        assert ask.id in state["not_asked"] or ask.id in state["open"]
        return
    found = gather(RECORD, method, ask, recorded.at_ms)
    assert not found.waits
    assert list(found.hashes) == recorded.body["inputs"]
    answered = answer(found.question)
    told = [(one.name, one.value, one.unit, one.decimals) for one in answered.values]
    assert told == [
        (one["name"], one["value"], one["unit"], one["decimals"]) for one in recorded.body["values"]
    ]
    assert answered.verdict == recorded.body["verdict"]


def test_a_cure_that_is_under_way_is_forecast_and_one_that_is_proved_is_not() -> None:
    assert cure_forecasts(RECORD) == []
    before = JOB.upto("fit-28")
    record = Record(before.state(), {entry.hash: entry for entry in before.entries}, DOCS)
    (forecast,) = cure_forecasts(record)
    assert forecast.handling_ms < forecast.full_ms
