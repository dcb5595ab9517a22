"""The thread that plans heat zones: one in each process that serves, and of all of them one that plans."""

from __future__ import annotations

import logging
from pathlib import Path
from typing import Final

from flask import Flask

from bayleaf.adapters.heat_process import ProcessPlanner
from bayleaf.heat_ports import Planner
from bayleaf.http.parts import KEY, Parts
from bayleaf.process_lock import LockedThread
from bayleaf.usecases.plan_heat import begin_planning, plan_next

EVERY_S: Final = 1.0
STOPS_WITHIN_S: Final = 5.0
LOCK: Final = "plan.lock"
EXTENSION: Final = "bayleaf_planning"
LOG: Final = logging.getLogger("bayleaf")


class Planning(LockedThread):
    """Looks for a plan that waits every second. What is under way at the end is put back, its child ended."""

    def __init__(self, parts: Parts, data: Path, planner: Planner, every_s: float = EVERY_S) -> None:
        super().__init__("planning", data / LOCK, every_s, STOPS_WITHIN_S)
        self._office = parts.office
        self._planner = planner

    def work(self, *, taking_over: bool) -> bool:
        """Whether there was one. A fault of ours is told, and the next one is tried."""
        if taking_over:  # what the process before left half done waits again
            begin_planning(self._office.heat, self._planner)
        try:
            row = plan_next(self._office.heat, self._planner, self._office.clock, self.is_ending)
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
