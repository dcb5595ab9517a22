"""The thread that calls phones: one in each process that serves, and of all of them one that sends."""

from __future__ import annotations

import logging
from pathlib import Path
from typing import Final

from flask import Flask

from bayleaf.http.parts import KEY, Parts
from bayleaf.process_lock import LockedThread
from bayleaf.usecases.remind import Rounds, remind

EVERY_S: Final = 15.0
STOPS_WITHIN_S: Final = 3.0
LOCK: Final = "remind.lock"
LOG: Final = logging.getLogger("bayleaf")


class Reminder(LockedThread):
    """A round every few seconds. A call under way at the end ends by its own time limit."""

    def __init__(self, parts: Parts, data: Path, every_s: float = EVERY_S) -> None:
        super().__init__("reminder", data / LOCK, every_s, STOPS_WITHIN_S)
        self._parts = parts
        self._rounds = Rounds()

    def work(self, *, taking_over: bool) -> bool:  # noqa: ARG002  (who sent before left nothing)
        """One that fails is told, and the next one is tried: a broken job must not silence the others."""
        try:
            for called in remind(self._parts.office, self._parts.calling, self._rounds):
                LOG.info("called %s: %s", called.device, called.answer.fate)
        except Exception:
            LOG.exception("a round of calls failed")
        return False


def start_reminding(app: Flask, data: Path) -> Reminder:
    """For an app that is about to serve; it stops with the process."""
    reminder = Reminder(app.extensions[KEY], data)
    reminder.start()
    app.extensions["bayleaf_reminder"] = reminder
    return reminder
