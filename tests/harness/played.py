"""Whole jobs as the demo's scenario plays them: honest logs to fold, push, and begin tests in the middle of.

`played_removal()` is the removal alone, `played_fitting()` the whole job with the fitting after it. Both are
made by the script that ships with the demo, with ids and times that are the same in every run.
"""

from __future__ import annotations

import functools
import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from uuid import UUID

from bayleaf.canonical.form import dumps
from bayleaf.demo_scenario import HALF, REMOVAL, WHOLE_JOB, Scenario
from bayleaf.demo_scenario.cast import ADA, DESK, HOLDS, PHONES
from bayleaf.demo_scenario.chain_pens import ChainPen
from bayleaf.demo_scenario.deeds import Hand
from bayleaf.demo_scenario.player import Player
from bayleaf.domain.entries import Entry
from bayleaf.domain.fold import fold
from bayleaf.domain.method import MethodDoc, methods_of
from bayleaf.domain.state import CardState
from bayleaf.method_files import compile_methods

METHODS = Path(__file__).parents[2] / "seed_data" / "methods"
BEGINS_MS = 1_750_032_000_000  # midnight before the first day
JOB = str(UUID(int=0x40B, version=4))
PEOPLE = {name: str(UUID(int=0x9E0 + number, version=4)) for number, name in enumerate(HOLDS)}
DEVICES = {name: str(UUID(int=0xDE0 + number, version=4)) for number, name in enumerate((*PHONES, DESK))}


@functools.cache
def frame_documents() -> dict[str, dict[str, Any]]:
    """The two compiled documents of the rear frame by digest, the removal first."""
    drawings = {path.name: path.read_bytes() for path in METHODS.glob("*.svg")}
    made = compile_methods((METHODS / "rear_frame.yaml").read_text(encoding="utf-8"), drawings)
    return {one.digest: one.document for one in made}


@functools.cache
def frame_methods() -> dict[str, MethodDoc]:
    """The same, typed."""
    return methods_of(frame_documents())


@dataclass(frozen=True)
class FakeShot:
    """What an entry says of a photo that nobody drew."""

    sha256: str
    thumb: str
    bytes: int = 40_000
    width: int = 1600
    height: int = 1200


class FakeDarkroom:
    """Gives every slot a photo of its own by name alone."""

    def shot(self, method: str, step: str, slot: str) -> FakeShot:
        name = f"{method}/{step}/{slot}"
        return FakeShot(
            hashlib.sha256(name.encode()).hexdigest(), hashlib.sha256(b"t" + name.encode()).hexdigest()
        )


@dataclass
class LonePens:
    """Every device of a scenario, the office's desk among them, with no server between."""

    job: str = JOB
    devices: Mapping[str, str] = field(default_factory=lambda: DEVICES)
    people: Mapping[str, str] = field(default_factory=lambda: PEOPLE)
    written: list[Entry] = field(default_factory=list)
    pens: dict[str, ChainPen] = field(default_factory=dict)

    def write(self, hand: Hand, at_ms: int, kind: str, body: Mapping[str, Any]) -> Entry:
        pen = self.pens.setdefault(hand.device, ChainPen(self.job, self.devices[hand.device], self.people))
        entry = pen.write(hand, at_ms, kind, body)
        self.written.append(entry)
        return entry

    def away(self, device: str) -> None:
        """Nobody here hears anybody."""

    def back(self, device: str, at_ms: int) -> None:
        """Nobody here hears anybody."""

    def pause(self, at_ms: int) -> None:
        """Nobody here hears anybody."""


@dataclass(frozen=True)
class PlayedJob:
    """A job's log in the order of its writing, cut into the steps in whose course it was written."""

    entries: tuple[Entry, ...]
    steps: tuple[tuple[str, int], ...]
    """Each step's id with the number of entries at its end, in the order of the work."""
    names: Mapping[str, str]
    """Hashes by the names that the scenario gives its entries, such as `rem-21.pieces.shanks`."""

    def upto(self, step: str) -> PlayedJob:
        """The job as it stands before this step begins for the first time."""
        place = [name for name, _ in self.steps].index(step)
        end = self.steps[place - 1][1] if place else _OPENING
        kept = self.entries[:end]
        held = {entry.hash for entry in kept}
        names = {name: value for name, value in self.names.items() if value in held}
        return PlayedJob(kept, self.steps[:place], names)

    def state(self) -> CardState:
        """What its entries add up to."""
        return fold(frame_methods(), self.entries)

    def texts(self, device: str = "") -> list[str]:
        """The entries as they travel; of one device by its short name, or all."""
        return [text_of(one) for one in self.entries if device in ("", *_names_of(one.device))]

    def named(self, name: str) -> Entry:
        """The entry that the scenario calls so."""
        return next(one for one in self.entries if one.hash == self.names[name])


_OPENING = 6


def _names_of(device: str) -> list[str]:
    return [name for name, value in DEVICES.items() if value == device]


def text_of(entry: Entry) -> str:
    """An entry's canonical text."""
    return dumps(parsed(entry))


def parsed(entry: Entry) -> dict[str, Any]:
    """An entry's members as they travel."""
    members = {name: getattr(entry, name) for name in Entry.__slots__ if name != "as_"}
    return {**members, "as": list(entry.as_), "body": dict(entry.body)}


def play(scenario: Scenario, *, begins_ms: int = BEGINS_MS) -> PlayedJob:
    """The scenario, from the office's opening of the job on."""
    pens = LonePens()
    player = Player(scenario, frame_methods(), pens, FakeDarkroom(), begins_ms)
    open_job(player, pens)
    steps = [(step.id, len(pens.written)) for step in player.play()]
    return PlayedJob(tuple(pens.written), tuple(steps), dict(player.memory.names))


def open_job(player: Player, pens: LonePens) -> None:
    """As the office opens it: the opening, the pin, three people and the hoist."""
    opening = {
        "order": "T-40",
        "vin": "DEMO0000000000004",
        "vehicle": "invented minibus",
        "part": "left rear-aperture frame half",
        "side": "left",
        "invented": True,
        "over": [],
    }
    drafts: list[tuple[str, dict[str, Any]]] = [
        ("open", opening),
        ("pin", {"methods": list(frame_methods()), "over": []}),
        *(("assign", {"person": PEOPLE[name], "on": True, "over": []}) for name in ("mara", "oskar", "pim")),
        ("place", {"place": "hoist 1", "over": []}),
    ]
    for kind, body in drafts:
        player.memory.keep(pens.write(ADA, player.begins_ms, kind, body), "")


@functools.cache
def played_removal() -> PlayedJob:
    """The whole removal, from the first look to the covered flange."""
    return play(REMOVAL)


@functools.cache
def played_fitting() -> PlayedJob:
    """The whole job: the removal, then the fitting to the hand-over."""
    return play(WHOLE_JOB)


@functools.cache
def played_half() -> PlayedJob:
    """The removal up to minute 14 of its first heat run."""
    return play(HALF)
