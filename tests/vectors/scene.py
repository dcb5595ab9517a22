"""A scene: the people and devices of a vector, and the words in which it says what must hold.

An expectation is written by hand from the rules of the record. Its key is a path into the state; a part
in brackets picks the row of a list, so "registers[kind=reading]/shown" is written out as a JSON pointer
(RFC 6901) with the row's number. Only the number of the row is looked up, never the value.
"""

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from vectors.writers import Clock, Writer, device, person

ADA, MARA, OSKAR, PIM = person(9), person(1), person(2), person(3)  # office, technicians, photographer
Expect = dict[str, Any]


class Scene:
    """Four devices that write into one log, in the order of the calls."""

    def __init__(self) -> None:
        self.clock = Clock()
        self.log: list[dict[str, Any]] = []
        self.office = self.writer(9, ADA, "office")
        self.tech = self.writer(1, MARA, "technician")
        self.second = self.writer(2, OSKAR, "technician")
        self.photographer = self.writer(3, PIM, "photographer")

    def writer(self, number: int, by: str, *roles: str) -> Writer:
        """A person at a device of their own."""
        return Writer(device(number), by, list(roles), self.clock, self.log)


@dataclass(frozen=True)
class Behaviour:
    """One vector before it is written out."""

    name: str
    about: str
    methods: list[str]
    play: Callable[[Scene], Expect]


BEHAVIOURS: dict[str, Behaviour] = {}


def vector(about: str, *methods: str) -> Callable[[Callable[[Scene], Expect]], Callable[[Scene], Expect]]:
    """Makes a vector of a function named after the behaviour; `methods` are the documents held."""

    def keep(play: Callable[[Scene], Expect]) -> Callable[[Scene], Expect]:
        name = play.__name__
        if name in BEHAVIOURS:
            raise ValueError(f"{name}: two vectors have this name; each needs its own")
        BEHAVIOURS[name] = Behaviour(name, about, list(methods), play)
        return play

    return keep


def hashes(*these: str) -> list[str]:
    """Hashes as card state lists them: sorted."""
    return sorted(these)


def found(code: str, at: list[str], *these: str, accepted: str = "") -> dict[str, Any]:
    """A finding as it must stand."""
    return {"code": code, "at": at, "hashes": sorted(these), "accepted": accepted}


def findings(*these: dict[str, Any]) -> list[dict[str, Any]]:
    """All findings of a state, in their order."""
    return sorted(these, key=lambda one: (one["code"], one["at"], one["hashes"]))


def pointers(expect: Expect, state: Any) -> Expect:
    """Expectations with JSON pointers for keys."""
    return {"".join(f"/{part}" for part in _parts(path, state)): value for path, value in expect.items()}


def _parts(path: str, state: Any) -> Iterator[str]:
    here = state
    for step in re.findall(r"\[[^\]]*\]|[^/\[\]]+", path):
        part = _row(here, step[1:-1], path) if step.startswith("[") else step
        yield part
        here = here[int(part)] if isinstance(here, list) else here.get(part)


def _row(rows: list[dict[str, Any]], chosen: str, path: str) -> str:
    if chosen.isdigit():
        return chosen
    wanted = dict(pair.split("=", 1) for pair in chosen.split(","))
    for index, row in enumerate(rows):
        if all(str(row.get(key)) == value for key, value in wanted.items()):
            return str(index)
    raise LookupError(f"{path}: no row with {chosen}; the rows are {json.dumps(rows)[:300]}")


def at_pointer(state: Any, pointer: str) -> Any:
    """What stands at a JSON pointer; None where nothing does."""
    here = state
    for part in pointer.split("/")[1:]:
        if isinstance(here, list):
            here = here[int(part)] if part.isdigit() and int(part) < len(here) else None
        else:
            here = here.get(part) if isinstance(here, dict) else None
    return here
