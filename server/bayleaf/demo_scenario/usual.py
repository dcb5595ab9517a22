"""What is usually done at a step: its asks one after another, as the method lists them, then its tick."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import assert_never

from bayleaf.demo_scenario.cast import ADA, MARA_BY_PIN, MARAS_PHONE, OSKAR, OSKAR_BY_PIN, PAINTER_BY_PIN, PIM
from bayleaf.demo_scenario.deeds import Answer, Climbed, Deed, Hand, Photo, Sign, Step, WorkedOut
from bayleaf.domain.asks import (
    Ask,
    ChoiceAsk,
    ComputeAsk,
    CountersignAsk,
    HeatAsk,
    LotAsk,
    PhotoAsk,
    ReadingAsk,
    TallyAsk,
    TextAsk,
    TickAsk,
)
from bayleaf.domain.method import StepDoc


def deeds_of(step: Step, doc: StepDoc) -> Iterator[Deed]:
    """Every deed of a step in its order; an ask whose choice was another is not asked."""
    yield from step.before
    for ask in doc.asks:
        if ask.id in step.instead:
            yield from step.instead[ask.id]
        elif _is_asked(ask, step):
            yield from _usual(ask, step)
    yield from step.then
    if step.ticked:
        yield Answer("", "done", name=f"{step.id}.tick")


def _is_asked(ask: Ask, step: Step) -> bool:
    if ask.when is None:
        return True
    said = step.says.get(ask.when.ask)
    return isinstance(said, str) and said.replace(" ", "_") == ask.when.option


def _usual(ask: Ask, step: Step) -> Iterator[Deed]:
    name = f"{step.id}.{ask.id}"
    match ask:
        case TickAsk():
            yield Answer(ask.id, "done", name=name)
        case TextAsk() | ChoiceAsk() | ReadingAsk():
            yield from _values(ask, step, name)
        case PhotoAsk():
            yield Photo(ask.id, by=step.photos_by or PIM, name=name)
        case TallyAsk():
            yield Climbed(ask.id)
        case ComputeAsk():
            yield WorkedOut(ask.id, name=name)
        case CountersignAsk():
            yield Sign(ask.id, by=step.signed_by or signer(ask, step.by), name=name)
        case LotAsk() | HeatAsk():
            raise LookupError(f"{name}: the scenario does not say how")
        case never:
            assert_never(never)


def _values(ask: TextAsk | ChoiceAsk | ReadingAsk, step: Step, name: str) -> Iterator[Deed]:
    if isinstance(ask, ReadingAsk) and ask.where_needed and ask.id not in step.says:
        return
    said = step.says[ask.id]
    points = ask.point_ids() if isinstance(ask, ReadingAsk) else ("",)
    if isinstance(said, Mapping):
        pairs = list(said.items())
    else:
        pairs = list(zip(points, said if isinstance(said, tuple) else (said,), strict=True))
    for point, value in pairs:
        yield Answer(ask.id, value, point, name=f"{name}.{point}" if point else name)


def signer(ask: CountersignAsk, by: Hand) -> Hand:
    """Who signs what somebody did: on their phone by PIN, unless another device is demanded."""
    if ask.of == "office":
        return ADA
    if ask.of == "paint":
        return PAINTER_BY_PIN
    if by.person == "oskar":
        return MARA_BY_PIN
    return OSKAR if ask.other_device or by.device != MARAS_PHONE else OSKAR_BY_PIN
