"""The machine's own time and chance."""

from __future__ import annotations

import time
import uuid


class SystemClock:
    """The port Clock. `load` is new in each process."""

    def __init__(self) -> None:
        self.load = str(uuid.uuid4())
        self._began = time.monotonic_ns()

    def now_ms(self) -> int:
        """ms since 1970, UTC."""
        return time.time_ns() // 1_000_000

    def mono_ms(self) -> int:
        """ms since this process made its clock."""
        return (time.monotonic_ns() - self._began) // 1_000_000


class RandomIds:
    """The port Ids."""

    def uuid(self) -> str:
        """A random UUID."""
        return str(uuid.uuid4())
