"""The command that looks whether a shop's server is well."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path

import click

from bayleaf.cli_options import AS_JSON, DATABASE_URL, OF_SERVE, data_folder

SHOWN = {"well": "well", "look": "LOOK", "mend": "MEND"}


@click.command()
@data_folder(OF_SERVE, must_exist=False)
@click.option("--name", default="", envvar="BAYLEAF_NAME", help="The name given to `bayleaf serve`.")
@click.option(
    "--cert",
    envvar="BAYLEAF_CERT",
    type=click.Path(path_type=Path),
    help="The certificate given to it.",
)
@DATABASE_URL
@AS_JSON
def doctor(data: Path, name: str, cert: Path | None, database: str, as_json: bool) -> None:
    """Look whether a shop's server is well: data, keys, calls to phones, certificate, disk, clock.

    Use it after setting up, after an update, and when phones are not called. It changes nothing and may
    be run while the shop serves. Each line that is not well says what mends it.

    \b
    Example: bayleaf doctor --data /srv/bayleaf --name cards.example.org --cert fullchain.pem
    Exit status: 0 nothing to mend (a LOOK is for a person to judge), 1 something to mend.
    """
    from bayleaf.doctor import Patient, examine

    lines = examine(Patient(data, name, cert, database))
    well = all(line.state != "mend" for line in lines)
    if as_json:
        click.echo(json.dumps({"ok": well, "lines": [asdict(line) for line in lines]}))
    else:
        for line in lines:
            click.echo(f"{SHOWN[line.state]}  {line.what}: {line.found}")
            if line.mend:
                click.echo(f"      {line.mend}")
    raise SystemExit(0 if well else 1)
