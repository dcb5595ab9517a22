"""Makes the command of a book of computations: one JSON document asks, one answers."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import TextIO

import click

from bayleaf.computations import Computation, DocumentRefused, answer_text, refused_document
from bayleaf.computations.shapes import Book


def command_of(book: Book, name: str) -> Callable[[Callable[[], None]], click.Command]:
    """A decorator: the function's docstring is the command's help, the book is what it computes."""
    names = "\n".join(f"  {one.name:22}{one.about}" for one in book.values())

    def made(described: Callable[[], None]) -> click.Command:
        @click.command(name, help=described.__doc__, epilog=f"\b\nComputations:\n{names}")
        @click.argument("name", metavar="NAME", type=click.Choice(list(book)))
        @click.argument("file", type=click.File(encoding="utf-8", errors="strict"), required=False)
        @click.option(
            "--schema", is_flag=True, help="Print the JSON Schema of what NAME asks for, and nothing else."
        )
        @click.option("--json", "as_json", is_flag=True, help="The answer on one line, for scripts.")
        def command(name: str, file: TextIO | None, schema: bool, as_json: bool) -> None:
            if schema:
                click.echo(_written(book[name].schema(), 2))
                return
            _answer(book[name], file, None if as_json else 2)

        return command

    return made


def _answer(computation: Computation, file: TextIO | None, indent: int | None) -> None:
    if file is None:
        raise click.UsageError("FILE is missing: name the JSON document, or - for standard input.")
    try:
        answered = answer_text(computation, file.read())
    except UnicodeDecodeError as error:
        raise click.UsageError(f"{file.name}: cannot be read as a UTF-8 text ({error}).") from error
    except DocumentRefused as refused:
        click.echo(_written(refused_document(computation, refused), indent))
        click.echo(str(refused), err=True)
        raise SystemExit(2) from refused
    click.echo(_written(answered, indent))


def _written(document: object, indent: int | None) -> str:
    return json.dumps(document, indent=indent, ensure_ascii=False)
