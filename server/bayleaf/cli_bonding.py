"""The `bayleaf bonding` command: one JSON document asks, one answers."""

from __future__ import annotations

import json
from typing import TextIO

import click

from bayleaf.computations import BONDING, DocumentRefused, answer_text, refused_document

NAMES = "\n".join(f"  {one.name:22}{one.about}" for one in BONDING.values())


@click.command("bonding", epilog=f"\b\nComputations:\n{NAMES}")
@click.argument("name", metavar="NAME", type=click.Choice(list(BONDING)))
@click.argument("file", type=click.File(encoding="utf-8", errors="strict"), required=False)
@click.option("--schema", is_flag=True, help="Print the JSON Schema of what NAME asks for, and nothing else.")
@click.option("--json", "as_json", is_flag=True, help="The answer on one line, for scripts.")
def bonding(name: str, file: TextIO | None, schema: bool, as_json: bool) -> None:
    """Compute NAME about bonds: air, clocks, bead, cure, thermal mismatch, fit.

    Reads one JSON document from FILE, or - for standard input, and answers one: result, model, inputs with
    their defaults, band, remarks and sources. The vehicle maker's instruction and the product's data sheet
    come first.

    \b
    Example: bayleaf bonding dew-point asked.json
    Exit status: 0 with a result; 2 if the document is refused: the answer then names field, found and
    allowed, and one line says the same on standard error.
    """
    computation = BONDING[name]
    if schema:
        click.echo(json.dumps(computation.schema(), indent=2, ensure_ascii=False))
        return
    if file is None:
        raise click.UsageError("FILE is missing: name the JSON document, or - for standard input.")
    indent = None if as_json else 2
    try:
        answered = answer_text(computation, file.read())
    except UnicodeDecodeError as error:
        raise click.UsageError(f"{file.name}: cannot be read as a UTF-8 text ({error}).") from error
    except DocumentRefused as refused:
        click.echo(json.dumps(refused_document(computation, refused), indent=indent, ensure_ascii=False))
        click.echo(str(refused), err=True)
        raise SystemExit(2) from refused
    click.echo(json.dumps(answered, indent=indent, ensure_ascii=False))
