"""Checks what one part of a method file says of another: its steps, conditions, materials, zones."""

from __future__ import annotations

from collections.abc import Iterator

from .book import Book, Row
from .faults import Fault, Path, shown

SCENARIO: Path = ("scenario",)
CONDITIONS: Path = ("standing_conditions",)
MOMENTS = ("on", "soaked", "workable", "lifted", "off", "cold")
LADDERS = {
    "taking_out": ("in_place", "mandrel_out", "head_drilled", "head_off", "shank_out"),
    "setting": ("hole_checked", "rivet_seated", "set", "set_and_checked"),
}


def reference_faults(book: Book) -> Iterator[Fault]:
    """Every reference of every method that leads nowhere or contradicts what it leads to."""
    for method, _ in book.rows(("methods",)):
        known = book.step_ids(method)
        for step, row in book.steps(method):
            yield from _needs(book, method, step, known)
            yield from _conditions(book, step)
            yield from _meanwhile(book, step, row, known)
            for ask, asked in book.rows((*step, "asks")):
                yield from _ask(book, ask, asked, known)


def _needs(book: Book, method: Path, step: Path, known: list[str]) -> Iterator[Fault]:
    heated = {row.get("id") for _, row in book.steps(method) if _has_heat_run(row)}
    for path, need in book.words((*step, "needs")):
        wanted, at, moment = need.partition("@")
        if wanted not in known:
            yield book.unknown(path, wanted, "step", known)
        elif at and moment not in MOMENTS:
            yield book.fault(path, f"the moment {shown(moment)}", f"moments: {', '.join(MOMENTS)}")
        elif at and wanted not in heated:
            yield book.fault(path, shown(need), f"a moment needs a heat run, and {wanted} asks for none")


def _has_heat_run(step: Row) -> bool:
    asks = step.get("asks")
    return isinstance(asks, list) and any(
        isinstance(ask, dict) and ask.get("ask") == "heat_run" for ask in asks
    )


def _conditions(book: Book, step: Path) -> Iterator[Fault]:
    by_id = {row.get("id"): row for _, row in book.rows(CONDITIONS)}
    for key in ("sets", "clears"):
        for path, condition in book.words((*step, key)):
            if condition not in by_id:
                yield book.unknown(path, condition, "standing condition", book.ids(CONDITIONS))
            elif by_id[condition].get("set_by") == "heat_run":
                allowed = "a condition that is set_by: heat_run begins and ends with the run"
                yield book.fault(path, shown(condition), allowed)


def _meanwhile(book: Book, step: Path, row: Row, known: list[str]) -> Iterator[Fault]:
    for key in ("meanwhile", "deviation_countersign"):
        if key in row and row.get("hold_point") is not True:
            yield book.fault(
                (*step, key),
                f"`{key}` at a step that is no hold point",
                "set hold_point: true or leave it out",
            )
    for path, other in book.words((*step, "meanwhile")):
        if other not in known:
            yield book.unknown(path, other, "step", known)


def _ask(book: Book, path: Path, ask: Row, steps: list[str]) -> Iterator[Fault]:
    match ask.get("ask"):
        case "choice":
            yield from _choice(book, path)
        case "photo":
            yield from _named(book, (*path, "deadline", "before_step"), "step", steps)
        case "lot":
            yield from _named(book, (*path, "of"), "material", book.ids((*SCENARIO, "materials")))
        case "tally":
            yield from _tally(book, path)
        case "heat_run":
            yield from _heat_run(book, path)
        case "compute":
            groups = book.ids((*SCENARIO, "rivet_groups"))
            for group_path, group in book.words((*path, "groups")):
                if group not in groups:
                    yield book.unknown(group_path, group, "rivet group", groups)


def _named(book: Book, path: Path, what: str, known: list[str]) -> Iterator[Fault]:
    word = book.word(path)
    if word is not None and word not in known:
        yield book.unknown(path, word, what, known)


def _choice(book: Book, path: Path) -> Iterator[Fault]:
    options = [word for _, word in book.words((*path, "options"))]
    for stop_path, stop in book.words((*path, "stop_if")):
        if stop not in options:
            yield book.unknown(stop_path, stop, "option of this ask", options)


def _tally(book: Book, path: Path) -> Iterator[Fault]:
    yield from _named(book, (*path, "group"), "rivet group", book.ids((*SCENARIO, "rivet_groups")))
    ladder, state = book.word((*path, "ladder")), book.word((*path, "to"))
    if ladder and state and state not in LADDERS[ladder]:
        yield book.fault(
            (*path, "to"), shown(state), f"states of the ladder {ladder}: {', '.join(LADDERS[ladder])}"
        )


def _heat_run(book: Book, path: Path) -> Iterator[Fault]:
    zones = (*SCENARIO, "heat_zones")
    yield from _named(book, (*path, "zone"), "heat zone", book.ids(zones))
    purpose = book.word((*path, "purpose"))
    if purpose and not isinstance(book.at((*SCENARIO, "heat_settings", purpose)), dict):
        yield book.fault((*path, "purpose"), shown(purpose), f"needed: scenario.heat_settings.{purpose}")
    if not book.ids((*SCENARIO, "sensors_per_zone")):
        yield book.fault(path, "a heat run without sensors", "needed: scenario.sensors_per_zone")
    for zone, row in book.rows(zones):
        if row.get("id") == book.word((*path, "zone")):
            yield from _release(book, (*path, "release_order"), book.ids((*zone, "pads")))


def _release(book: Book, path: Path, pads: list[str]) -> Iterator[Fault]:
    named = list(book.words(path))
    for pad_path, pad in named:
        if pad not in pads:
            yield book.unknown(pad_path, pad, "pad of this zone", pads)
    order = [pad for _, pad in named]
    missing = [pad for pad in pads if pad not in order]
    if missing:
        yield book.fault(path, f"no {', '.join(missing)}", "needed: every pad of the zone, once")
    if len(set(order)) < len(order):
        yield book.fault(path, "a pad twice", "needed: every pad of the zone, once")
