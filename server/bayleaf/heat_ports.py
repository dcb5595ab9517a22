"""What the use cases need of the outside for heat plans: a store of them, and whoever computes one."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Protocol

from bayleaf.canonical.digest import sha256_hex

WAITING, RUNNING, DONE, FAILED, CANCELLED = "waiting", "running", "done", "failed", "cancelled"
UNDER_WAY = (WAITING, RUNNING)


@dataclass(frozen=True)
class HeatZone:
    """A zone document as it was handed in, by the digest of what it says."""

    digest: str
    id: str
    name: str
    text: str
    invented: bool
    added_ms: int
    by: str


@dataclass(frozen=True)
class PlanRow:
    """How the plan of a zone by one model stands; what it answered is asked for by itself."""

    digest: str
    model: str
    state: str
    asked_ms: int
    doing: str = ""
    share_permille: int = 0
    sentence: str = ""
    figures: str = ""
    """JSON: what a step's computation takes of it."""
    fault: str = ""
    """Why it failed; empty in every other state."""
    response_sha256: str = ""
    response_bytes: int = 0
    done_ms: int = 0


@dataclass(frozen=True)
class Planned:
    """What a plan answers: `answer` and `figures` are JSON, `response` and `field` gzipped JSON."""

    sentence: str
    figures: str
    answer: str
    response: bytes
    field: bytes


def done_fields(planned: Planned, now_ms: int) -> dict[str, Any]:
    """What of a PlanRow changes when its plan is done."""
    return {
        "state": DONE,
        "doing": "",
        "share_permille": 1000,
        "sentence": planned.sentence,
        "figures": planned.figures,
        "response_sha256": sha256_hex(planned.response),
        "response_bytes": len(planned.response),
        "done_ms": now_ms,
    }


@dataclass(frozen=True)
class PinnedPlan:
    """The plan that a job's method uses for one of its heat zones; `ended_ms` is 0 while it holds."""

    id: str
    job: str
    method: str
    zone: str
    digest: str
    model: str
    pinned_ms: int
    by: str
    ended_ms: int = 0


class HeatPlans(Protocol):
    """Zones, their plans, and which job uses which. What it says it has is on disk."""

    def zones(self) -> Sequence[HeatZone]:
        """The newest first."""

    def zone(self, digest: str) -> HeatZone | None: ...
    def names(self, digests: Collection[str]) -> Mapping[str, str]:
        """What the zones of these digests are called, those that are here; their documents stay unread."""

    def add_zone(self, zone: HeatZone) -> bool:
        """False, and nothing kept, if a zone that says the same is here."""

    def remove_zone(self, digest: str) -> None:
        """The zone with its plans; whoever calls knows that no job ever used it."""

    def plans(self, digests: Collection[str] | None = None) -> Sequence[PlanRow]:
        """Of these zones (all: None), the oldest asked first."""

    def plan(self, digest: str, model: str) -> PlanRow | None: ...
    def ask(self, digest: str, model: str, now_ms: int) -> PlanRow:
        """As it stands; waiting, if nobody asked before or the last time was cancelled or failed."""

    def cancel(self, digest: str, model: str, now_ms: int) -> PlanRow | None:
        """Cancelled if it was waiting or running, else as it stands."""

    def take(self, model: str) -> PlanRow | None:
        """The one that waits longest, running from now on."""

    def progress(self, digest: str, model: str, doing: str, share_permille: int) -> bool:
        """False if it does not run any more: somebody cancelled it."""

    def finish(self, digest: str, model: str, planned: Planned, now_ms: int) -> None:
        """Done, if it still runs."""

    def fail(self, digest: str, model: str, fault: str, now_ms: int) -> None:
        """Failed, if it still runs."""

    def put_back(self, model: str) -> int:
        """What runs waits again, also if it was for another model; how many."""

    def answer(self, digest: str, model: str) -> str:
        """The JSON; empty where there is none."""

    def field(self, digest: str, model: str) -> bytes: ...
    def response(self, sha256: str) -> bytes:
        """Empty where there is none."""

    def pins(self, jobs: Collection[str] | None = None) -> Sequence[PinnedPlan]:
        """Of these jobs (all: None), also those that ended, the oldest first."""

    def pin(self, pinned: PinnedPlan) -> None:
        """Ends what the job's method used for that zone."""

    def unpin(self, job: str, method: str, zone: str, now_ms: int) -> bool:
        """False if nothing was pinned there."""


class NotPlanned(Exception):
    """Why there is no plan; `stopped` where somebody wanted it so."""

    def __init__(self, why: str, *, stopped: bool = False) -> None:
        super().__init__(why)
        self.stopped = stopped


class Planner(Protocol):
    """Computes plans, outside the process that answers requests."""

    model: str

    def plan(self, text: str, told: Callable[[str, int], None], stop: Callable[[], bool]) -> Planned:
        """`told` gets what is done and the share in permille; `stop` is asked often. NotPlanned if not."""
