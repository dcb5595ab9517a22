"""What a run's own plan says of its times: when the soak begins, and when each pad is turned down.

By the response set that the switch-on names; the phone's `core/views/planned_release.ts` counts the same.
"""

from __future__ import annotations

import gzip
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

MS_PER_S: Final = 1000
FORM: Final = 2
Body = Mapping[str, Any]


@dataclass(frozen=True)
class PlannedStep:
    """A pad turned down, on the run clock."""

    at_ms: int
    pad: str


@dataclass(frozen=True)
class PlannedRun:
    """`soak_ms`: when the coldest bondline is workable; None for never."""

    soak_ms: int | None
    steps: tuple[PlannedStep, ...]


def planned_run(response: bytes) -> PlannedRun | None:
    """Of a kept response set; None of one that is of another form, or not here."""
    if not response:
        return None
    told = json.loads(gzip.decompress(response))
    if told["form"] != FORM:
        return None
    workable_s = told["answer"]["workable_s"]
    steps = tuple(PlannedStep(one["at_s"] * MS_PER_S, one["pad"]) for one in told["acts"])
    return PlannedRun(None if workable_s is None else workable_s * MS_PER_S, steps)


def planned_of(response: Callable[[str], bytes], on: Body) -> PlannedRun | None:
    """The plan that a switch-on names by its response set; None where it names none."""
    return planned_run(response(on["plan"])) if on.get("plan") else None


def next_step_ms(planned: PlannedRun, acts: Sequence[Body], lifted: Sequence[str]) -> int | None:
    """When the next pad is due; None before the first is turned down, and after the last.

    The n-th time that a pad was turned down is its n-th step. What was done late moves all that follows by
    as much: the plan's waits are what keeps the cooling within its limit.
    """
    done = {step.pad: _times_down(acts, step.pad) for step in planned.steps}
    late_ms: int | None = None
    nexts: list[int] = []
    met = dict.fromkeys(done, 0)
    for step in planned.steps:
        times, number = done[step.pad], met[step.pad]
        met[step.pad] += 1
        if number < len(times):
            late_ms = times[number] - step.at_ms
        elif step.pad not in lifted:
            nexts.append(step.at_ms)
    return nexts[0] + late_ms if nexts and late_ms is not None else None


def _times_down(acts: Sequence[Body], pad: str) -> list[int]:
    return sorted(body["run_ms"] for body in acts if body["act"] == "turn_down" and body["pad"] == pad)
