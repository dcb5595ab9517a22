"""The command that takes in records brought as a file."""

from __future__ import annotations

import json
from pathlib import Path

import click

from bayleaf.cli_options import AS_JSON, DATA, DATABASE_URL
from bayleaf.config import Config

DATABASE = "bayleaf.sqlite3"
SEAL = "seal.pem"


@click.group()
def handin() -> None:
    """Take in hand-ins: records that a phone without a network gave out as a file."""


@handin.command("import")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@DATA
@DATABASE_URL
@AS_JSON
def import_(file: Path, data: Path, database: str, as_json: bool) -> None:
    """Import a hand-in FILE: entries and photos of a phone that will not see the network again.

    Works while the shop serves. Every entry is judged as if its phone had sent it; what the office holds
    already changes nothing, so the same file twice is harmless. The phone's records stay on the phone.

    \b
    Example: bayleaf handin import phone-2024-05-04.bayleaf-handin --data /srv/bayleaf
    Exit status: 0 if the file was read (some entries may be set aside or refused: it says how many),
    1 if it is no hand-in, 2 if a file or the shop cannot be read.
    """
    from bayleaf.app import open_parts
    from bayleaf.ports import NIL, Caller
    from bayleaf.usecases.hand_in import hand_in
    from bayleaf.usecases.refusal import Refusal

    needed = SEAL if database else DATABASE
    if not (data / needed).is_file():
        raise click.UsageError(f"{data}: no shop's data folder ({needed} missing); see --data.")
    parts = open_parts(Config(data=data, database_url=database))
    try:
        with file.open("rb") as opened:
            found = hand_in(parts.office, Caller(kind="office", device="", person=NIL), opened)
    except OSError as error:
        raise click.UsageError(f"{file}: cannot be read ({error}).") from error
    except Refusal as refusal:
        raise click.ClickException(f"{file}: {refusal}") from refusal
    finally:
        parts.close()
    if as_json:
        click.echo(json.dumps(found))
        return
    counts = ", ".join(
        f"{key.replace('_', ' ')} {count}" for key, count in found.items() if isinstance(count, int)
    )
    click.echo(f"{file}: {counts}")
