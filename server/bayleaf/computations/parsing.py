"""Strict JSON in: UTF-8, each name once, finite numbers, whole characters; the first fault in a sentence."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from typing import Any

from bayleaf.computations.refusal import DocumentRefused

MOST_BYTES = 4_000_000
MOST_DIGITS = 400
DEEPEST = 20
ONE_OBJECT = "one JSON object"


class NotFinite:
    """What stands where no number can: NaN, an infinity, or digits beyond all range."""

    def __init__(self, written: str) -> None:
        self.written = written if len(written) <= MOST_DIGITS else f"{len(written)} digits"

    def __str__(self) -> str:
        return self.written


def parsed(written: str | bytes) -> Any:
    """The document; odd numbers stand in it as NotFinite. Raises DocumentRefused."""
    if len(written) > MOST_BYTES:
        raise DocumentRefused("", f"{len(written)} bytes", f"at most {MOST_BYTES}")
    try:
        document = json.loads(
            _text(written),
            object_pairs_hook=_no_twins,
            parse_constant=NotFinite,
            parse_float=_finite,
            parse_int=_whole,
        )
    except json.JSONDecodeError as error:
        found = f"no JSON at line {error.lineno}, column {error.colno} ({error.msg})"
        raise DocumentRefused("", found, ONE_OBJECT) from error
    except RecursionError as error:
        raise DocumentRefused("", "brackets nested too deep", ONE_OBJECT) from error
    for where, text in _texts(document, "", 0):
        if not _is_whole(text):
            raise DocumentRefused(ascii(where).strip("'"), ascii(text), "text of whole characters")
    return document


def not_finite(value: Any, where: str = "") -> Iterator[tuple[str, str]]:
    """(field, what is written there) of each odd number, in the order of the document."""
    match value:
        case NotFinite():
            yield where, value.written
        case dict():
            for name, inner in value.items():
                yield from not_finite(inner, inside(where, name))
        case list():
            for place, inner in enumerate(value):
                yield from not_finite(inner, inside(where, place))


def inside(where: str, step: str | int) -> str:
    """The field within a field: `a.b`, `a[0]`."""
    return f"{where}[{step}]" if isinstance(step, int) else f"{where}.{step}".removeprefix(".")


def _text(written: str | bytes) -> str:
    if isinstance(written, str):
        return written.removeprefix("\ufeff")
    try:
        return written.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise DocumentRefused("", f"no UTF-8 text at byte {error.start}", f"{ONE_OBJECT} in UTF-8") from error


def _no_twins(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    read: dict[str, Any] = {}
    for name, value in pairs:
        if name in read:
            raise DocumentRefused(ascii(name).strip("'"), "the name twice in one object", "each name once")
        read[name] = value
    return read


def _finite(written: str) -> float | NotFinite:
    number = float(written)
    return number if math.isfinite(number) else NotFinite(written)


def _whole(written: str) -> int | NotFinite:
    return int(written) if len(written) <= MOST_DIGITS else NotFinite(written)


def _texts(value: Any, where: str, depth: int) -> Iterator[tuple[str, str]]:
    """(field, text) of every name and text of a document."""
    if depth > DEEPEST:
        raise DocumentRefused("", "brackets nested too deep", ONE_OBJECT)
    match value:
        case str():
            yield where, value
        case dict():
            for name, inner in value.items():
                yield where, name
                yield from _texts(inner, inside(where, name), depth + 1)
        case list():
            for place, inner in enumerate(value):
                yield from _texts(inner, inside(where, place), depth + 1)


def _is_whole(text: str) -> bool:
    """Whether it can be written out again: no half of a surrogate pair."""
    return not any("\ud800" <= one <= "\udfff" for one in text)
