"""A heat plan as an input: the one that is pinned to the ask's own zone, told as a table of the result."""

from __future__ import annotations

from bayleaf.domain.asks import ComputeAsk
from bayleaf.step_computations import Record, answer, gather
from bayleaf.step_computations.plans import ZonePlan, figures_of
from harness.played import frame_methods, played_fitting
from vectors.computations.scenes.heat import PLANNED

JOB = played_fitting()
DOCS = list(frame_methods().values())
UPPER = ZonePlan("removal", "upper", "ab" * 32, "cd" * 32, figures_of(PLANNED))


def asked(step_id: str, ask_id: str, *plans: ZonePlan) -> tuple[str, tuple[str, ...]]:
    """The model that answers, and the tables that it rests on."""
    record = Record(JOB.state(), {entry.hash: entry for entry in JOB.entries}, DOCS, plans=plans)
    method = DOCS[0]
    step = method.step(step_id)
    ask = step.ask(ask_id) if step else None
    assert isinstance(ask, ComputeAsk)
    found = gather(record, method, ask)
    return answer(found.question).model, found.tables


def test_a_pinned_plan_answers_for_its_own_zone_and_is_told_by_its_response_set() -> None:
    assert asked("rem-25", "plan", UPPER) == ("coupled-plates-1", ("cd" * 32,))


def test_another_zone_keeps_the_methods_own_times() -> None:
    assert asked("rem-31", "plan", UPPER) == ("method-times-1", ())


def test_a_verdict_takes_no_plan() -> None:
    assert asked("rem-29", "verdict", UPPER)[1] == ()
