"""Compiles the YAML of a method file to canonical method documents, or tells every fault with its line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from bayleaf.canonical.digest import sha256_hex
from bayleaf.canonical.form import dumps

from .book import Book
from .build import documents, option_id
from .faults import Fault, MethodFileFault
from .figures import figure_faults
from .form import form_faults
from .order import order_faults
from .references import reference_faults
from .tree import read_yaml


@dataclass(frozen=True)
class Compiled:
    """A method as it is pinned: its canonical JSON, the digest of that, and its drawings by digest."""

    digest: str
    text: str
    document: dict[str, Any]
    drawings: dict[str, bytes]


def compile_methods(text: str, drawings: Mapping[str, bytes] | None = None) -> list[Compiled]:
    """Compiles every method of a YAML file.

    `drawings` holds the bytes of the SVG files by file name.
    Raises MethodFileFault with all faults of the file.
    """
    source = read_yaml(text)
    if source.faults and source.values is None:
        raise MethodFileFault(source.faults)
    broken = form_faults(source)
    book = Book(source, frozenset(broken.values()))
    faults = [*source.faults, *broken, *_meant(book), *_drawing_faults(book, drawings or {})]
    if faults:
        raise MethodFileFault(faults)
    by_id = {
        row["id"]: (drawings or {})[row["file"]] for row in source.values["scenario"].get("drawings", [])
    }
    digests = {name: sha256_hex(content) for name, content in by_id.items()}
    held = {digest: by_id[name] for name, digest in digests.items()}
    return [_compiled(document, held) for document in documents(source.values, digests)]


def _compiled(document: dict[str, Any], drawings: dict[str, bytes]) -> Compiled:
    text = dumps(document)
    return Compiled(sha256_hex(text.encode()), text, document, drawings)


def _meant(book: Book) -> Iterator[Fault]:
    yield from reference_faults(book)
    yield from figure_faults(book)
    yield from order_faults(book)
    yield from _option_faults(book)


def _option_faults(book: Book) -> Iterator[Fault]:
    """Options whose ids, made from their words, are empty or the same."""
    for method, _ in book.rows(("methods",)):
        for step, _row in book.steps(method):
            for ask, _asked in book.rows((*step, "asks")):
                taken: set[str] = set()
                for path, name in book.words((*ask, "options")):
                    made = option_id(name)
                    if not made or made in taken:
                        allowed = "needed: options that differ in their letters or digits"
                        yield book.fault(path, f'"{name}", which makes the id "{made}"', allowed)
                    taken.add(made)


def _drawing_faults(book: Book, drawings: Mapping[str, bytes]) -> Iterator[Fault]:
    for path, _ in book.rows(("scenario", "drawings")):
        name = book.word((*path, "file"))
        if name is not None and name not in drawings:
            yield book.fault(
                (*path, "file"),
                f'"{name}", a file that is not there',
                "needed: the drawing beside the method file",
            )
