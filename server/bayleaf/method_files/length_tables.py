"""Tables of rivet lengths in a method: rows that cannot be right, and rows that do not meet."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from bayleaf.fastening.rivet_tables import WrittenRow, slips_in, unmet_in

from .book import Book, Row
from .faults import Fault, Path
from .figures import scaled
from .index import AskAt, Index

TABLE = "lengths"
RANGE = ("grip_from", "grip_to")
MOST_DECIMALS = 3
MEMBERS = {"length": ("length",), "grip_from": ("grip", 0), "grip_to": ("grip", 1)}


def table_faults(book: Book, ask: AskAt, path: Path) -> Iterator[Fault]:
    """Everything wrong with a table of well-formed rows, each with the line of its row."""
    given = ask.row["inputs"]
    for end in RANGE:
        if end in given:
            yield book.fault(
                (*path[:-1], end), f"`{end}` beside `{path[-1]}`", "leave it out: the rows say it"
            )
    if any(broken[: len(path)] == path for broken in book.broken):
        return
    rows = list(book.rows((*path, "rows")))
    for at, row in rows:
        for figure in (row["length"], *row["grip"]):
            if decimals_of(figure) > MOST_DECIMALS:
                yield book.fault(at, f"{figure} mm", f"allowed: at most {MOST_DECIMALS} decimals")
    for slip in slips_in([_written(row) for _, row in rows]):
        at, _ = rows[slip.row]
        yield book.fault((*at, *MEMBERS[slip.member]), slip.found, f"needed: {slip.needed}")


def table_remarks(book: Book, index: Index) -> Iterator[tuple[Path, str]]:
    """Rows that leave a gap, where no rivet is found, or that overlap, where a person is asked."""
    for ask in index.asks.values():
        inputs = ask.row.get("inputs")
        if ask.kind != "compute" or not isinstance(inputs, dict) or TABLE not in inputs:
            continue
        rows = list(book.rows((*ask.path, "inputs", TABLE, "rows")))
        for unmet in unmet_in([_written(row) for _, row in rows]):
            at, row = rows[unmet.row]
            ends = f"{unmet.from_mm} to {unmet.to_mm} mm"
            if unmet.what == "gap":
                yield at, f"a gap before {row['length']} mm; a grip within {ends} finds no rivet"
            else:
                yield at, f"{row['length']} mm overlaps the row before; a grip within {ends} asks which"


def built_table(name: str, rows: list[Row], unit: str) -> Row:
    """The input as the document holds it, all figures in the finest decimals of the table."""
    figures = [figure for row in rows for figure in (row["length"], *row["grip"])]
    decimals = max(decimals_of(figure) for figure in figures)
    built = [_built(row, decimals) for row in rows]
    return {"name": name, "rows": built, "unit": unit, "decimals": decimals}


def _built(row: Row, decimals: int) -> Row:
    low, high = row["grip"]
    figures = {"length": row["length"], "low": low, "high": high}
    part = {"part": row["part"]} if "part" in row else {}
    return {**{name: scaled(figure, decimals) for name, figure in figures.items()}, **part}


def decimals_of(figure: int | Decimal) -> int:
    """The decimals that a figure was written with."""
    return max(0, -int(Decimal(figure).as_tuple().exponent))


def _written(row: Row) -> WrittenRow:
    low, high = row["grip"]
    return WrittenRow(Decimal(row["length"]), Decimal(low), Decimal(high))
