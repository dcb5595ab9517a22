"""Checks what one step of a method file says of others: needs, conditions, what may go on meanwhile."""

from __future__ import annotations

from collections.abc import Iterator

from .ask_references import ask_faults
from .book import Book
from .faults import Fault, Path, shown
from .heat_references import heat_faults
from .index import Index, StepAt, named_step
from .scenario_references import scenario_faults

CONDITIONS: Path = ("standing_conditions",)
MOMENTS = ("on", "soaked", "workable", "lifted", "off", "cold")


def reference_faults(book: Book, index: Index) -> Iterator[Fault]:
    """Every reference of every method that leads nowhere or contradicts what it leads to."""
    yield from scenario_faults(book)
    yield from _needed_methods(book)
    for step in index.steps.values():
        yield from _needs(book, index, step)
        yield from _conditions(book, step.path)
        yield from _meanwhile(book, index, step)
    for ask in index.asks.values():
        yield from ask_faults(book, index, ask)
    yield from heat_faults(book, index)


def _needed_methods(book: Book) -> Iterator[Fault]:
    before: list[str] = []
    for method, row in book.rows(("methods",)):
        needed = book.word((*method, "needs_method"))
        if needed is not None and needed not in before:
            allowed = f"needed: a method that stands before this one in the file ({', '.join(before)})"
            none = "needed: a method that stands before this one in the file, and none does"
            yield book.fault((*method, "needs_method"), shown(needed), allowed if before else none)
        before.append(str(row.get("id", "")))


def _needs(book: Book, index: Index, step: StepAt) -> Iterator[Fault]:
    for path, need in book.words((*step.path, "needs")):
        word, at, moment = need.partition("@")
        wanted = named_step(book, index, path, word, step.method)
        if isinstance(wanted, Fault):
            yield wanted
        elif at and moment not in MOMENTS:
            yield book.fault(path, f"the moment {shown(moment)}", f"moments: {', '.join(MOMENTS)}")
        elif at:
            yield from _moment(book, index, path, need, wanted)


def _moment(book: Book, index: Index, path: Path, need: str, wanted: StepAt) -> Iterator[Fault]:
    runs = [ask for ask in index.asks_of(wanted) if ask.kind == "heat_run"]
    if not runs:
        yield book.fault(path, shown(need), f"a moment needs a heat run, and {wanted.id} asks for none")
    elif all("continues" in run.row for run in runs):
        begun = str(runs[0].row["continues"]).partition(".")[0]
        yield book.fault(path, shown(need), f"name the step where that run begins: {begun}")


def _conditions(book: Book, step: Path) -> Iterator[Fault]:
    by_id = {str(row.get("id")): row for _, row in book.rows(CONDITIONS)}
    for key in ("sets", "clears"):
        for path, condition in book.words((*step, key)):
            if condition not in by_id:
                yield book.unknown(path, condition, "standing condition", book.ids(CONDITIONS))
            elif by_id[condition].get("set_by") == "heat_run":
                allowed = "a condition that is set_by: heat_run begins and ends with the run"
                yield book.fault(path, shown(condition), allowed)


def _meanwhile(book: Book, index: Index, step: StepAt) -> Iterator[Fault]:
    for key in ("meanwhile", "deviation_countersign"):
        if key in step.row and step.row.get("hold_point") is not True:
            yield book.fault(
                (*step.path, key),
                f"`{key}` at a step that is no hold point",
                "set hold_point: true or leave it out",
            )
    for path, word in book.words((*step.path, "meanwhile")):
        other = named_step(book, index, path, word, step.method)
        if isinstance(other, Fault):
            yield other
        elif other.method != step.method:
            found = f"{shown(word)}, a step of the method {other.method}"
            yield book.fault(path, found, "needed: a step of the same method")
