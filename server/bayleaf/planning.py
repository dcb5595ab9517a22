"""The thread that plans heat zones: one in each process that serves, and of all of them one that plans."""

from __future__ import annotations

import logging
import threading
from pathlib import Path
from typing import Final

from flask import Flask

from bayleaf.adapters.heat_process import ProcessPlanner
from bayleaf.heat_ports import Planner
from bayleaf.http.parts import KEY, Parts
from bayleaf.process_lock import ProcessLock
from bayleaf.usecases.plan_heat import begin_planning, plan_next

EVERY_S: Final = 1.0
STOPS_WITHIN_S: Final = 5.0
LOCK: Final = "plan.lock"
EXTENSION: Final = "bayleaf_planning"
LOG: Final = logging.getLogger("bayleaf")


class Planning:
    """Looks for a plan that waits every second, while this process holds the lock in the data folder.

    When a process ends, however it ends, another one plans, and begins anew with what the dead one was at.
    """

    def __init__(self, parts: Parts, data: Path, planner: Planner, every_s: float = EVERY_S) -> None:
        self._parts = parts
        self._lock = ProcessLock(data / LOCK)
        self._planner = planner
        self._every_s = every_s
        self._ends = threading.Event()
        self._thread = threading.Thread(target=self._run, name="planning", daemon=True)

    def start(self) -> None:
        """Begin; the first look comes at once."""
        self._thread.start()

    def stop(self) -> None:
        """What is under way is put back and its child ended."""
        self._ends.set()
        if self._thread.is_alive():
            self._thread.join(STOPS_WITHIN_S)

    def _run(self) -> None:
        try:
            while not self._ends.is_set():
                if not (self._is_ours() and self._planned_one()):
                    self._ends.wait(self._every_s)
        finally:
            self._lock.let_go()

    def _is_ours(self) -> bool:
        """Whether this process plans; once it does, what the one before left half done waits again."""
        began = not self._lock.is_held
        if not self._lock.take():
            return False
        if began:
            begin_planning(self._parts.office.heat, self._planner)
        return True

    def _planned_one(self) -> bool:
        """Whether there was one. A fault of ours is told, and the next one is tried."""
        office = self._parts.office
        try:
            row = plan_next(office.heat, self._planner, office.clock, self._ends.is_set)
        except Exception:
            LOG.exception("a heat plan failed")
            return False
        if row is not None:
            LOG.info("heat plan %s: %s", row.digest[:12], row.state)
        return row is not None


def start_planning(app: Flask, data: Path, planner: Planner | None = None) -> Planning:
    """For an app that is about to serve; it stops with the process."""
    planning = Planning(app.extensions[KEY], data, planner or ProcessPlanner())
    planning.start()
    app.extensions[EXTENSION] = planning
    return planning
