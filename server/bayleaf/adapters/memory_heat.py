"""Heat zones, plans and pins in memory, for tests."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from typing import Any

from bayleaf.heat_ports import (
    CANCELLED,
    FAILED,
    RUNNING,
    UNDER_WAY,
    WAITING,
    HeatZone,
    PinnedPlan,
    Planned,
    PlanRow,
    done_fields,
)

Key = tuple[str, str]


class MemoryHeatPlans:
    """The port HeatPlans."""

    def __init__(self) -> None:
        self._zones: dict[str, HeatZone] = {}
        self._plans: dict[Key, PlanRow] = {}
        self._planned: dict[Key, Planned] = {}
        self._pins: list[PinnedPlan] = []

    def zones(self) -> Sequence[HeatZone]:
        """The newest first."""
        return sorted(self._zones.values(), key=lambda one: (-one.added_ms, one.digest))

    def zone(self, digest: str) -> HeatZone | None:
        """By its digest."""
        return self._zones.get(digest)

    def names(self, digests: Collection[str]) -> Mapping[str, str]:
        """By digest."""
        return {digest: zone.name for digest, zone in self._zones.items() if digest in digests}

    def add_zone(self, zone: HeatZone) -> bool:
        """Once."""
        return self._zones.setdefault(zone.digest, zone) is zone

    def remove_zone(self, digest: str) -> None:
        """Its plans too."""
        self._zones.pop(digest, None)
        self._plans = {key: row for key, row in self._plans.items() if row.digest != digest}

    def plans(self, digests: Collection[str] | None = None) -> Sequence[PlanRow]:
        """The oldest asked first."""
        found = [one for one in self._plans.values() if digests is None or one.digest in digests]
        return sorted(found, key=lambda one: (one.asked_ms, one.digest, one.model))

    def plan(self, digest: str, model: str) -> PlanRow | None:
        """By zone and model."""
        return self._plans.get((digest, model))

    def ask(self, digest: str, model: str, now_ms: int) -> PlanRow:
        """What is there is not asked for again."""
        found = self.plan(digest, model)
        if found is None or found.state in (FAILED, CANCELLED):
            found = self._plans[digest, model] = PlanRow(digest, model, WAITING, now_ms)
        return found

    def cancel(self, digest: str, model: str, now_ms: int) -> PlanRow | None:
        """Whoever computes it is told at the next progress."""
        found = self.plan(digest, model)
        if found is not None and found.state in UNDER_WAY:
            found = self._plans[digest, model] = replace(found, state=CANCELLED, done_ms=now_ms)
        return found

    def take(self, model: str) -> PlanRow | None:
        """The first in order of asking."""
        waits = [row for row in self.plans() if row.model == model and row.state == WAITING]
        if not waits:
            return None
        taken = replace(waits[0], state=RUNNING)
        self._plans[taken.digest, model] = taken
        return taken

    def progress(self, digest: str, model: str, doing: str, share_permille: int) -> bool:
        """Kept only while it runs."""
        return self._change(digest, model, doing=doing, share_permille=share_permille)

    def finish(self, digest: str, model: str, planned: Planned, now_ms: int) -> None:
        """Everything at once."""
        if self._change(digest, model, **done_fields(planned, now_ms)):
            self._planned[digest, model] = planned

    def fail(self, digest: str, model: str, fault: str, now_ms: int) -> None:
        """With the reason."""
        self._change(digest, model, state=FAILED, fault=fault, done_ms=now_ms)

    def put_back(self, model: str) -> int:
        """What was under way for another model waits for this one."""
        under_way = [row for row in self.plans() if row.state in UNDER_WAY]
        back = [row for row in under_way if row.state == RUNNING or row.model != model]
        for row in back:
            del self._plans[row.digest, row.model]
            self._plans.setdefault((row.digest, model), PlanRow(row.digest, model, WAITING, row.asked_ms))
        return len(back)

    def answer(self, digest: str, model: str) -> str:
        """The JSON."""
        found = self._planned.get((digest, model))
        return found.answer if found else ""

    def field(self, digest: str, model: str) -> bytes:
        """Gzipped."""
        found = self._planned.get((digest, model))
        return found.field if found else b""

    def response(self, sha256: str) -> bytes:
        """Gzipped."""
        rows = [row for row in self._plans.values() if row.response_sha256 == sha256]
        return self._planned[rows[0].digest, rows[0].model].response if rows else b""

    def pins(self, jobs: Collection[str] | None = None) -> Sequence[PinnedPlan]:
        """The oldest first."""
        found = [one for one in self._pins if jobs is None or one.job in jobs]
        return sorted(found, key=lambda one: (one.pinned_ms, one.id))

    def pin(self, pinned: PinnedPlan) -> None:
        """The one before ends at the same moment."""
        self.unpin(pinned.job, pinned.method, pinned.zone, pinned.pinned_ms)
        self._pins.append(pinned)

    def unpin(self, job: str, method: str, zone: str, now_ms: int) -> bool:
        """It stays known as what the job used until then."""
        place = (job, method, zone, 0)
        keys = [(one.job, one.method, one.zone, one.ended_ms) for one in self._pins]
        held = [n for n, key in enumerate(keys) if key == place]
        for n in held:
            self._pins[n] = replace(self._pins[n], ended_ms=now_ms)
        return bool(held)

    def _change(self, digest: str, model: str, **named: Any) -> bool:
        found = self.plan(digest, model)
        if found is None or found.state != RUNNING:
            return False
        self._plans[digest, model] = replace(found, **named)
        return True
