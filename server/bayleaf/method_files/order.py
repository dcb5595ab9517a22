"""Finds ids that stand twice and steps that wait for each other."""

from __future__ import annotations

from collections.abc import Iterator

from .book import Book
from .faults import Fault, Path, shown
from .figures import positions_of


def order_faults(book: Book) -> Iterator[Fault]:
    """Every id that a second thing has too, and every circle of needs."""
    yield from _doubled(book)
    for method, _ in book.rows(("methods",)):
        yield from _circles(book, method)
        yield from _waiting_meanwhile(book, method)


def _doubled(book: Book) -> Iterator[Fault]:
    scenario: Path = ("scenario",)
    lists = [
        (*scenario, key)
        for key in (
            "rivet_groups",
            "heat_zones",
            "sensors_per_zone",
            "materials",
            "drawings",
            "datum_points",
            "gap_points",
            "rivet_points",
        )
    ]
    lists += [("standing_conditions",), ("methods",)]
    lists += [(*zone, "pads") for zone, _ in book.rows((*scenario, "heat_zones"))]
    lists += [(*method, "stages") for method, _ in book.rows(("methods",))]
    asks = [(*step, "asks") for step in _all_steps(book)]
    lists += asks + [(*ask, "repeat") for path in asks for ask, _ in book.rows(path)]
    for path in lists:
        yield from _twice(book, [(row_path, row.get("id")) for row_path, row in book.rows(path)])
    yield from _twice(book, [(step, book.at((*step, "id"))) for step in _all_steps(book)])
    yield from _twice_among_positions(book)


def _all_steps(book: Book) -> list[Path]:
    return [step for method, _ in book.rows(("methods",)) for step, _row in book.steps(method)]


def _twice(book: Book, rows: list[tuple[Path, object]]) -> Iterator[Fault]:
    first: dict[str, Path] = {}
    for path, name in rows:
        if not isinstance(name, str):
            continue
        if name in first:
            line = book.source.line((*first[name], "id"))
            yield book.fault(
                (*path, "id"),
                f"{shown(name)} a second time",
                f"it stands in line {line} already: choose another id",
            )
        first.setdefault(name, path)


def _twice_among_positions(book: Book) -> Iterator[Fault]:
    taken: set[str] = set()
    for path, _ in book.rows(("scenario", "rivet_groups")):
        text = book.word((*path, "positions"))
        here = positions_of(text) if text else []
        both = [position for position in here if position in taken]
        if both:
            yield book.fault(
                (*path, "positions"),
                f"{', '.join(both)} a second time",
                "needed: a position in one group only",
            )
        taken.update(here)


def _waiting_meanwhile(book: Book, method: Path) -> Iterator[Fault]:
    """Steps that are to go on while a hold point is held, and yet wait for it."""
    needs = {
        row["id"]: [need.partition("@")[0] for _, need in book.words((*step, "needs"))]
        for step, row in book.steps(method)
        if isinstance(row.get("id"), str)
    }
    for step, row in book.steps(method):
        for path, other in book.words((*step, "meanwhile")):
            if str(row.get("id")) in _all_needed(other, needs):
                allowed = "needed: a step that does not wait for this hold point"
                yield book.fault(path, f"{shown(other)}, which needs {row['id']}", allowed)


def _all_needed(step: str, needs: dict[str, list[str]]) -> set[str]:
    found: set[str] = set()
    waiting = list(needs.get(step, []))
    while waiting:
        wanted = waiting.pop()
        if wanted not in found:
            found.add(wanted)
            waiting += needs.get(wanted, [])
    return found


def _circles(book: Book, method: Path) -> Iterator[Fault]:
    """Depth first over the needs; each circle is told once, at the need that closes it."""
    needs = {
        row["id"]: [(path, need.partition("@")[0]) for path, need in book.words((*step, "needs"))]
        for step, row in book.steps(method)
        if isinstance(row.get("id"), str)
    }
    settled: set[str] = set()
    for begin in needs:
        trail: list[str] = []
        stack: list[tuple[str, int]] = [(begin, 0)]
        while stack:
            step, turn = stack.pop()
            if turn == 0 and step in settled:
                continue
            del trail[len(stack) :]
            trail.append(step)
            if turn == len(needs[step]):
                settled.add(step)
                continue
            stack.append((step, turn + 1))
            path, wanted = needs[step][turn]
            if wanted in trail:
                circle = " -> ".join([*trail[trail.index(wanted) :], wanted])
                yield book.fault(
                    path, f"a circular need ({circle})", "needed: steps that do not wait for each other"
                )
            elif wanted in needs:
                stack.append((wanted, 0))
