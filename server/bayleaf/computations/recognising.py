"""Which computation a document asks for: the one that it names, else the one that its field names fit.

A document is the inputs alone, or `computation` and `inputs`, as an answer carries them, or the inputs with
their `computation` among them. Figures never decide: only the names of fields do, and where they fit more
than one the document has to name its own.
"""

from __future__ import annotations

from typing import Any

from bayleaf.computations.parsing import ONE_OBJECT
from bayleaf.computations.refusal import DocumentRefused
from bayleaf.computations.shapes import Book, Computation

COMPUTATION, INPUTS = "computation", "inputs"


def inputs_of(computation: Computation, document: Any) -> Any:
    """The inputs of a document that was asked of a computation by name. Raises DocumentRefused."""
    named = _named(document)
    if named not in (None, computation.name):
        raise DocumentRefused(COMPUTATION, str(named), f"{computation.name}, as it was asked for")
    return _inputs(document)


def asked_of(book: Book, document: Any) -> tuple[Computation, Any]:
    """The computation, and its inputs as they stand in the document. Raises DocumentRefused."""
    if not isinstance(document, dict):
        raise DocumentRefused("", type(document).__name__, ONE_OBJECT)
    named, inputs = _named(document), _inputs(document)
    if named is None:
        return _recognised(book, inputs if isinstance(inputs, dict) else {}), inputs
    if not isinstance(named, str) or named not in book:
        raise DocumentRefused(COMPUTATION, str(named), f"one of {', '.join(book)}")
    return book[named], inputs


def _named(document: Any) -> Any:
    return document.get(COMPUTATION) if isinstance(document, dict) else None


def _inputs(document: Any) -> Any:
    if not isinstance(document, dict):
        return document
    others = {name: one for name, one in document.items() if name != COMPUTATION}
    return others[INPUTS] if others.keys() == {INPUTS} else others


def _recognised(book: Book, document: dict[str, Any]) -> Computation:
    there = frozenset(document)
    fitting = [one for one in book.values() if _fits(one, there)] or _nearest(book, there)
    if len(fitting) == 1:
        return fitting[0]
    names = ", ".join(one.name for one in fitting or book.values())
    raise DocumentRefused("computation", "nothing", f"one of {names}: these fields alone do not say which")


def _fits(computation: Computation, there: frozenset[str]) -> bool:
    known = {*computation.asks, *computation.may}
    sets = [names for names in computation.one_of if there.issuperset(names)]
    return (
        there.issuperset(computation.asks) and there <= known and (not computation.one_of or len(sets) >= 1)
    )


def _nearest(book: Book, there: frozenset[str]) -> list[Computation]:
    """Where none fits: those that know most of the fields, and of these those that want the fewest more.

    Their own schema says what is wrong; no figure comes of it.
    """
    known = {name: len(there & {*one.asks, *one.may}) for name, one in book.items()}
    most = max(known.values())
    if most == 0:
        return []
    near = [one for one in book.values() if known[one.name] == most]
    least = min(len(set(one.asks) - there) for one in near)
    return [one for one in near if len(set(one.asks) - there) == least]
