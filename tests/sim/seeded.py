"""Time, ids and tokens of a simulation, the same in every run of a seed."""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from uuid import UUID

NOON_MS = 1_800_000_000_000


@dataclass
class SimClock:
    """The port Clock of the server, and the true time."""

    at_ms: int = NOON_MS
    load: str = "00000000-0000-4000-8000-0000000000aa"

    def now_ms(self) -> int:
        return self.at_ms

    def mono_ms(self) -> int:
        return self.at_ms - NOON_MS


@dataclass
class Seeded:
    """The port Ids, and as much of the port Chance as a renewal needs."""

    chance: random.Random = field(default_factory=random.Random)

    def uuid(self) -> str:
        return str(UUID(int=self.chance.getrandbits(128), version=4))

    def token(self) -> str:
        return f"{self.chance.getrandbits(128):032x}"

    def salt(self) -> str:
        return self.token()

    def code(self, alphabet: str, length: int) -> str:
        return "".join(self.chance.choice(alphabet) for _ in range(length))
