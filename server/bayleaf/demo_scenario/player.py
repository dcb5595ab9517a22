"""Plays a scenario: every deed becomes the entries that a phone or the office would have written.

Ids, times, pens and photos come in from outside: the demo plays it into a shop, tests play it alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Protocol

from bayleaf.demo_scenario.acts import Draft, drafts_of
from bayleaf.demo_scenario.bodies import Shot
from bayleaf.demo_scenario.deeds import Away, Back, Deed, Hand, Logged, ReadByHand, RunAct, Scenario, Step
from bayleaf.demo_scenario.memory import Memory
from bayleaf.demo_scenario.stage import Stage, step_of
from bayleaf.demo_scenario.usual import deeds_of
from bayleaf.domain.entries import Entry
from bayleaf.domain.method import MethodDoc
from bayleaf.step_computations.plans import ZonePlan
from bayleaf.step_computations.sheets import MaterialSheet

MINUTE_MS = 60_000
DAY_MS = 24 * 60 * MINUTE_MS


class Pens(Protocol):
    """Who writes for the people of a scenario, on their devices and at the office's desk."""

    def write(self, hand: Hand, at_ms: int, kind: str, body: Mapping[str, Any]) -> Entry:
        """The entry as it stands in that device's chain."""

    def away(self, device: str) -> None:
        """The device has no signal from now on."""

    def back(self, device: str, at_ms: int) -> None:
        """It has signal again."""

    def pause(self, at_ms: int) -> None:
        """A step is done: what has signal hands in."""


class Darkroom(Protocol):
    """Where a scenario's photos come from."""

    def shot(self, method: str, step: str, slot: str) -> Shot:
        """The photo of a slot."""


@dataclass
class Player:
    """Plays one job; `begins_ms` is the midnight before its first day."""

    scenario: Scenario
    methods: Mapping[str, MethodDoc]
    pens: Pens
    darkroom: Darkroom
    begins_ms: int
    memory: Memory = field(default_factory=Memory)
    plans: Sequence[ZonePlan] = ()
    sheets: Sequence[MaterialSheet] = ()

    def play(self) -> Iterator[Step]:
        """Step by step; each is given when all of it is written."""
        for step in self.scenario.steps:
            self.play_step(step)
            yield step

    def play_step(self, step: Step) -> None:
        """One step, spread over its minutes."""
        method, doc, digest = step_of(self.methods, step.id)
        deeds = list(deeds_of(step, doc))
        begins_ms, each_ms = self.at_ms(step.at), step.minutes * MINUTE_MS // max(1, len(deeds))
        stage = Stage(
            self.memory,
            self.scenario,
            self.methods,
            self.darkroom.shot,
            method,
            doc,
            digest,
            self.plans,
            self.sheets,
        )
        for number, deed in enumerate(deeds):
            self._do(stage, step, deed, begins_ms + number * each_ms)
        self.pens.pause(begins_ms + step.minutes * MINUTE_MS)

    def at_ms(self, at: str) -> int:
        """The moment of a day and time like `2 10:02`."""
        return self.begins_ms + ms_of(at)

    def _do(self, stage: Stage, step: Step, deed: Deed, usual_ms: int) -> None:
        at_ms = self.at_ms(deed.at) if deed.at else self._run_ms(deed) or usual_ms
        if isinstance(deed, Away):
            self.pens.away(deed.device)
            return
        if isinstance(deed, Back):
            self.pens.back(deed.device, at_ms)
            return
        hand = deed.by or step.by
        for number, draft in enumerate(drafts_of(stage, deed, at_ms)):
            self._write(hand, at_ms + number * 1000, draft)

    def _write(self, hand: Hand, at_ms: int, draft: Draft) -> None:
        entry = self.pens.write(hand, at_ms, draft.kind, draft.body)
        self.memory.keep(entry, draft.name)
        if draft.run:
            self.memory.runs[draft.run] = entry

    def _run_ms(self, deed: Deed) -> int:
        """Acts and readings of a run happen by its own clock; what was typed late, when it was typed."""
        if isinstance(deed, RunAct | ReadByHand) and not deed.typed:
            return self.memory.runs[deed.run].at_ms + round(deed.minute * MINUTE_MS)
        if isinstance(deed, Logged):
            return self.memory.runs[deed.run].at_ms + deed.last * MINUTE_MS
        return 0


def ms_of(at: str) -> int:
    """From the midnight before the first day until a day and time like `2 10:02`."""
    day, clock = at.split()
    hours, minutes = clock.split(":")
    return (int(day) - 1) * DAY_MS + (int(hours) * 60 + int(minutes)) * MINUTE_MS
