"""A lock that one process holds: of all that serve one data folder, the one that does a job."""

from __future__ import annotations

import fcntl
from pathlib import Path
from typing import IO


class ProcessLock:
    """Held from the first time that it is free until it is let go.

    The system gives it back when a process ends, however it ends; then another one gets it.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._file: IO[bytes] | None = None

    @property
    def is_held(self) -> bool:
        return self._file is not None

    def take(self) -> bool:
        """Whether this process holds it now; asks for it if not, and never waits."""
        if self._file is not None:
            return True
        file = self._path.open("ab")
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            file.close()
            return False
        self._file = file
        return True

    def let_go(self) -> None:
        if self._file is not None:
            self._file.close()
            self._file = None
