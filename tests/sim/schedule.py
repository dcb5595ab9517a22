"""Runs a seeded schedule: trouble for some steps, then peace, and what has to hold in both."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass

from sim.events import happen
from sim.in_office import hand_over
from sim.line import step_round, whole_round
from sim.on_phones import late_request
from sim.promises import check_end, check_step
from sim.world import Broken, World, new_world

STEPS = 130
PASSES_MAX = 12


@dataclass(frozen=True)
class Failed:
    """A schedule that broke a promise: how to run it again, and what happened."""

    seed: int
    steps: tuple[int, ...]
    said: str
    trace: tuple[str, ...]

    def __str__(self) -> str:
        again = f"python -m sim.long --seed {self.seed} --only {','.join(map(str, self.steps))}"
        return "\n".join([f"seed {self.seed}: {self.said}", f"again (in tests/): {again}", *self.trace])


def run(seed: int, steps: Sequence[int] = range(STEPS)) -> Failed | None:
    """None where every promise was kept. Each step has its own chance, so that others can be left out."""
    world = new_world(seed)
    try:
        for number in steps:
            world.chance = random.Random(seed * STEPS + number)
            happen(world)
            check_step(world)
        heal(world)
        check_end(world)
    except Broken as broken:
        cause = f" ({broken.__cause__!r})" if broken.__cause__ is not None else ""
        return Failed(seed, tuple(steps), f"{broken}{cause}", tuple(world.trace))
    return None


def heal(world: World) -> None:
    """The network is back: what was begun ends, revoked phones hand in, and all sync until quiet."""
    world.say("-- peace")
    world.calm = True
    world.server.disk.log.dies = False
    world.offline.clear()
    while world.delayed:
        late_request(world)
    for phone in world.phones:
        while phone.name in world.rounds and step_round(world, phone):
            pass
    for _ in range(PASSES_MAX):
        before = _standing(world)
        for phone in world.phones:
            if phone.state == "paired":
                whole_round(world, phone)
            if phone.state == "revoked":
                hand_over(world, phone)
        if _standing(world) == before:
            return
    raise Broken(f"no quiet after {PASSES_MAX} passes of all phones")


def _standing(world: World) -> list[object]:
    log = world.server.disk.log.on_disk
    phones = [
        (
            len(phone.store.entries),
            phone.store.unsent(),
            sorted((row.job, row.cursor) for row in phone.store.jobs.values()),
        )
        for phone in world.phones
    ]
    return [log.log(), [(row.id, row.count) for row in log.jobs()], phones]


def smallest(failed: Failed) -> Failed:
    """The same schedule with all steps left out that it needs not to fail."""
    best, size = failed, max(1, len(failed.steps) // 2)
    while size:
        best = _without_some(best, size)
        size //= 2
    return best


def _without_some(best: Failed, size: int) -> Failed:
    at = 0
    while at < len(best.steps):
        found = run(best.seed, best.steps[:at] + best.steps[at + size :])
        if found is None:
            at += size
        else:
            best = found
    return best
