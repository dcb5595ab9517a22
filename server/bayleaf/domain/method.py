"""A method: the compiled document as typed data, and the text of each step that revisions are compared by."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final

from bayleaf.canonical.form import dumps
from bayleaf.domain.ask_documents import ask_of, named
from bayleaf.domain.asks import Ask, Named
from bayleaf.domain.part import (
    DrawingMap,
    Fact,
    Group,
    PointSet,
    Zone,
    facts_of,
    groups_of,
    maps_of,
    point_sets_of,
    zones_of,
)

SETTING: Final = ("hole_checked", "rivet_seated", "set", "set_and_checked")
TAKING_OUT: Final = ("in_place", "mandrel_out", "head_drilled", "head_off", "shank_out")
LADDER: Final = SETTING + TAKING_OUT
MOMENTS: Final = ("on", "soaked", "workable", "lifted", "off", "cold")
PIECES: Final = ("head", "mandrel", "shank")


@dataclass(frozen=True, slots=True)
class Condition:
    id: str
    name: str
    asked_each_morning: bool
    set_by: str


@dataclass(frozen=True, slots=True)
class StepDoc:
    """One step; `text` is its canonical JSON, by which two revisions are compared."""

    id: str
    title: str
    instruction: str
    caution: str
    tools: tuple[str, ...]
    who: tuple[str, ...]
    people: int
    needs: tuple[str, ...]
    hold: bool
    hold_countersign: str
    meanwhile: tuple[str, ...]
    sets: tuple[str, ...]
    clears: tuple[str, ...]
    asks: tuple[Ask, ...]
    text: str
    minutes: int = 0
    """How long it is planned to take; 0 = the method does not say."""

    def ask(self, ask_id: str) -> Ask | None:
        """The ask with that id, or None."""
        return next((ask for ask in self.asks if ask.id == ask_id), None)


@dataclass(frozen=True, slots=True)
class Stage:
    id: str
    title: str
    steps: tuple[StepDoc, ...]


@dataclass(frozen=True, slots=True)
class MethodDoc:
    id: str
    title: str
    revision: str
    invented: bool
    conditions: tuple[Condition, ...]
    groups: tuple[Group, ...]
    zones: tuple[Zone, ...]
    materials: tuple[Named, ...]
    drawings: Mapping[str, str]
    stages: tuple[Stage, ...]
    steps_by_id: Mapping[str, StepDoc]
    vehicle: str = ""
    part: str = ""
    needs_method: str = ""
    point_sets: tuple[PointSet, ...] = ()
    maps: tuple[DrawingMap, ...] = ()
    facts: tuple[Fact, ...] = ()

    def steps(self) -> Iterator[StepDoc]:
        """Every step, in the method's order."""
        for stage in self.stages:
            yield from stage.steps

    def step(self, step_id: str) -> StepDoc | None:
        """The step with that id, or None."""
        return self.steps_by_id.get(step_id)

    def group_positions(self, group_id: str) -> tuple[str, ...]:
        """The positions of a tally group; none for a group that the method does not have."""
        return next((group.positions for group in self.groups if group.id == group_id), ())

    def zone(self, zone_id: str) -> Zone | None:
        """The heat zone with that id, or None."""
        return next((zone for zone in self.zones if zone.id == zone_id), None)


def methods_of(documents: Mapping[str, Mapping[str, Any]]) -> dict[str, MethodDoc]:
    """Methods by digest from compiled documents by digest."""
    return {digest: method_of(document) for digest, document in documents.items()}


def method_of(document: Mapping[str, Any]) -> MethodDoc:
    """The typed method of a compiled document, which the compiler has already checked."""
    stages = tuple(_stage_of(stage) for stage in document["stages"])
    return MethodDoc(
        id=document["id"],
        title=document["title"],
        revision=document["revision"],
        invented=document["invented"],
        conditions=tuple(Condition(**condition) for condition in document["conditions"]),
        groups=groups_of(document),
        zones=zones_of(document),
        materials=named(document["materials"]),
        drawings=dict(document["drawings"]),
        stages=stages,
        steps_by_id={step.id: step for stage in reversed(stages) for step in reversed(stage.steps)},
        vehicle=document.get("vehicle", ""),
        part=document.get("part", ""),
        needs_method=document.get("needs_method", ""),
        point_sets=point_sets_of(document),
        maps=maps_of(document),
        facts=facts_of(document),
    )


def _stage_of(stage: Mapping[str, Any]) -> Stage:
    return Stage(stage["id"], stage["title"], tuple(_step_of(step) for step in stage["steps"]))


def _step_of(step: Mapping[str, Any]) -> StepDoc:
    return StepDoc(
        id=step["id"],
        title=step["title"],
        instruction=step["instruction"],
        caution=step["caution"],
        tools=tuple(step["tools"]),
        who=tuple(step["who"]),
        people=step["people"],
        needs=tuple(step["needs"]),
        hold=step["hold"],
        hold_countersign=step["hold_countersign"],
        meanwhile=tuple(step["meanwhile"]),
        sets=tuple(step["sets"]),
        clears=tuple(step["clears"]),
        asks=tuple(ask_of(ask) for ask in step["asks"]),
        text=dumps(step),
        minutes=step.get("minutes", 0),
    )
