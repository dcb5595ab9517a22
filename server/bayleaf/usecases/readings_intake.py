"""Writes a logger's readings into the record of a run: an entry a sensor and batch, each reading once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bayleaf.domain.entries import read_entry
from bayleaf.domain.kinds import is_run_reading
from bayleaf.ports import WritesLog
from bayleaf.usecases.office import Office
from bayleaf.usecases.readings_run import Reading, RunAt, readings_in
from bayleaf.usecases.server_pen import Draft
from bayleaf.usecases.write_office_entry import append_office_entries

AT_ONCE: Final = 600  # pairs in one entry


@dataclass(frozen=True)
class Penned:
    """For whom the server writes, and how sure the times are.

    `typed_time`: the run's beginning in the logger's time was typed by a person; `run_doubt`: nobody said it.
    """

    person: str
    typed_time: bool
    run_doubt: bool


@dataclass(frozen=True)
class Taken:
    """How many readings are new, how many the record held already, and the new entries."""

    readings: int
    known: int
    hashes: tuple[str, ...]


def take_readings(office: Office, at: RunAt, readings: Iterable[Reading], pen: Penned) -> Taken:
    """Append what the record does not hold yet; the same again adds nothing."""
    wanted = dict.fromkeys(readings)
    with office.log.writing() as log:
        log.lock([at.job])
        held = at.known | _since(log, at)
        new = [one for one in wanted if one not in held]
        drafts = list(_drafts(at, new, pen))
        hashes = append_office_entries(office, log, at.job, pen.person, drafts)
    return Taken(len(new), len(wanted) - len(new), tuple(hashes))


def _since(log: WritesLog, at: RunAt) -> set[Reading]:
    """Readings of the run that came after it was looked at."""
    newer = (read_entry(one.text) for one in log.after(at.job, at.count, AT_ONCE * AT_ONCE))
    return {
        reading
        for entry in newer
        if entry.kind == "reading" and is_run_reading(entry) and entry.body["run"] == at.run
        for reading in readings_in(entry, at.settings)
    }


def _drafts(at: RunAt, readings: Sequence[Reading], pen: Penned) -> Iterator[Draft]:
    by_sensor: defaultdict[str, list[list[int]]] = defaultdict(list)
    for sensor, run_ms, value in readings:
        by_sensor[sensor].append([run_ms, value])
    for sensor in sorted(by_sensor):
        points = sorted(by_sensor[sensor])
        for start in range(0, len(points), AT_ONCE):
            body = {
                "run": at.run,
                "sensor": sensor,
                "unit": at.settings.sensors_unit,
                "decimals": at.settings.decimals,
                "points": points[start : start + AT_ONCE],
                "run_doubt": pen.run_doubt,
                "typed_time": pen.typed_time,
            }
            yield Draft("reading", body)
