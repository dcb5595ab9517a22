"""What a job waits for: hold points whose turn has come, of whom, and the step that is free meanwhile."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from bayleaf.domain.asks import CountersignAsk
from bayleaf.domain.entries import Entry
from bayleaf.domain.method import MethodDoc, StepDoc
from bayleaf.domain.state import CardState, StepState

StepKey = tuple[str, str]


@dataclass(frozen=True)
class Place:
    """A step of a pinned method where it stands."""

    method: MethodDoc
    stage: str
    step: StepDoc
    state: StepState

    @property
    def key(self) -> StepKey:
        return self.method.id, self.step.id

    @property
    def is_held(self) -> bool:
        return self.state["hold"] == "held"


def places_of(pinned: Sequence[MethodDoc], state: CardState) -> list[Place]:
    """All steps of the pinned methods, in their order."""
    states = {(step["method"], step["step"]): step for step in state["steps"]}
    return [
        Place(method, stage.title, step, states[method.id, step.id])
        for method in pinned
        for stage in method.stages
        for step in stage.steps
        if (method.id, step.id) in states
    ]


def holds_of(
    places: Sequence[Place], state: CardState, entries: Mapping[str, Entry]
) -> Iterator[dict[str, object]]:
    """Hold points whose turn has come: all that they need is there, and they have not passed.

    `asks`: how many of their asks are open besides countersigns; `of`: whose countersign they wait for.
    """
    for place in places:
        if place.is_held and not place.state["needs_open"]:
            signs = [ask.of for ask in _open_signs(place)]
            yield {
                **_named(place),
                "asks": len(place.state["open"]) - len(signs),
                "of": list(dict.fromkeys([*signs, *of_a_deviation(place, state, entries)])),
            }


def _open_signs(place: Place) -> list[CountersignAsk]:
    found = (place.step.ask(name) for name in place.state["open"])
    return [ask for ask in found if isinstance(ask, CountersignAsk)]


def of_a_deviation(place: Place, state: CardState, entries: Mapping[str, Entry]) -> list[str]:
    """Whose name the deviation that would pass it lacks still."""
    if not place.step.hold_countersign:
        return []
    bodies: list[Mapping[str, Any]] = [entries[one].body for one in state["deviations"] if one in entries]
    passing = [
        body for body in bodies if body.get("passes_hold") and (body["method"], body["step"]) == place.key
    ]
    return [place.step.hold_countersign] if passing else []


def next_of(places: Sequence[Place]) -> dict[str, object] | None:
    """The first step that is not done."""
    return next(
        ({**_named(place), "stage": place.stage} for place in places if not place.state["done"]), None
    )


def free_of(places: Sequence[Place]) -> dict[str, object] | None:
    """The first step that can be done now: nothing that it needs is open, no hold point before it holds it.

    A held hold point is not free here: what it waits for is said beside it.
    """
    held: list[Place] = []
    for place in places:
        if place.is_held:
            held.append(place)
        elif not place.state["done"] and not place.state["needs_open"] and not _is_held_by(place, held):
            return _named(place)
    return None


def _is_held_by(place: Place, held: Sequence[Place]) -> bool:
    return any(
        other.method.id == place.method.id and place.step.id not in other.step.meanwhile for other in held
    )


def _named(place: Place) -> dict[str, object]:
    return {"method": place.method.id, "step": place.step.id, "title": place.step.title}


def marks_of(places: Sequence[Place]) -> str:
    """A letter a step for the steel rule: done, not applicable or open; a capital for a hold point."""
    letters = {"done": "d", "not_applicable": "n", "": "o"}
    return "".join(
        letters[place.state["done"]].upper() if place.step.hold else letters[place.state["done"]]
        for place in places
    )
