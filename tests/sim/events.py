"""What happens in a simulated shop, one event at a time: each takes the world and changes it."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from sim import in_office, on_phones
from sim.stores import ServerDied
from sim.world import World

Event = Callable[[World], None]
DAY_MS = 24 * 3_600_000


def time_passes(world: World) -> None:
    """Minutes, hours, or now and then more than a month."""
    far = world.traits.files and world.chance.random() < 0.1
    world.clock.at_ms += 31 * DAY_MS if far else world.chance.choice([60_000, 3_600_000])
    for phone in world.phones:
        phone.now_ms = world.clock.at_ms
    if world.traits.clocks:
        world.chance.choice(world.phones).wall_ms = world.chance.randint(-30, 30) * 600_000


WEIGHTS: Mapping[Event, int] = {
    on_phones.write: 60,
    on_phones.sync: 70,
    on_phones.write_badly: 8,
    on_phones.toggle_line: 10,
    on_phones.late_request: 5,
    on_phones.kill_phone: 4,
    on_phones.forget_heads: 3,
    on_phones.back_up_phone: 4,
    on_phones.restore_phone: 2,
    on_phones.learns: 3,
    in_office.office_writes: 12,
    in_office.office_admits: 3,
    in_office.opens_job: 2,
    in_office.new_revision: 2,
    in_office.changes_roles: 2,
    in_office.pairs_late: 2,
    in_office.revokes: 1,
    in_office.hands_in: 1,
    in_office.copies_store: 4,
    in_office.puts_back: 2,
    in_office.restarts: 2,
    in_office.files: 1,
    time_passes: 5,
}  # fmt: skip


def happen(world: World) -> None:
    """One thing happens, and a moment passes."""
    world.clock.at_ms += world.chance.randint(1, 2_000)
    for phone in world.phones:
        phone.now_ms = world.clock.at_ms
    event = world.chance.choices(list(WEIGHTS), list(WEIGHTS.values()))[0]
    try:
        event(world)
    except ServerDied:
        world.say("the server died before its commit, and starts again")
        world.server.start()
