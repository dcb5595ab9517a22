"""Works off the plans that wait, one at a time, with progress told and cancelling heard."""

from __future__ import annotations

from collections.abc import Callable

from bayleaf.heat_ports import RUNNING, HeatPlans, NotPlanned, Planned, Planner, PlanRow
from bayleaf.ports import Clock

Ends = Callable[[], bool]
TOLD_EVERY_PERMILLE = 20
OUR_FAULT = "The planner has a fault; the server's log says more."


def begin_planning(heat: HeatPlans, planner: Planner) -> int:
    """At a start: what ran when the last process ended waits again. How many."""
    return heat.put_back(planner.model)


def plan_next(heat: HeatPlans, planner: Planner, clock: Clock, ends: Ends = lambda: False) -> PlanRow | None:
    """Plans the one that waits longest; None if none waits. `ends`: this process is about to stop."""
    row = heat.take(planner.model)
    if row is None:
        return None
    try:
        heat.finish(row.digest, row.model, _planned(heat, planner, row, ends), clock.now_ms())
    except NotPlanned as why:
        if not why.stopped:
            heat.fail(row.digest, row.model, str(why), clock.now_ms())
        elif ends():
            heat.put_back(planner.model)
    except Exception:
        heat.fail(row.digest, row.model, OUR_FAULT, clock.now_ms())
        raise
    return heat.plan(row.digest, row.model)


def _planned(heat: HeatPlans, planner: Planner, row: PlanRow, ends: Ends) -> Planned:
    zone = heat.zone(row.digest)
    if zone is None:
        raise NotPlanned("The zone was taken away.", stopped=True)

    kept: dict[str, int] = {}

    def told(doing: str, share_permille: int) -> None:
        """Not every word of the planner is worth a write that syncs."""
        if share_permille - kept.get(doing, -TOLD_EVERY_PERMILLE) >= TOLD_EVERY_PERMILLE:
            kept[doing] = share_permille
            heat.progress(row.digest, row.model, doing, share_permille)

    def stop() -> bool:
        found = heat.plan(row.digest, row.model)
        return ends() or found is None or found.state != RUNNING

    return planner.plan(zone.text, told, stop)
