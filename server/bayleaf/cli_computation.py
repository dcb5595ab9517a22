"""Makes the command of a book of computations: one JSON document asks, one answers."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from pathlib import Path

import click

from bayleaf.computations import (
    Computation,
    DocumentRefused,
    answer_parsed,
    asked_of,
    book_schema,
    inputs_of,
    parsed,
    refused_document,
)
from bayleaf.computations.shapes import Book

REFUSED = 3  # not 2: that is the command line itself used wrongly, and leaves no document


def command_of(book: Book, name: str) -> Callable[[Callable[[], None]], click.Command]:
    """A decorator: the function's docstring is the command's help, the book is what it computes."""
    names = "\n".join(f"  {one.name:22}{one.about}" for one in book.values())

    def made(described: Callable[[], None]) -> click.Command:
        @click.command(name, help=described.__doc__, epilog=f"\b\nComputations:\n{names}")
        @click.argument("name", metavar="[NAME]", required=False)
        @click.argument("file", metavar="[FILE]", required=False)
        @click.option(
            "--schema",
            is_flag=True,
            help="Print the JSON Schema of what NAME asks for, or of all.",
        )
        @click.option("--json", "as_json", is_flag=True, help="The answer on one line, for scripts.")
        def command(name: str | None, file: str | None, schema: bool, as_json: bool) -> None:
            computation, path = _named(book, name, file)
            if schema:
                click.echo(_written(_schema(book, computation, described.__name__), 2))
                return
            _answer(book, computation, _text(path), None if as_json else 2)

        return command

    return made


def _named(book: Book, name: str | None, file: str | None) -> tuple[Computation | None, str | None]:
    """NAME and FILE; one word alone is a NAME if it is one, else a FILE."""
    if name is None or name in book:
        return (book[name] if name else None), file
    if file is None:
        return None, name
    raise click.UsageError(f"{name} is none of its computations: {', '.join(book)}.")


def _schema(book: Book, computation: Computation | None, command: str) -> object:
    return book_schema(f"bayleaf {command}", book) if computation is None else computation.schema()


def _text(path: str | None) -> bytes:
    if path is None:
        piped = b"" if sys.stdin.isatty() else sys.stdin.buffer.read()
        if not piped:
            raise click.UsageError("FILE is missing: name the JSON document, or - for standard input.")
        return piped
    try:
        return sys.stdin.buffer.read() if path == "-" else Path(path).read_bytes()
    except OSError as error:
        said = f"{path}: {error.strerror}; --help lists the names of computations."
        raise click.UsageError(said) from error


def _answer(book: Book, computation: Computation | None, text: bytes, indent: int | None) -> None:
    try:
        document = parsed(text)
        if computation is None:
            computation, inputs = asked_of(book, document)
        else:
            inputs = inputs_of(computation, document)
        answered = answer_parsed(computation, inputs)
    except DocumentRefused as refused:
        click.echo(_written(refused_document(computation, refused), indent))
        click.echo(str(refused), err=True)
        raise SystemExit(REFUSED) from refused
    click.echo(_written(answered, indent))


def _written(document: object, indent: int | None) -> str:
    return json.dumps(document, indent=indent, ensure_ascii=False)
