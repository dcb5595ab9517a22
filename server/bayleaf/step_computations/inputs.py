"""Inputs of a computation: answers of steps and constants of the method, typed by what they are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bayleaf.domain.asks import RivetRow
from bayleaf.fastening.tally import Rivet
from bayleaf.step_computations.plans import PlanFigures
from bayleaf.step_computations.shapes import Value, Verdict


@dataclass(frozen=True, slots=True)
class Quantity:
    """A reading at one place, or a constant (`at_ms` 0): `value` in `unit` / 10^decimals."""

    value: int
    unit: str
    decimals: int
    at_ms: int = 0


@dataclass(frozen=True, slots=True)
class Points:
    """A reading at several named points, in the method's order."""

    at: tuple[tuple[str, int], ...]
    unit: str
    decimals: int
    at_ms: int = 0

    def quantities(self) -> dict[str, Quantity]:
        return {point: Quantity(value, self.unit, self.decimals) for point, value in self.at}


@dataclass(frozen=True, slots=True)
class Word:
    """A word of the method or a text that somebody wrote."""

    text: str


@dataclass(frozen=True, slots=True)
class Chosen:
    """An option that was chosen, and whether it is one that stops the work."""

    option: str
    stop: bool


@dataclass(frozen=True, slots=True)
class Moment:
    """Something that was ticked, for the time it was."""

    at_ms: int


@dataclass(frozen=True, slots=True)
class Lot:
    """A lot that was recorded, and whether it is of another material or past its date."""

    lot: str
    wrong: bool
    expired: bool


@dataclass(frozen=True, slots=True)
class Lots:
    """All lots that were recorded for one ask."""

    lots: tuple[Lot, ...]


@dataclass(frozen=True, slots=True)
class Earlier:
    """The result of another computation."""

    computation: str
    values: tuple[Value, ...]
    verdict: Verdict
    at_ms: int

    def figure(self, name: str) -> Value | None:
        return next((value for value in self.values if value.name == name), None)


@dataclass(frozen=True, slots=True)
class SensorLog:
    """One sensor of a run: what it sits on, and (run_ms, value) in the run's scale."""

    sensor: str
    of: str
    points: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class RunAct:
    """Something that was done in a run."""

    act: str
    pad: str
    run_ms: int


@dataclass(frozen=True, slots=True)
class Run:
    """A heat run: when it was switched on, how far its soak counts, its sensors' logs, and for its verdict
    what it was for, what was done, and in which order its pads should be let go.
    """

    on_ms: int
    aborted: bool
    decimals: int
    soak_ms: int
    soak_s: int
    gap_max_s: int
    sensors: tuple[SensorLog, ...]
    purpose: Literal["removal", "cure"] = "removal"
    acts: tuple[RunAct, ...] = ()
    release: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Runs:
    """The heat runs of one ask that were not aborted, in their order."""

    runs: tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class Rivets:
    """All rivets of the groups, and on which half of the ladder they are counted."""

    ladder: Literal["taking_out", "setting"]
    rivets: tuple[Rivet, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """The heat plan of the run's zone; `plan` is the zone document's digest."""

    plan: str
    figures: PlanFigures


@dataclass(frozen=True, slots=True)
class RivetTable:
    """Lengths of one rivet, the shortest first, each with its grips, in `unit` / 10^decimals."""

    rows: tuple[RivetRow, ...]
    unit: str
    decimals: int


Input = Quantity | Points | Word | Chosen | Moment | Lots | Earlier | Runs | Rivets | Plan | RivetTable
