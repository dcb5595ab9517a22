"""The command that reads a logger's file into a heat run: `heat readings`."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

import click

from bayleaf.cli_options import AS_JSON, DATABASE_URL, OF_SERVE, data_folder
from bayleaf.cli_verdict import job_named
from bayleaf.config import Config
from bayleaf.usecases.judge_run import verdicts_of_job
from bayleaf.usecases.office import Office
from bayleaf.usecases.readings_files import Offered, keep_file, look_at, take_file
from bayleaf.usecases.readings_mapping import ColumnMap, SensorColumn, map_of
from bayleaf.usecases.refusal import Refusal

FAULTY: Final = 1
TOLD_UNREAD: Final = 50
LONGEST_NAME: Final = 100


@click.command("readings")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--job", required=True, help="The job, by its order number or id.")
@click.option("--zone", default="", help="The zone of the run, where the job has several runs.")
@click.option("--by", "person", required=True, help="The office person who answers for it, by name.")
@click.option("--logger", required=True, help="What the logger is called; its columns are remembered by it.")
@click.option("--at-on", default="", help="What the logger's own time showed when the pads were switched on.")
@click.option(
    "--column",
    "columns",
    multiple=True,
    metavar="SENSOR=NUMBER",
    help="Which column, from 1, is a sensor; unsaid, as its heading says.",
)
@click.option("--unit", type=click.Choice(["C", "F", "K"]), help="Of the file; unsaid, as its headings say.")
@click.option(
    "--time", "time_form", type=click.Choice(["clock", "minutes", "seconds"]), help="What the time column is."
)
@click.option("--take", is_flag=True, help="Read it in. Without this it only says what it would read.")
@data_folder(OF_SERVE, must_exist=True)
@DATABASE_URL
@AS_JSON
def readings(file: Path, data: Path, database: str, as_json: bool, **asked: Any) -> None:
    """Read a logger's FILE (CSV) into a heat run of a job.

    Without --take it writes nothing of it into the record: it shows which column is what, and every line that
    cannot be read. With --take each reading is recorded once; the same file again adds nothing. The file
    itself is kept with its SHA-256 and goes into the dossier.

    \b
    Example: bayleaf heat readings run.csv --job 2024-17 --by "A. Office" --logger "Logger 7" \\
               --at-on 10:02 --take
    Exit status: 0 if every line was read, 1 if some could not be (the others are), 2 if nothing could.
    """
    from bayleaf.app import open_parts

    parts = open_parts(Config(data=data, database_url=database))
    try:
        told = _read(parts.office, file, asked, quiet=as_json)
    except Refusal as refusal:
        raise click.UsageError(refusal.message) from refusal
    finally:
        parts.close()
    click.echo(json.dumps(told) if as_json else _words(told))
    if told["unread_total"]:
        raise SystemExit(FAULTY)


def _read(office: Office, file: Path, asked: dict[str, Any], *, quiet: bool) -> dict[str, Any]:
    if len(asked["logger"]) > LONGEST_NAME:
        raise click.UsageError(f"--logger: a name has at most {LONGEST_NAME} characters.")
    job = job_named(office, asked["job"])
    offered = Offered(job, _run(office, job, asked["zone"]), file.name, _person(office, asked["person"]))
    kept = keep_file(office, offered, file.read_bytes())
    mapping = _mapping(look_at(office, kept.id, None, asked["logger"])["mapping"], asked)
    looked = look_at(office, kept.id, mapping)
    if looked["read"] is None:
        raise click.UsageError(
            "--at-on is missing: say what the logger showed when the pads were switched on."
        )
    told = {
        "file": kept.name,
        "sha256": kept.sha256,
        "run": kept.run,
        "mapping": looked["mapping"],
        **{
            name: looked["read"][name] for name in ("rows", "readings", "unread", "unread_total", "before_on")
        },
        "known": looked["read"]["known"],
        "taken": 0,
    }
    if asked["take"]:
        told["taken"] = _take(office, kept.id, mapping, offered.person, quiet=quiet)
    return told


def _take(office: Office, file: str, mapping: ColumnMap, person: str, *, quiet: bool) -> int:
    """Part by part, telling how far it is."""
    taken, row = 0, 0
    while True:
        done = take_file(office, file, mapping, row, person)
        taken, row = taken + done.readings, done.next_row
        if not quiet:
            click.echo(f"{row or done.rows} of {done.rows} rows", err=True)
        if row == 0:
            return taken


def _mapping(guessed: dict[str, Any], asked: dict[str, Any]) -> ColumnMap:
    said: dict[str, Any] = {"logger": asked["logger"], "at_on": asked["at_on"]}
    said |= {name: asked[name] for name in ("unit", "time_form") if asked[name]}
    mapping = replace(map_of(guessed), **said)
    if not asked["columns"]:
        return mapping
    return replace(mapping, sensors=tuple(_column(one) for one in asked["columns"]))


def _column(words: str) -> SensorColumn:
    sensor, _, number = words.partition("=")
    if not sensor or not number.isdigit() or int(number) < 1:
        raise click.UsageError(f"--column {words}: needed is SENSOR=NUMBER, such as a=2.")
    return SensorColumn(int(number) - 1, sensor)


def _run(office: Office, job: str, zone: str) -> str:
    """The one run, or the newest of the zone."""
    runs = [one for one in verdicts_of_job(office, job) if zone in ("", one.zone)]
    zones = sorted({one.zone for one in runs})
    if not runs:
        raise click.UsageError("The job has no heat run" + (f" of zone {zone}." if zone else "."))
    if len(zones) > 1:
        raise click.UsageError(f"The job has runs of {', '.join(zones)}; name one with --zone.")
    return runs[-1].run


def _person(office: Office, name: str) -> str:
    """Somebody of the office."""
    found = [one for one in office.people.all() if "office" in one.roles and one.name == name]
    if len(found) != 1:
        names = ", ".join(one.name for one in office.people.all() if "office" in one.roles)
        raise click.UsageError(f"--by {name}: nobody of the office is called so; there are {names}.")
    return found[0].id


def _words(told: dict[str, Any]) -> str:
    mapping = told["mapping"]
    columns = ", ".join(f"{one['sensor']} is column {one['column'] + 1}" for one in mapping["sensors"])
    lines = [
        f"{told['file']}: SHA-256 {told['sha256']}",
        f"time is column {mapping['time'] + 1} ({mapping['time_form']}), {columns or 'no sensor'}",
        f"{told['readings']} readings in {told['rows']} rows, {told['known']} of them were here",
        *(
            f"line {one['line']} {one['column']}: {one['reason']} {one['found']}".rstrip()
            for one in told["unread"][:TOLD_UNREAD]
        ),
    ]
    if told["before_on"]:
        lines.append(f"{told['before_on']} rows before switch-on left out")
    lines.append(f"{told['taken']} readings recorded" if told["taken"] else "nothing recorded")
    return "\n".join(lines)
