"""The command that copies a shop while it serves."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path

import click

from bayleaf.cli_options import AS_JSON, DATA, DATABASE_URL
from bayleaf.config import Config


@click.command()
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
@DATA
@DATABASE_URL
@AS_JSON
def backup(folder: Path, data: Path, database: str, as_json: bool) -> None:
    """Copy a shop into FOLDER while it serves: records, photos, dossiers, keys.

    Use it every evening, onto another disk. FOLDER is empty, or holds an earlier backup of the same
    shop; then only what is new is copied, and the earlier one stays whole until the new one is.
    Phones let go of a photo only once a finished backup (or a dossier) holds it. FOLDER holds the
    keys too: guard it like the shop's own.

    To put it back: stop the server, move the old data folder away, copy FOLDER in its place, start
    the server. What was recorded after the backup comes back from the phones at their next contact.

    A database of its own (--database) is not copied by this command: copy it by pg_dump first, then
    the data folder.

    \b
    Example: bayleaf backup /mnt/evening --data /srv/bayleaf
    Exit status: 0 finished, 1 not finished (the lines before say why), 2 if there is no shop in --data.
    """
    from bayleaf.adapters.backup_folder import DATABASE, BackupFolder
    from bayleaf.adapters.database import open_engine
    from bayleaf.adapters.disk_photos import DiskPhotos
    from bayleaf.adapters.system_clock import SystemClock
    from bayleaf.usecases.backup import BackupFault, make_backup

    _require_embedded(data / DATABASE, database)
    if not (data / DATABASE).is_file() or not (data / "seal.pem").is_file():
        raise click.UsageError(
            f"{data}: no shop's data folder (it has no {DATABASE} and seal.pem); name it by --data."
        )
    engine = open_engine(Config(data=data).database)
    try:
        report = make_backup(BackupFolder(data, folder), DiskPhotos(engine, data), SystemClock(), _say)
    except (BackupFault, OSError) as fault:
        raise click.ClickException(f"backup not finished: {fault}") from fault
    finally:
        engine.dispose()
    if as_json:
        click.echo(json.dumps({"folder": str(folder), **asdict(report)}))
        return
    photos = f"{report.photos} photos ({report.copied} new)"
    rest = f"{photos}, {report.dossiers} dossiers"
    click.echo(f"{folder}: finished; {report.entries} entries of {report.jobs} jobs, {rest}")


def _require_embedded(file: Path, database: str) -> None:
    """Only the SQLite store in the data folder is copied here; a copy without its records would be none."""
    from sqlalchemy.engine import make_url
    from sqlalchemy.exc import ArgumentError

    if not database:
        return
    try:
        url = make_url(database)
    except ArgumentError as error:
        raise click.UsageError("--database: no database URL; see `bayleaf serve --help`.") from error
    if url.get_backend_name() != "sqlite" or Path(url.database or "").resolve() != file.resolve():
        raise click.UsageError(
            f"--database: a backup copies only the SQLite store {file}. Copy this store by its own tool "
            "(pg_dump for PostgreSQL), and then the data folder, so that no photo that it names is missing."
        )


def _say(line: str) -> None:
    click.echo(line, err=True)
