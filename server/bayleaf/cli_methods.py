"""The commands about method files: `method check`, `method import` and `method show`."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any, NoReturn

import click

from bayleaf.adapters.drawing_files import read_method_file
from bayleaf.cli_options import AS_JSON, DATA, DATABASE_URL
from bayleaf.config import Config
from bayleaf.method_files import (
    MethodFileFault,
    Remark,
    check_methods,
    compile_methods,
    method_schema,
    told,
)

FAULTY = 1
FILE = click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))


@click.group()
def method() -> None:
    """Check and import method files: the written sequence of a repair, as YAML.

    The form is a published JSON Schema: `bayleaf method check --schema` prints it, for editors.
    """


@method.command("check")
@click.argument("file", required=False, type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--schema", is_flag=True, help="Print the JSON Schema of a method file, and do nothing else.")
@AS_JSON
def check(file: Path | None, schema: bool, as_json: bool) -> None:
    """Check a method FILE and name every fault with its line; nothing is stored.

    Use it while writing a method, before it is imported. Each line says where, what was found, and what
    mends it. A file without faults gets remarks where it leaves something out that was then taken as usual.

    \b
    Example: bayleaf method check methods/bracket.yaml
    Exit status: 0 without faults, 1 with faults, 2 if the file cannot be read.
    """
    if schema:
        click.echo(json.dumps(method_schema(), indent=2, ensure_ascii=False))
        return
    if file is None:
        raise click.UsageError("FILE is missing: name the method file to check.")
    yaml, drawings = _read(file)
    try:
        checked = check_methods(yaml, drawings)
    except MethodFileFault as fault:
        _tell_faults(file, fault, as_json=as_json)
    rows = [
        {
            "id": one.document["id"],
            "title": one.document["title"],
            "revision": one.document["revision"],
            "steps": sum(len(stage["steps"]) for stage in one.document["stages"]),
            "digest": one.digest,
        }
        for one in checked.methods
    ]
    _tell(rows, "no faults", as_json=as_json, remarks=checked.remarks, file=file)


@method.command("import")
@FILE
@DATA
@DATABASE_URL
@AS_JSON
def import_(file: Path, data: Path, database: str, as_json: bool) -> None:
    """Import the methods of FILE into a shop, so that jobs can pin them.

    Works while the shop is serving. A job keeps the revision that it pinned; the same file twice
    changes nothing. Drawings are read from beside the file.

    \b
    Example: bayleaf method import methods/bracket.yaml --data /srv/bayleaf
    Exit status: 0 if all are in, 1 with faults (nothing is stored), 2 if a file cannot be read.
    """
    from bayleaf.app import open_parts
    from bayleaf.usecases.import_methods import import_methods

    yaml, drawings = _read(file)
    try:
        compile_methods(yaml, drawings)
    except MethodFileFault as fault:
        _tell_faults(file, fault, as_json=as_json)
    parts = open_parts(Config(data=data, database_url=database))
    try:
        imported = import_methods(parts.office.methods, parts.office.clock, yaml, drawings)
    finally:
        parts.close()
    rows = [
        {"id": one.id, "title": one.title, "revision": one.revision, "known": one.known, "digest": one.digest}
        for one in imported
    ]
    _tell(rows, "imported", as_json=as_json)


@method.command("show")
@FILE
@click.option("--method", "only", default="", help="Show only the method with this id.")
@AS_JSON
def show(file: Path, only: str, as_json: bool) -> None:
    """Show the methods of FILE as people read them: stages, steps, and what each asks for.

    Use it to read a method through before it is issued. With --json it prints the compiled documents.

    \b
    Example: bayleaf method show methods/bracket.yaml
    Exit status: 0 if shown, 1 with faults, 2 if the file or the method cannot be found.
    """
    yaml, drawings = _read(file)
    try:
        compiled = compile_methods(yaml, drawings)
    except MethodFileFault as fault:
        _tell_faults(file, fault, as_json=as_json)
    wanted = [one.document for one in compiled if only in ("", one.document["id"])]
    if not wanted:
        ids = ", ".join(one.document["id"] for one in compiled)
        raise click.UsageError(f"{file} has no method {only!r}; it has {ids}.")
    if as_json:
        click.echo(json.dumps({"ok": True, "methods": wanted}))
        return
    click.echo("\n\n".join("\n".join(told(document)) for document in wanted))


def _read(file: Path) -> tuple[str, dict[str, bytes]]:
    try:
        return read_method_file(file)
    except (OSError, UnicodeDecodeError) as error:
        raise click.UsageError(f"{file}: cannot be read as a UTF-8 text ({error}).") from error


def _tell(
    rows: list[dict[str, Any]],
    what: str,
    *,
    as_json: bool,
    remarks: Sequence[Remark] = (),
    file: Path | None = None,
) -> None:
    if as_json:
        told = {"remarks": [asdict(one) for one in remarks]} if file is not None else {}
        click.echo(json.dumps({"ok": True, "methods": rows, **told}))
        return
    for row in rows:
        was = "here before" if row.get("known") else what
        click.echo(f"{row['id']} {row['revision']} ({row['title']}): {was}; digest {row['digest']}")
    for one in remarks:
        click.echo(f"{file}: remark: {one}", err=True)


def _tell_faults(file: Path, fault: MethodFileFault, *, as_json: bool) -> NoReturn:
    if as_json:
        keys = ("line", "field", "found", "allowed")
        rows = [{key: getattr(one, key) for key in keys} for one in fault.faults]
        click.echo(json.dumps({"ok": False, "faults": rows}))
    else:
        for one in fault.faults:
            click.echo(f"{file}: {one}", err=True)
        click.echo(f"{len(fault.faults)} faults; nothing was stored.", err=True)
    raise SystemExit(FAULTY)
