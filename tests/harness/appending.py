"""Appends to a log as a process of its own; here, so that a process that begins anew can import it."""

from __future__ import annotations

from bayleaf.adapters.database import open_engine
from bayleaf.adapters.sql_entry_log import SqlEntryLog
from bayleaf.ports import LoggedEntry

ROUNDS = 25


def append_from_another_process(path: str, job: str, who: int) -> None:
    """One to three entries at a time, as a process of its own."""
    engine = open_engine(f"sqlite:///{path}")
    log = SqlEntryLog(engine)
    for turn in range(ROUNDS):
        names = [f"{who}-{turn}-{part}" for part in range(turn % 3 + 1)]
        with log.writing() as writing:
            writing.lock([job])
            first = writing.append(job, [_entry(job, name, who) for name in names])
        with log.reading() as reading:
            numbers = [entry.number for entry in reading.by_hashes(job, names)]
            assert numbers == list(range(first, first + len(names)))
    engine.dispose()


def _entry(job: str, name: str, who: int) -> LoggedEntry:
    return LoggedEntry(name, job, 0, f"device-{who}", 1, "0", "tick", "{}", 1, None, "", signed=True)
