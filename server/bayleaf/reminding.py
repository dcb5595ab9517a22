"""The thread that calls phones: one in each process that serves, and of all of them one that sends."""

from __future__ import annotations

import logging
import threading
from pathlib import Path
from typing import Final

from flask import Flask

from bayleaf.http.parts import KEY, Parts
from bayleaf.process_lock import ProcessLock
from bayleaf.usecases.remind import Rounds, remind

EVERY_S: Final = 15.0
STOPS_WITHIN_S: Final = 3.0
LOCK: Final = "remind.lock"
LOG: Final = logging.getLogger("bayleaf")


class Reminder:
    """A round every few seconds, while this process holds the lock in the data folder."""

    def __init__(self, parts: Parts, data: Path, every_s: float = EVERY_S) -> None:
        self._parts = parts
        self._lock = ProcessLock(data / LOCK)
        self._every_s = every_s
        self._ends = threading.Event()
        self._rounds = Rounds()
        self._thread = threading.Thread(target=self._run, name="reminder", daemon=True)

    def start(self) -> None:
        """Begin; the first round comes at once."""
        self._thread.start()

    def stop(self) -> None:
        """No further round begins; a call under way ends by its own time limit."""
        self._ends.set()
        if self._thread.is_alive():
            self._thread.join(STOPS_WITHIN_S)

    def _run(self) -> None:
        try:
            while not self._ends.is_set():
                if self._lock.take():
                    self._round()
                self._ends.wait(self._every_s)
        finally:
            self._lock.let_go()

    def _round(self) -> None:
        """One that fails is told, and the next one is tried: a broken job must not silence the others."""
        try:
            for called in remind(self._parts.office, self._parts.calling, self._rounds):
                LOG.info("called %s: %s", called.device, called.answer.fate)
        except Exception:
            LOG.exception("a round of calls failed")


def start_reminding(app: Flask, data: Path) -> Reminder:
    """For an app that is about to serve; it stops with the process."""
    reminder = Reminder(app.extensions[KEY], data)
    reminder.start()
    app.extensions["bayleaf_reminder"] = reminder
    return reminder
