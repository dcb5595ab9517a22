"""Devices that write chains of entries for the people of a scenario, with nothing but ids from outside."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID, uuid5

from bayleaf.canonical.digest import NO_ENTRY, entry_hash
from bayleaf.canonical.form import dumps
from bayleaf.demo_scenario.cast import HOLDS
from bayleaf.demo_scenario.deeds import Hand
from bayleaf.domain.entries import Entry, entry_of

DAY_MS = 86_400_000
SECOND_MS = 1000


@dataclass
class ChainPen:
    """One device in one job: its chain, with the newest entry's hash to hang the next one on."""

    job: str
    device: str
    people: Mapping[str, str]
    texts: list[str] = field(default_factory=list)
    last: str = NO_ENTRY
    last_ms: int = 0

    def write(self, hand: Hand, at_ms: int, kind: str, body: Mapping[str, Any]) -> Entry:
        """The next entry; never earlier than the one before it."""
        self.last_ms = max(at_ms, self.last_ms + SECOND_MS)
        day = self.last_ms // DAY_MS
        entry: dict[str, Any] = {
            "v": 1,
            "job": self.job,
            "device": self.device,
            "seq": len(self.texts) + 1,
            "by": self.people[hand.person],
            "auth": hand.auth,
            "as": list(HOLDS[hand.person]),
            "at_ms": self.last_ms,
            "mono_ms": self.last_ms - day * DAY_MS,
            "load": str(uuid5(UUID(self.device), str(day))),
            "kind": kind,
            "body": dict(body),
            "prev": self.last,
        }
        self.last = entry["hash"] = entry_hash(entry)
        self.texts.append(dumps(entry))
        return entry_of(entry)
