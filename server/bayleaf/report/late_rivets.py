"""Rivets that were set after the open time of the adhesive had run out, by the clocks of who set them.

The open time counts from the answer that the method's computation names, at the temperatures recorded; it
ends with the last reading that the method counts from the same answer, if that ends sooner.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from bayleaf.bonding.open_time import OpenTimeSheet, open_time_min
from bayleaf.bonding.refusal import Refused
from bayleaf.domain.asks import AnswerRef, ComputeAsk, ReadingAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.method import MethodDoc
from bayleaf.report.ledger import Ledger
from bayleaf.report.words import listed
from bayleaf.step_computations.figures import number_of
from bayleaf.step_computations.gathering import gather
from bayleaf.step_computations.inputs import Quantity
from bayleaf.step_computations.question import Question
from bayleaf.step_computations.record import Record

MS_PER_MIN: Final = 60_000
UNIT_MS: Final = {"s": 1000, "min": MS_PER_MIN, "h": 60 * MS_PER_MIN}
READ: Final = ("air", "flange", "adhesive")


@dataclass(frozen=True)
class LateRivet:
    """A rivet, how many whole minutes after the start it was set, and the entry that says so."""

    position: str
    minute: int
    entry: Entry


@dataclass(frozen=True)
class _Clock:
    started: Entry
    ends_ms: float


def late_rivets_words(ledger: Ledger) -> str:
    """One sentence a clock; empty where none was late."""
    return " ".join(_sentence(clock, late) for clock, late in _late(ledger) if late)


def _sentence(clock: _Clock, late: list[LateRivet]) -> str:
    told = listed([f"{one.position} at minute {one.minute}" for one in late])
    return f"Set after the open time of {int(clock.ends_ms // MS_PER_MIN)} min: {told}."


def _late(ledger: Ledger) -> Iterator[tuple[_Clock, list[LateRivet]]]:
    record = Record(ledger.state, ledger.entries, ledger.pinned)
    for clock in _clocks(record):
        since = [
            (ledger.apart_ms(clock.started, one), one) for one in ledger.standing("tally") if _is_set(one)
        ]
        late = [
            LateRivet(one.body["position"], ms // MS_PER_MIN, one) for ms, one in since if ms > clock.ends_ms
        ]
        yield clock, sorted(late, key=lambda one: (one.minute, one.position))


def _clocks(record: Record) -> Iterator[_Clock]:
    """One for each answer that an open time was begun by."""
    seen = set()
    for method in record.methods:
        for ask in _asks(method):
            for ref in _started(ask):
                clock = None if ref in seen else _clock(record, method, ask, ref)
                seen.add(ref)
                if clock is not None:
                    yield clock


def _asks(method: MethodDoc) -> Iterator[ComputeAsk]:
    for step in method.steps():
        for ask in step.asks:
            if isinstance(ask, ComputeAsk) and ask.computation == "open_time":
                yield ask


def _started(ask: ComputeAsk) -> Iterator[AnswerRef]:
    for one in ask.inputs:
        if one.name == "started":
            yield from one.sources


def _clock(record: Record, method: MethodDoc, ask: ComputeAsk, ref: AnswerRef) -> _Clock | None:
    at = record.find(ref.method, ref.step, ref.ask)
    started = next((one for kind in ("tick", "text") if at and (one := record.answer(kind, at))), None)
    open_ms = _open_ms(gather(record, method, ask).question)
    if started is None or open_ms is None:
        return None
    own = [_own_ms(one) for one in _since(record, ref)]
    return _Clock(started, min(open_ms, max(own, default=open_ms)))


def _open_ms(question: Question) -> float | None:
    """At the warmest of what was read; as the sheet says where nothing was."""
    sheet, at_C = (question.find(name, Quantity) for name in ("sheet_time", "sheet_temperature"))
    if sheet is None or at_C is None:
        return None
    read = [number_of(found) for name in READ if (found := question.find(name, Quantity)) is not None]
    try:
        sheet_row = OpenTimeSheet({number_of(at_C): number_of(sheet)})
        return open_time_min(sheet_row, max(read, default=number_of(at_C))) * MS_PER_MIN
    except Refused:
        return None


def _since(record: Record, ref: AnswerRef) -> Iterator[ReadingAsk]:
    """Readings whose time counts from this answer."""
    for method in record.methods:
        for step in method.steps():
            for ask in step.asks:
                if isinstance(ask, ReadingAsk) and ask.since == ref and ask.unit in UNIT_MS:
                    yield ask


def _own_ms(ask: ReadingAsk) -> float:
    return math.inf if ask.max is None else ask.max * UNIT_MS[ask.unit] / 10**ask.decimals


def _is_set(entry: Entry) -> bool:
    return entry.body.get("state") == "set" and entry.body["generation"] > 0
