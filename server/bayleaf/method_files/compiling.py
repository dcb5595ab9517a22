"""Compiles the YAML of a method file to canonical method documents, or tells every fault with its line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from bayleaf.canonical.digest import sha256_hex
from bayleaf.canonical.form import dumps

from .book import Book
from .build import documents
from .faults import Fault, MethodFileFault
from .figures import figure_faults
from .form import form_faults
from .index import Index, index_of
from .maps import drawing_faults, maps_of
from .order import order_faults
from .references import reference_faults
from .remarks import Remark, remarks_on
from .tree import read_yaml
from .words import option_id


@dataclass(frozen=True)
class Compiled:
    """A method as it is pinned: its canonical JSON, the digest of that, and its drawings by digest."""

    digest: str
    text: str
    document: dict[str, Any]
    drawings: dict[str, bytes]


@dataclass(frozen=True)
class Checked:
    """A file without faults: its methods, and what should be seen by whoever wrote it."""

    methods: list[Compiled]
    remarks: list[Remark]


def compile_methods(text: str, drawings: Mapping[str, bytes] | None = None) -> list[Compiled]:
    """Compiles every method of a YAML file.

    `drawings` holds the bytes of the SVG files by file name.
    Raises MethodFileFault with all faults of the file.
    """
    return check_methods(text, drawings).methods


def check_methods(text: str, drawings: Mapping[str, bytes] | None = None) -> Checked:
    """The same, with the remarks on the file."""
    files = drawings or {}
    source = read_yaml(text)
    if source.faults and source.values is None:
        raise MethodFileFault(source.faults)
    broken = form_faults(source)
    book = Book(source, frozenset(broken.values()))
    index = index_of(book)
    faults = [*source.faults, *broken, *_meant(book, index), *drawing_faults(book, files)]
    if faults:
        raise MethodFileFault(faults)
    return Checked(_compiled(book, files), remarks_on(book, index, files))


def _compiled(book: Book, files: Mapping[str, bytes]) -> list[Compiled]:
    rows = [row for _, row in book.rows(("scenario", "drawings"))]
    digests = {row["id"]: sha256_hex(files[row["file"]]) for row in rows}
    held = {digests[row["id"]]: files[row["file"]] for row in rows}
    return [_digested(document, held) for document in documents(book, digests, maps_of(book, files))]


def _digested(document: dict[str, Any], drawings: dict[str, bytes]) -> Compiled:
    text = dumps(document)
    return Compiled(sha256_hex(text.encode()), text, document, drawings)


def _meant(book: Book, index: Index) -> Iterator[Fault]:
    yield from reference_faults(book, index)
    yield from figure_faults(book)
    yield from order_faults(book)
    yield from _option_faults(book, index)


def _option_faults(book: Book, index: Index) -> Iterator[Fault]:
    """Options whose ids, made from their words, are empty or the same."""
    for ask in index.asks.values():
        taken: set[str] = set()
        for path, name in book.words((*ask.path, "options")):
            made = option_id(name)
            if not made or made in taken:
                allowed = "needed: options that differ in their letters or digits"
                yield book.fault(path, f'"{name}", which makes the id "{made}"', allowed)
            taken.add(made)
