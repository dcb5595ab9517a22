"""Where every step and every ask of a method file stands, and how one names another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from .book import Book, Row
from .faults import Fault, Path, shown

Place = tuple[int, int, int]  # method, step of the method, ask of the step: what comes first


@dataclass(frozen=True)
class StepAt:
    """A step, the path it stands at, and its method."""

    method: str
    id: str
    path: Path
    row: Row
    place: Place


@dataclass(frozen=True)
class AskAt:
    """An ask, the path it stands at, and its step."""

    step: StepAt
    id: str
    path: Path
    row: Row
    place: Place

    @property
    def kind(self) -> str:
        """Its kind; empty where the file has none that is a word."""
        kind = self.row.get("ask")
        return kind if isinstance(kind, str) else ""

    @property
    def points(self) -> list[str]:
        """The ids of its points, in order; none where it is read once."""
        repeat = self.row.get("repeat")
        rows = repeat if isinstance(repeat, list) else []
        return [row["id"] for row in rows if isinstance(row, dict) and isinstance(row.get("id"), str)]


@dataclass(frozen=True)
class Index:
    """All steps by id, all asks by (step, ask), and the methods that each method builds on."""

    steps: Mapping[str, StepAt]
    asks: Mapping[tuple[str, str], AskAt]
    builds_on: Mapping[str, frozenset[str]]

    def steps_of(self, method: str) -> list[StepAt]:
        return [step for step in self.steps.values() if step.method == method]

    def asks_of(self, step: StepAt) -> list[AskAt]:
        return [ask for ask in self.asks.values() if ask.step.id == step.id]

    def can_see(self, method: str, other: str) -> bool:
        """Is `other` the method itself, or pinned before it?"""
        return other == method or other in self.builds_on.get(method, frozenset())


def index_of(book: Book) -> Index:
    """The index of a file; what has no well-formed id is not in it."""
    steps: dict[str, StepAt] = {}
    asks: dict[tuple[str, str], AskAt] = {}
    for number, (method, row) in enumerate(book.rows(("methods",))):
        for step in _steps(book, method, str(row.get("id", "")), number):
            steps.setdefault(step.id, step)
            for ask in _asks(book, step):
                asks.setdefault((step.id, ask.id), ask)
    return Index(steps, asks, _builds_on(book))


def _steps(book: Book, method: Path, name: str, number: int) -> Iterator[StepAt]:
    for place, (path, row) in enumerate(book.steps(method)):
        if isinstance(row.get("id"), str):
            yield StepAt(name, row["id"], path, row, (number, place, -1))


def _asks(book: Book, step: StepAt) -> Iterator[AskAt]:
    for place, (path, row) in enumerate(book.rows((*step.path, "asks"))):
        if isinstance(row.get("id"), str):
            yield AskAt(step, row["id"], path, row, (*step.place[:2], place))


def _builds_on(book: Book) -> dict[str, frozenset[str]]:
    """Each method that stands before one and is needed by it, or by one that it needs."""
    found: dict[str, frozenset[str]] = {}
    for _, row in book.rows(("methods",)):
        needed = row.get("needs_method")
        before = found.get(needed) if isinstance(needed, str) else None
        name = str(row.get("id", ""))
        found.setdefault(name, frozenset() if before is None else before | {str(needed)})
    return found


def named_step(book: Book, index: Index, path: Path, word: str, method: str) -> StepAt | Fault:
    """The step that a word means, or why it means none that `method` can speak of."""
    step = index.steps.get(word)
    if step is None:
        here = [known.id for known in index.steps_of(method)]
        return book.unknown(path, word, "step", here)
    if not index.can_see(method, step.method):
        found = f"{shown(word)}, a step of the method {step.method}"
        allowed = f"needed: a step of {method}, or needs_method: {step.method} at the method {method}"
        return book.fault(path, found, allowed)
    return step


def named_ask(book: Book, index: Index, path: Path, words: str, reader: AskAt) -> tuple[AskAt, str] | Fault:
    """The ask and the point ("" for none) that `step.ask` or `step.ask.point` means to `reader`.

    What is named must come before its reader: neither the ask itself nor a later one.
    """
    step_id, _, rest = words.partition(".")
    ask_id, _, point = rest.partition(".")
    step = named_step(book, index, path, step_id, reader.step.method)
    if isinstance(step, Fault):
        return step
    ask = index.asks.get((step.id, ask_id))
    if ask is None:
        known = [one.id for one in index.asks_of(step)]
        return book.unknown(path, f"{step_id}.{ask_id}", f"ask of {step_id}", known)
    if ask.place >= reader.place:
        found = f"{shown(words)}, which is not answered before {reader.step.id}.{reader.id}"
        return book.fault(path, found, "needed: an ask that comes before this one")
    if point and point not in ask.points:
        return book.unknown(path, words, f"point of {step_id}.{ask_id}", ask.points)
    return ask, point
