"""A lock that one process of all that serve a data folder holds, and the thread that works while it does."""

from __future__ import annotations

import fcntl
import threading
from abc import ABC, abstractmethod
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


class LockedThread(ABC):
    """Works every few seconds while this process holds the lock; when it ends, another one goes on."""

    def __init__(self, name: str, lock: Path, every_s: float, stops_within_s: float) -> None:
        self._lock = ProcessLock(lock)
        self._every_s = every_s
        self._stops_within_s = stops_within_s
        self._ends = threading.Event()
        self._thread = threading.Thread(target=self._run, name=name, daemon=True)

    def start(self) -> None:
        """Begin; the first look comes at once."""
        self._thread.start()

    def stop(self) -> None:
        """Nothing further begins; what is under way has a moment to end."""
        self._ends.set()
        if self._thread.is_alive():
            self._thread.join(self._stops_within_s)

    def is_ending(self) -> bool:
        """For work that takes long."""
        return self._ends.is_set()

    @abstractmethod
    def work(self, *, taking_over: bool) -> bool:
        """Whether there may be more to do at once. Tells its faults itself: one that is raised ends it.

        `taking_over`: this process has just got the lock.
        """

    def _run(self) -> None:
        try:
            while not self._ends.is_set():
                taking_over = not self._lock.is_held
                if not (self._lock.take() and self.work(taking_over=taking_over)):
                    self._ends.wait(self._every_s)
        finally:
            self._lock.let_go()
