"""A logger's file as lines of cells: encoding, separator and line numbers, whatever program wrote it."""

from __future__ import annotations

import codecs
import csv
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bayleaf.usecases.refusal import Refusal

SEPARATORS: Final = (";", "\t", ",", "|")
MOST_BYTES: Final = 8_000_000
MOST_LINES: Final = 200_000
MOST_CELLS: Final = 64
LOOKED_AT: Final = 200
WIDEST: Final = 200  # characters of a cell that are shown or compared
_MARKS: Final = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_NUMBER: Final = re.compile(r"\s*[+-]?\d+([.,]\d+)?\s*\Z")


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the file, its number as an editor counts from 1, its cells without blanks around them."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """All lines that are not empty."""

    separator: str
    lines: tuple[Line, ...]


def require_size(content: bytes) -> None:
    """Refusal: too_large."""
    if len(content) > MOST_BYTES:
        said = f"A file of readings has at most {MOST_BYTES} bytes, found {len(content)}."
        raise Refusal("too_large", said)


def text_of(content: bytes) -> str:
    """The file's text: by its byte-order mark, else UTF-8, else the usual single-byte one of offices.

    Refusals: too_large; not_a_table where it is no text.
    """
    require_size(content)
    for mark, encoding in _MARKS:
        if content.startswith(mark):
            return _decoded(content, encoding)
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError:
        text = content.decode("cp1252", "replace")
    return _plain(text)


def _decoded(content: bytes, encoding: str) -> str:
    try:
        return _plain(content.decode(encoding))
    except UnicodeDecodeError as error:
        said = f"The file says that it is {encoding}, and byte {error.start} is not. Save it as UTF-8."
        raise Refusal("not_a_table", said) from error


def _plain(text: str) -> str:
    if "\0" in text:
        said = "The file is no text. Export the readings as CSV from the logger's program."
        raise Refusal("not_a_table", said)
    return text.replace("\r\n", "\n").replace("\r", "\n")


def table_of(text: str, separator: str = "") -> Table:
    """Its lines by this separator, or by the one that fits best. Refusal: not_a_table."""
    chosen = separator or _separator(text)
    lines = tuple(_lines(text, chosen))
    if not lines:
        raise Refusal("not_a_table", "The file has no line. Export the readings anew.")
    return Table(chosen, lines)


def is_number(cell: str) -> bool:
    """Whether the cell is a figure, with a point or a comma."""
    return _NUMBER.match(cell) is not None


def _lines(text: str, separator: str) -> Iterator[Line]:
    begins = 1
    read = csv.reader((f"{line}\n" for line in text.split("\n")), delimiter=separator, skipinitialspace=True)
    try:
        for cells in read:
            kept = tuple(cell.strip()[:WIDEST] for cell in cells[:MOST_CELLS])
            if any(kept):
                yield Line(begins, kept)
            begins = read.line_num + 1
            if begins > MOST_LINES + 1:
                said = f"A file of readings has at most {MOST_LINES} lines. Split it by time."
                raise Refusal("too_large", said)
    except csv.Error as error:
        said = f"Line {begins} cannot be split into cells ({error}). Export the file anew."
        raise Refusal("not_a_table", said) from error


def _separator(text: str) -> str:
    """The one by which most lines have the same number of cells, of two or more."""
    sample = [line for line in text.split("\n")[:LOOKED_AT] if line.strip()]
    return max(SEPARATORS, key=lambda one: _evenness(sample, one))


def _evenness(sample: Sequence[str], separator: str) -> tuple[int, int]:
    """How many lines agree on a count of cells, then how many cells that is."""
    counts = Counter(line.count(separator) for line in sample if separator in line)
    if not counts:
        return (0, 0)
    cells, lines = max(counts.items(), key=lambda pair: (pair[1], pair[0]))
    return (lines, cells)
