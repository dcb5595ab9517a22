"""Files of loggers: kept as they came, looked at under a mapping of their columns, read into the run."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass, replace
from typing import Any, Final

from bayleaf.canonical.digest import sha256_hex
from bayleaf.readings_ports import ReadingFile
from bayleaf.usecases.office import Office
from bayleaf.usecases.readings_guess import guess, headings_of
from bayleaf.usecases.readings_intake import Penned, Taken, take_readings
from bayleaf.usecases.readings_mapping import ColumnMap, map_json, map_of
from bayleaf.usecases.readings_note import Outcome, note_of
from bayleaf.usecases.readings_rows import Row, Rows, rows_of
from bayleaf.usecases.readings_run import RunAt, run_at
from bayleaf.usecases.readings_table import Table, require_size, table_of, text_of
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.write_office_entry import write_office_entries

SHOWN_LINES: Final = 8
TOLD_UNREAD: Final = 500
PART_ROWS: Final = 3000
MOST_NAMED: Final = 900  # hashes in one note


@dataclass(frozen=True)
class Offered:
    """A file that somebody hands in for a run."""

    job: str
    run: str
    name: str
    person: str


@dataclass(frozen=True)
class Progress:
    """How far a file is read in; `next_row` is 0 when it is all in."""

    rows: int
    next_row: int
    readings: int
    known: int


def keep_file(office: Office, offered: Offered, content: bytes) -> ReadingFile:
    """Keep it before anything of it is understood. The same file for the same run is there once.

    Refusals: unknown_job; unknown_run; too_large.
    """
    run_at(office, offered.job, offered.run)
    require_size(content)
    sha256 = sha256_hex(content)
    for known in office.readings.files_of(offered.job):
        if (known.run, known.sha256) == (offered.run, sha256):
            return known
    added = ReadingFile(
        id=office.ids.uuid(),
        sha256=sha256,
        job=offered.job,
        run=offered.run,
        name=offered.name,
        bytes=len(content),
        by=offered.person,
        added_ms=office.clock.now_ms(),
    )
    office.readings.add_file(added, content)
    return added


def found_file(office: Office, file: str) -> ReadingFile:
    """Refusal: not_found."""
    found = office.readings.file(file)
    if found is None:
        raise Refusal("not_found", "No file of readings here has this id.", "file")
    return found


def look_at(office: Office, file: str, mapping: ColumnMap | None, logger: str = "") -> dict[str, Any]:
    """What the file says under this mapping, or under a guess; nothing is written.

    Refusals: not_found; unknown_run; not_a_table; wrong_mapping; wrong_time.
    """
    kept = found_file(office, file)
    at = run_at(office, kept.job, kept.run)
    table = _table(office, kept, mapping)
    sensors = [one.id for one in at.zone.sensors]
    known = _remembered(office, logger, sensors) if mapping is None else None
    chosen = mapping or guess(table, sensors, known)
    if logger and mapping is None:
        chosen = replace(chosen, logger=logger)
    _require_sound(chosen, sensors)
    sample = [line for line in table.lines if line.number >= chosen.first_line][:SHOWN_LINES]
    return {
        "file": kept.id,
        "sha256": kept.sha256,
        "name": kept.name,
        "lines": len(table.lines),
        "headings": list(headings_of(table, chosen.first_line)),
        "sample": [{"line": line.number, "cells": list(line.cells)} for line in sample],
        "mapping": map_json(chosen),
        "remembered": known is not None,
        "on_ms": at.on_ms,
        "decimals": at.settings.decimals,
        "unit": at.settings.sensors_unit,
        **_seen(at, table, chosen),
    }


def take_file(office: Office, file: str, mapping: ColumnMap, from_row: int, person: str) -> Progress:
    """Read a part of it in; with the last part a note names the file and its entries.

    Refusals: as those of `look_at`; wrong_mapping also where no column is a sensor.
    """
    kept = found_file(office, file)
    at = run_at(office, kept.job, kept.run)
    _require_sound(mapping, [one.id for one in at.zone.sensors])
    if not mapping.sensors or not mapping.logger.strip():
        missing = "sensors" if not mapping.sensors else "logger"
        said = f"{missing}: found none. Name the logger, and at least one column as a sensor."
        raise Refusal("wrong_mapping", said, missing)
    found = rows_of(_table(office, kept, mapping), mapping, at.settings.decimals)
    part = found.rows[from_row : from_row + PART_ROWS]
    taken = take_readings(office, at, _readings(part), Penned(person, typed_time=True, run_doubt=False))
    next_row = from_row + len(part) if from_row + len(part) < len(found.rows) else 0
    outcome = _outcome(kept, found, taken)
    told = json.dumps(map_json(mapping))
    done = replace(kept, logger=mapping.logger, mapping=told, outcome=json.dumps(outcome))
    if next_row == 0:
        done = _finish(office, at, done, outcome, person)
    office.readings.put_file(done)
    return Progress(len(found.rows), next_row, taken.readings, taken.known)


def _finish(office: Office, at: RunAt, done: ReadingFile, outcome: Outcome, person: str) -> ReadingFile:
    """One note a file, unless nothing new came of it; the mapping is remembered from now on."""
    told = set(outcome["noted"])
    fresh = [one for one in outcome["hashes"] if one not in told]
    if fresh:
        note = note_of(at, done, outcome, sorted(fresh)[:MOST_NAMED])
        write_office_entries(office, at.job, person, [note])
    noted = {**outcome, "noted": sorted({*told, *fresh})}
    return replace(done, outcome=json.dumps(noted), read_ms=office.clock.now_ms())


def _outcome(kept: ReadingFile, found: Rows, taken: Taken) -> Outcome:
    nothing: dict[str, Any] = {"hashes": [], "noted": [], "taken": 0}
    before = json.loads(kept.outcome) if kept.outcome else nothing
    return {
        "rows": len(found.rows),
        "readings": sum(len(row.readings) for row in found.rows),
        "taken": before["taken"] + taken.readings,
        "unread": [asdict(one) for one in found.unread[:TOLD_UNREAD]],
        "unread_total": len(found.unread),
        "before_on": found.before_on,
        "blank": found.blank,
        "hashes": sorted({*before["hashes"], *taken.hashes}),
        "noted": before["noted"],
    }


def _seen(at: RunAt, table: Table, mapping: ColumnMap) -> dict[str, Any]:
    """What would be read; nothing while the time at switch-on is unsaid."""
    if not mapping.at_on.strip():
        return {"read": None}
    found = rows_of(table, mapping, at.settings.decimals)
    bond = {one.id for one in at.zone.sensors if one.of == "bond"}
    readings = _readings(found.rows)
    return {
        "read": {
            "rows": len(found.rows),
            "readings": len(readings),
            "known": len(set(readings) & at.known),
            "unread": [asdict(one) for one in found.unread[:TOLD_UNREAD]],
            "unread_total": len(found.unread),
            "before_on": found.before_on,
            "blank": found.blank,
            "first_ms": found.rows[0].run_ms if found.rows else 0,
            "last_ms": found.rows[-1].run_ms if found.rows else 0,
            "whole": sum(bond <= {sensor for sensor, _ in row.readings} for row in found.rows),
            "sensors": [
                _span(sensor.sensor, [row for row in readings if row[0] == sensor.sensor])
                for sensor in mapping.sensors
            ],
        }
    }


def _span(sensor: str, readings: Sequence[tuple[str, int, int]]) -> dict[str, Any]:
    values = [value for _, _, value in readings] or [0]
    return {"sensor": sensor, "readings": len(readings), "low": min(values), "high": max(values)}


def _readings(rows: Sequence[Row]) -> list[tuple[str, int, int]]:
    return [(sensor, row.run_ms, value) for row in rows for sensor, value in row.readings]


def _table(office: Office, kept: ReadingFile, mapping: ColumnMap | None) -> Table:
    text = text_of(office.readings.content(kept.sha256))
    return table_of(text, mapping.separator if mapping else "")


def _remembered(office: Office, logger: str, sensors: Sequence[str]) -> ColumnMap | None:
    """What was said of the logger's columns last time, if its sensors are this zone's too."""
    before = office.readings.newest_of(logger) if logger else None
    if before is None:
        return None
    known = map_of(json.loads(before.mapping))
    return known if all(one.sensor in sensors for one in known.sensors) else None


def _require_sound(mapping: ColumnMap, sensors: Sequence[str]) -> None:
    named = [one.sensor for one in mapping.sensors]
    for sensor in named:
        if sensor not in sensors:
            said = f"sensors: the zone has no sensor {sensor!r}, it has {', '.join(sensors)}."
            raise Refusal("wrong_mapping", said, "sensors")
    columns = [one.column for one in mapping.sensors]
    if len(set(named)) < len(named) or len(set(columns)) < len(columns):
        said = "sensors: each sensor is one column, each column one sensor."
        raise Refusal("wrong_mapping", said, "sensors")
    if mapping.time in columns:
        said = f"time: column {mapping.time + 1} is the time and a sensor; it can be only one."
        raise Refusal("wrong_mapping", said, "time")
