"""Takes a method file into the store: compiled, digested, its drawings by hash."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from bayleaf.method_files import Compiled, compile_methods
from bayleaf.ports import Clock, MethodStore


@dataclass(frozen=True)
class Imported:
    """A method that the store holds now; `known`: it held it before."""

    digest: str
    id: str
    title: str
    revision: str
    known: bool


def import_methods(
    methods: MethodStore, clock: Clock, yaml: str, drawings: Mapping[str, bytes]
) -> list[Imported]:
    """Every method of the file, in its order; raises MethodFileFault with all that is wrong, storing nothing.

    `drawings` holds the bytes of the SVG files that the method file names, by file name.
    """
    return [_stored(methods, clock.now_ms(), yaml, compiled) for compiled in compile_methods(yaml, drawings)]


def _stored(methods: MethodStore, now_ms: int, yaml: str, compiled: Compiled) -> Imported:
    for digest, drawing in compiled.drawings.items():
        methods.put_drawing(digest, drawing)
    new = methods.put(compiled.digest, compiled.text, yaml, now_ms)
    document = compiled.document
    return Imported(compiled.digest, document["id"], document["title"], document["revision"], known=not new)
