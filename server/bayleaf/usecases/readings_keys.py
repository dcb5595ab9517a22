"""Keys of loggers: made by the office for one run, shown once, ended by the office; what a logger posts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from typing import Any, Final

from bayleaf.door_ports import Chance
from bayleaf.readings_ports import LoggerKey
from bayleaf.usecases.office import Office
from bayleaf.usecases.readings_intake import Penned, take_readings
from bayleaf.usecases.readings_note import note_of_key
from bayleaf.usecases.readings_rows import LONGEST_MS, in_scale
from bayleaf.usecases.readings_run import Reading, RunAt, run_at
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.write_office_entry import write_office_entries

EVERY_MS: Final = 10_000
AHEAD_MS: Final = 60_000
MOST_READINGS: Final = 500_000
PURPOSE: Final = "logger"


@dataclass(frozen=True)
class NotTaken:
    """A row of a post, counted from 1, or one of its readings, that could not be taken."""

    row: int
    sensor: str
    reason: str


@dataclass(frozen=True)
class Wanted:
    """A key that an office person wants for a logger and one run."""

    job: str
    run: str
    logger: str
    person: str


def make_key(office: Office, chance: Chance, wanted: Wanted) -> tuple[LoggerKey, str]:
    """A new key and its secret, which is shown once; a note in the record says who let the logger in.

    Refusals: unknown_job; unknown_run.
    """
    at = run_at(office, wanted.job, wanted.run)
    secret = chance.token()
    hashed = office.keys.keyed_hash(PURPOSE, secret)
    made = LoggerKey(
        id=office.ids.uuid(),
        key_hash=hashed,
        job=wanted.job,
        run=wanted.run,
        logger=wanted.logger,
        by=wanted.person,
        made_ms=office.clock.now_ms(),
    )
    write_office_entries(office, wanted.job, wanted.person, [note_of_key(at, wanted.logger)])
    office.readings.put_key(made)
    return made, secret


def end_key(office: Office, key: str) -> None:
    """Nobody writes by it again; what it wrote stays. Refusal: not_found."""
    found = office.readings.key(key)
    if found is None:
        raise Refusal("not_found", "No logger\u2019s key here has this id.", "key")
    if not found.ended_ms:
        office.readings.put_key(replace(found, ended_ms=office.clock.now_ms()))


def key_of(office: Office, secret: str) -> LoggerKey | None:
    """The key that this secret is, while it is not ended and whoever made it still works in the office."""
    found = office.readings.key_of_hash(office.keys.keyed_hash(PURPOSE, secret))
    if found is None or found.ended_ms:
        return None
    maker = office.people.find(found.by)
    return found if maker is not None and "office" in maker.roles else None


def take_post(office: Office, key: LoggerKey, body: Mapping[str, Any]) -> dict[str, Any]:
    """What a logger posts: rows with a time and the sensors\u2019 readings. The same again adds nothing.

    Times are the logger\u2019s own clock, put right by `clock_ms`, or seconds since switch-on.
    Refusals: too_soon; unknown_run; too_large where the key has written its fill.
    """
    now_ms = office.clock.now_ms()
    wait_ms = key.heard_ms + EVERY_MS - now_ms
    if wait_ms > 0:
        wait_s = -(-wait_ms // 1000)
        said = f"A logger may write every {EVERY_MS // 1000} s; send the rows together in {wait_s} s."
        raise Refusal("too_soon", said, named={"retry_s": wait_s})
    if key.readings >= MOST_READINGS:
        raise Refusal("too_large", f"This key has written {key.readings} readings; make another one.")
    at = run_at(office, key.job, key.run)
    readings, left = _read(at, body, now_ms)
    doubt = any("run_s" not in row for row in body["rows"]) and "clock_ms" not in body
    taken = take_readings(office, at, readings, Penned(key.by, typed_time=False, run_doubt=doubt))
    heard = replace(key, heard_ms=now_ms, readings=key.readings + taken.readings)
    office.readings.put_key(heard)
    return {"taken": taken.readings, "known": taken.known, "not_taken": [asdict(one) for one in left]}


def _read(at: RunAt, body: Mapping[str, Any], now_ms: int) -> tuple[list[Reading], list[NotTaken]]:
    ahead_ms = now_ms - body["clock_ms"] if "clock_ms" in body else 0
    sensors = {one.id for one in at.zone.sensors}
    readings: list[Reading] = []
    left: list[NotTaken] = []
    for number, row in enumerate(body["rows"], 1):
        run_ms = _run_ms(at, row, ahead_ms)
        fault = _time_fault(run_ms, now_ms - at.on_ms)
        if fault:
            left.append(NotTaken(number, "", fault))
            continue
        for sensor, figure in row["readings"].items():
            value = in_scale(str(figure), body["unit"], at.settings.decimals)
            if sensor not in sensors:
                value = f"no sensor of this zone; it has {', '.join(sorted(sensors))}"
            if isinstance(value, str):
                left.append(NotTaken(number, sensor[:40], value))
            else:
                readings.append((sensor, run_ms, value))
    return readings, left


def _run_ms(at: RunAt, row: Mapping[str, Any], ahead_ms: int) -> int:
    if "run_s" in row:
        return round(float(row["run_s"]) * 1000)
    return int(row["at_ms"]) + ahead_ms - at.on_ms


def _time_fault(run_ms: int, until_ms: int) -> str:
    if run_ms < 0:
        return f"{-run_ms // 1000} s before switch-on"
    if run_ms > min(until_ms + AHEAD_MS, LONGEST_MS):
        return f"{(run_ms - until_ms) // 1000} s from now; look at the logger\u2019s clock, or send clock_ms"
    return ""
