"""The commands about heat: `heat plan`, `heat verdict` and `heat readings`."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from bayleaf.cli_options import AS_JSON, DATABASE_URL, OF_SERVE, data_folder
from bayleaf.cli_readings import readings
from bayleaf.heat.asked import asked_run
from bayleaf.heat.faults import ZoneFault
from bayleaf.heat.plan import FIRST, plan_of
from bayleaf.heat.plan_json import asked_json, plan_json
from bayleaf.heat.plan_words import plan_lines
from bayleaf.heat.readings_document import read_run
from bayleaf.heat.response import packed
from bayleaf.heat.response_plan import response_of
from bayleaf.heat.step_length import Accuracy
from bayleaf.heat.verdict import Verdict, verdict_of
from bayleaf.heat.zone import Zone
from bayleaf.heat.zone_document import read_zone
from bayleaf.heat.zone_schema import zone_schema

FAULTY, INFEASIBLE = 1, 3
ASKED = Accuracy(step_error_K=0.01, longest_s=4096)
FILE = click.Path(exists=True, dir_okay=False, path_type=Path)
OUT = click.Path(dir_okay=False, writable=True, path_type=Path)


@click.group()
def heat() -> None:
    """Forecast a heat run before the pads are switched on, and judge it afterwards.

    The vehicle maker's instructions and the adhesive's data sheet come first.
    """


heat.add_command(readings)


@heat.command("plan")
@click.argument("zone", required=False, type=FILE)
@AS_JSON
@click.option("--picture", type=OUT, help="Write the joint and its curves as one SVG picture.")
@click.option(
    "--response", type=OUT, help="Write the response set that a phone fits its readings to (gzipped JSON)."
)
@click.option("--schema", is_flag=True, help="Print the JSON Schema of a zone document, and do nothing else.")
def plan(zone: Path | None, as_json: bool, picture: Path | None, response: Path | None, schema: bool) -> None:
    """Plan the heat run of a ZONE: when it is workable, what the metal sees, how to release it.

    ZONE is YAML or JSON with the units in its key names. A zone without a bondline is run once and answers
    only what its `report` asks for.

    \b
    Example: bayleaf heat plan zones/upper.yaml --picture upper.svg
    Exit status: 0 feasible, 1 faults in the zone, 2 if the file cannot be read, 3 planned but not feasible.
    """
    if schema:
        click.echo(json.dumps(zone_schema(), indent=2))
        return
    if zone is None:
        raise click.UsageError("ZONE is missing: name the zone document to plan.")
    read = _zone(zone, as_json=as_json)
    if not read.bondline:
        _tell_asked(read, as_json=as_json)
        return
    made = plan_of(read)
    if picture:
        from bayleaf.heat.picture import picture as drawn

        picture.write_text(drawn(made), "utf-8")
    if response:
        response.write_bytes(packed(response_of(made)))
    answer = plan_json(made)
    click.echo(json.dumps(answer) if as_json else "\n".join(plan_lines(answer)))
    if made.troubles:
        raise SystemExit(INFEASIBLE)


def _zone(path: Path, *, as_json: bool) -> Zone:
    try:
        return read_zone(_text(path))
    except ZoneFault as fault:
        raise _faulty(path, fault, as_json=as_json) from fault


def _text(path: Path) -> str:
    try:
        return path.read_text("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise click.UsageError(f"{path} cannot be read as text: {error}") from error


def _faulty(path: Path, fault: ZoneFault, *, as_json: bool) -> SystemExit:
    if as_json:
        rows = [{"field": one.field, "message": one.message} for one in fault.faults]
        click.echo(json.dumps({"ok": False, "faults": rows}))
    for one in () if as_json else fault.faults:
        click.echo(f"{path}: {one}", err=True)
    return SystemExit(FAULTY)


def _tell_asked(zone: Zone, *, as_json: bool) -> None:
    answer = asked_json(zone, asked_run(zone, accuracy=ASKED))
    if as_json:
        click.echo(json.dumps(answer))
        return
    for one in answer["report"]:
        click.echo(f"{one['id']} at {one['t_s']:g} s: {one['T_C']:.2f} C")
    for pad in answer["powers"]:
        click.echo(f"pad {pad['pad']} at {pad['t_s']:g} s: {pad['q_W_m2']:.0f} W/m2")
    click.echo(f"heat balance within {answer['heat_balance_error']:.1e}")
    click.echo(f"model: {answer['model']} ({answer['model_id']})")
    click.echo(
        f"inputs: zone {answer['zone']}, {answer['digest'][:16]}; no band: run once, with what it says"
    )
    click.echo(FIRST)


@heat.command("verdict")
@click.argument("file", required=False, type=FILE)
@click.option("--job", default="", help="Judge the runs of a job of the shop, by its order number or id.")
@click.option("--dossier", type=FILE, help="Judge the runs in a dossier, from its entries.")
@data_folder(OF_SERVE, must_exist=False)
@DATABASE_URL
@AS_JSON
def verdict(file: Path | None, data: Path, database: str, as_json: bool, **of: Any) -> None:
    """Judge finished runs by their readings: ramp, soak, peak, minutes, release, cooling, gaps.

    By --job or --dossier from the entries alone, every run of the job; or one run in FILE, JSON or YAML:
    purpose, limits, readings per sensor as [s after switch-on, C], and the acts. Sensors are on the bond
    unless metal_sensors, composite_sensors or neighbour_sensors name them; limits may count minutes above a
    temperature of each (bond_above_C, bond_above_max_min, and so on).

    \b
    Example: bayleaf heat verdict --job 2024-17 --data /srv/bayleaf
             bayleaf heat verdict --dossier 2024-17.zip
             bayleaf heat verdict run.json
    Exit status: 0 conforming (deviations included), 1 faults in the file, 2 if it cannot be read, 3 not
    conforming.
    """
    job, dossier = of["job"], of["dossier"]
    if sum(map(bool, (file, job, dossier))) != 1:
        raise click.UsageError("Name one: FILE, --job or --dossier.")
    if file is not None:
        _of_file(file, as_json=as_json)
        return
    from bayleaf import cli_verdict as entries

    runs = entries.judged_in_dossier(dossier) if dossier else entries.judged_in_shop(data, database, job)
    entries.tell(runs, as_json=as_json)


def _of_file(file: Path, *, as_json: bool) -> None:
    try:
        made = verdict_of(read_run(_text(file)))
    except ZoneFault as fault:
        raise _faulty(file, fault, as_json=as_json) from fault
    click.echo(json.dumps(verdict_json(made)) if as_json else _lines(made))
    if made.overall == "not_conforming":
        raise SystemExit(INFEASIBLE)


def verdict_json(made: Verdict) -> dict[str, object]:
    """The verdict as plain data; `limit` is left out where there is none."""
    from bayleaf.step_computations.heat_verdict import MODEL

    lines = [
        {"what": one.what, "figure": round(one.figure, 2), "unit": one.unit, "standing": one.standing}
        | ({} if one.limit is None else {"limit": one.limit})
        for one in made.lines
    ]
    return {"verdict": made.overall, "model": MODEL, "lines": lines, "first": FIRST}


def _lines(made: Verdict) -> str:
    from bayleaf.report.verdict_words import STANDING

    told = {"not_recorded": STANDING["not_recorded"]}
    rows = [f"{one.sentence}: {told.get(one.standing, one.standing.replace('_', ' '))}" for one in made.lines]
    return "\n".join([made.overall.replace("_", " "), *rows, FIRST])
