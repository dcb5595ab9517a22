"""Instruments that were overdue for calibration on the day that a step named them.

The day is the one written with the answer; an answer that bears none is looked up in the shop's register.
A view, and no finding: it rests on a register, which the record does not hold.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bayleaf.domain.asks import TextAsk
from bayleaf.domain.wall_time import UTC_TIME
from bayleaf.report.materials import CALIBRATED_UNTIL
from bayleaf.step_computations.record import Record
from bayleaf.stock_ports import Instrument


@dataclass(frozen=True)
class OverdueInstrument:
    """Where it was named, in whose words, and the last day of its calibration."""

    method: str
    step: str
    ask: str
    said: str
    until: str


def overdue_instruments(record: Record, instruments: Sequence[Instrument]) -> Iterator[OverdueInstrument]:
    """One an answer that stands, in the order of the card's registers."""
    for register in record.state["registers"]:
        entry = record.entries.get(register["shown"]) if register["kind"] == "text" else None
        if entry is None:
            continue
        at = record.find(register["method"], register["step"], register["ask"])
        if at is None or not isinstance(at.ask, TextAsk) or at.ask.of != "instrument":
            continue
        until = _until(entry.body["value"], instruments)
        if until and until < UTC_TIME.day(entry.at_ms):
            yield OverdueInstrument(at.method.id, at.step.id, at.ask.id, entry.body["value"], until)


def _until(said: str, instruments: Sequence[Instrument]) -> str:
    written = CALIBRATED_UNTIL.search(said)
    if written is not None:
        return written[1]
    words = set(re.split(r"[\s,;]+", said.lower()))
    named = (one for one in instruments if set(one.number.lower().split()) <= words)
    found = next(named, None)
    return found.calibrated_until if found is not None else ""
