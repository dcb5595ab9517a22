"""An instrument that was overdue on the day that a step named it: by its own words, else by the register."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from bayleaf.domain.entries import Entry
from bayleaf.step_computations import Record
from bayleaf.stock_ports import Instrument
from bayleaf.usecases.overdue_instruments import overdue_instruments
from harness.played import frame_methods, played_removal

JOB = played_removal()
LOGGER = next(one for one in JOB.entries if one.kind == "text" and one.body["step"] == "rem-24")
NAMED_ON = datetime.fromtimestamp(LOGGER.at_ms / 1000, UTC).date().isoformat()


def overdue(said: str, register: tuple[Instrument, ...] = ()) -> list[tuple[str, str]]:
    """(step, last day) of what is overdue where the logger of rem-24 was named in these words."""
    entry: Entry = replace(LOGGER, body={**LOGGER.body, "value": said})
    entries = {one.hash: entry if one.hash == LOGGER.hash else one for one in JOB.entries}
    record = Record(JOB.state(), entries, tuple(frame_methods().values()))
    return [(one.step, one.until) for one in overdue_instruments(record, register)]


def logger(until: str) -> Instrument:
    return Instrument("i-1", "logger 3", "data logger", until, "", gone=False, changed_ms=1)


@pytest.mark.parametrize(("until", "found"), [("2024-12-31", True), (NAMED_ON, False), ("2099-01-01", False)])
def test_the_day_that_is_written_with_the_answer_counts(until: str, *, found: bool) -> None:
    said = f"logger 3, data logger, calibrated until {until}"
    assert overdue(said, (logger("2099-12-31"),)) == ([("rem-24", until)] if found else [])


def test_without_a_day_the_register_is_asked() -> None:
    assert overdue("Logger 3 of the cabinet", (logger("2024-12-31"),)) == [("rem-24", "2024-12-31")]
    assert overdue("Logger 3 of the cabinet", (logger(""),)) == []
    assert overdue("logger 4", (logger("2024-12-31"),)) == []
