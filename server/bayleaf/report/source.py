"""What a report is written from: a job's card state, entries and methods, and the names beside them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from bayleaf.domain.entries import Entry
from bayleaf.domain.method import MethodDoc
from bayleaf.domain.state import CardState
from bayleaf.domain.wall_time import UTC_TIME, WallTime


@dataclass(frozen=True)
class Arrival:
    """When an entry reached the office, and how far its author's clock was off then, where that is known."""

    received_ms: int
    offset_ms: int = 0


@dataclass(frozen=True)
class PhotoHere:
    """A photo whose bytes the office holds."""

    sha256: str
    type: str
    bytes: int


@dataclass(frozen=True)
class Filing:
    """The `file` entry of the dossier that the report stands in; a preview has none."""

    ms: int
    reason: str
    person: str


@dataclass(frozen=True)
class RunPlan:
    """A heat plan that the job used for a zone from `pinned_ms` until `ended_ms`, 0 while it holds.

    `response_sha256` is that of its response set: what a phone names at the switch-on.
    """

    method: str
    zone: str
    digest: str
    model: str
    name: str
    pinned_ms: int
    ended_ms: int
    answer: Mapping[str, Any]
    response_sha256: str = ""


@dataclass(frozen=True)
class SheetTold:
    """A supplier's sheet that results of the job rest on; `withdrawn_ms` is 0 while it counts."""

    sha256: str
    material: str
    sheet: str
    revision: str
    dated: str
    withdrawn_ms: int = 0
    why: str = ""


@dataclass(frozen=True)
class ReportSource:
    """`entries` in the order in which the office took them; `made_ms` is the time that the report bears."""

    job: str
    made_ms: int
    filing: Filing | None
    fingerprint: str
    state: CardState
    entries: Sequence[Entry]
    methods: Mapping[str, MethodDoc]
    people: Mapping[str, str]
    devices: Mapping[str, str] = field(default_factory=dict)
    arrivals: Mapping[str, Arrival] = field(default_factory=dict)
    photos: Mapping[str, PhotoHere] = field(default_factory=dict)
    drawings: frozenset[str] = frozenset()
    refused: int = 0
    unsigned: int = 0
    supersedes: Sequence[str] = ()
    plans: Sequence[RunPlan] = ()
    sheets: Sequence[SheetTold] = ()
    time: WallTime = UTC_TIME
