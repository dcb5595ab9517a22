"""Turns the figures of a method file into scaled integers, and finds those that cannot be."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from .book import Book, Row
from .faults import Fault, Path, shown

MAX_SCALED = 2**53 - 1
SECONDS = 60


def scaled(figure: int | Decimal, decimals: int) -> int:
    """A figure as the integer that the record holds: 3.5 at one decimal is 35."""
    return int(Decimal(figure).scaleb(decimals))


def seconds(minutes: int | Decimal) -> int:
    return int(Decimal(minutes) * SECONDS)


def figure_faults(book: Book) -> Iterator[Fault]:
    """Limits with too many decimals or the wrong way round; times that are no whole second."""
    for method, _ in book.rows(("methods",)):
        for step, _row in book.steps(method):
            for path, ask in book.rows((*step, "asks")):
                if ask.get("ask") == "reading":
                    yield from _reading(book, path, ask)
    yield from _times(book)
    yield from _counts(book)


def _reading(book: Book, path: Path, ask: Row) -> Iterator[Fault]:
    decimals = ask.get("decimals")
    if not isinstance(decimals, int) or isinstance(decimals, bool) or (*path, "decimals") in book.broken:
        return
    too_fine = list(_too_fine(book, path, decimals))
    yield from too_fine
    if not too_fine:
        yield from _order(book, path)


def _limits(book: Book, path: Path) -> Iterator[tuple[Path, int | Decimal]]:
    for limit in ((*path, "min"), (*path, "max"), (*path, "plausible", 0), (*path, "plausible", 1)):
        figure = book.at(limit)
        if isinstance(figure, int | Decimal) and not isinstance(figure, bool) and limit not in book.broken:
            yield limit, figure


def _too_fine(book: Book, path: Path, decimals: int) -> Iterator[Fault]:
    for limit, figure in _limits(book, path):
        given = max(0, -int(Decimal(figure).as_tuple().exponent))
        if given > decimals:
            yield book.fault(
                limit,
                f"{figure}, a limit with {given} decimals",
                f"allowed: {decimals}, as the ask's `decimals` says",
            )
        elif abs(scaled(figure, decimals)) > MAX_SCALED:
            yield book.fault(
                limit, shown(figure), "allowed: figures that stay within 2^53 without their point"
            )


def _order(book: Book, path: Path) -> Iterator[Fault]:
    figures = {limit[len(path) :]: figure for limit, figure in _limits(book, path)}
    least, most = figures.get(("min",)), figures.get(("max",))
    low, high = figures.get(("plausible", 0)), figures.get(("plausible", 1))
    if least is not None and most is not None and least > most:
        yield book.fault((*path, "min"), f"min {least} above max {most}", "needed: min at or below max")
    if low is not None and high is not None and low >= high:
        yield book.fault((*path, "plausible"), f"{low} to {high}", "needed: the lower figure first")
    if "against" in book.at(path):
        return  # the limits are those of a difference, the plausible range that of the figure itself
    if (low is not None and least is not None and low > least) or (
        high is not None and most is not None and high < most
    ):
        yield book.fault((*path, "plausible"), f"{low} to {high}", "needed: a range wider than the limits")


def _times(book: Book) -> Iterator[Fault]:
    settings: Path = ("scenario", "heat_settings")
    for purpose in ("removal", "cure"):
        for key in ("soak_min_minutes", "hold_minutes", "ramp_expected_minutes"):
            path = (*settings, purpose, key)
            minutes = book.at(path)
            if isinstance(minutes, int | Decimal) and Decimal(minutes) * SECONDS % 1:
                yield book.fault(path, f"{minutes} minutes", "needed: a whole number of seconds")


def positions_of(text: str) -> list[str]:
    """`H1 to H4` written out: H1, H2, H3, H4; empty where it is no such row."""
    first, _, last = text.partition(" to ")
    letters = first.rstrip("0123456789")
    if letters != last.rstrip("0123456789"):
        return []
    return [
        f"{letters}{number}" for number in range(int(first[len(letters) :]), int(last[len(letters) :]) + 1)
    ]


def _counts(book: Book) -> Iterator[Fault]:
    for path, row in book.rows(("scenario", "rivet_groups")):
        text, count = book.word((*path, "positions")), row.get("count")
        if text is None or not isinstance(count, int):
            continue
        found = len(positions_of(text))
        if found != count:
            yield book.fault(
                (*path, "positions"), f"{shown(text)}, {found} positions", f"needed: {count}, as `count` says"
            )


def exact(figure: int | Decimal) -> Row:
    """A figure as it was written: 3.50 is 350 with 2 decimals."""
    decimals = max(0, -int(Decimal(figure).as_tuple().exponent))
    return {"value": scaled(figure, decimals), "decimals": decimals}
