"""What happens in a simulated shop, one event at a time: each takes the world and changes it."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from bayleaf.domain.entries import NIL
from bayleaf.usecases.file_job import file_job
from bayleaf.usecases.hand_in import hand_in
from bayleaf.ports import Caller
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.server_pen import Draft
from bayleaf.usecases.write_office_entry import write_office_entries
from sim import deeds
from sim.asking import NoAnswer
from sim.line import handle, step_round
from sim.phone import Phone
from sim.stores import ServerDied
from sim.world import TECHNICIAN, World
from vectors import methods

Event = Callable[[World], None]
DAY_MS = 24 * 3_600_000


def write(world: World) -> None:
    """A phone records something, on line or off."""
    phone = world.chance.choice(world.phones)
    jobs = [row.job for row in phone.store.jobs.values() if not row.gone and not row.let_go]
    if not jobs:
        return
    job = world.chance.choice(jobs)
    held = phone.store.entries_of(job)
    photographs = "photographer" in phone.roles
    deed = world.chance.choice(deeds.OF_PHOTOGRAPHERS if photographs else deeds.OF_TECHNICIANS)
    if deed is deeds.photo and not world.traits.photos:
        deed = deeds.note
    _append(world, phone, job, deed, held)


def write_badly(world: World) -> None:
    """A record that will be set aside or refused."""
    traits = world.traits
    deed: deeds.Deed | None = world.chance.choice(
        [
            deeds.not_yet_known if traits.unknown else None,
            deeds.broken if traits.refuses else None,
            deeds.as_another if traits.foreign else None,
            deeds.tick if traits.foreign else None,
        ]
    )
    phone = world.chance.choice(world.phones)
    if deed is None:
        return
    if deed is deeds.tick:
        _write_in_a_gone_job(world, phone)
        return
    if phone.store.jobs:
        job = world.chance.choice(sorted(phone.store.jobs))
        _append(world, phone, job, deed, phone.store.entries_of(job))


def _write_in_a_gone_job(world: World, phone: Phone) -> None:
    """A screen that was still open when the person was taken off the job."""
    gone = [row.job for row in phone.store.jobs.values() if row.gone]
    if gone:
        _append(world, phone, world.chance.choice(gone), deeds.note, ())


def _append(world: World, phone: Phone, job: str, deed: deeds.Deed, held: deeds.Held) -> None:
    row = deed(world.chance, phone, job, held)
    world.must.add(row.hash)
    world.say(f"{phone.name} writes {row.kind} {row.seq} {row.hash[:6]} in {job[:4]}")


def sync(world: World) -> None:
    """Somebody's round goes on by some requests; others may come between."""
    phone = world.chance.choice(world.phones)
    if phone.state != "paired":
        return
    for _ in range(world.chance.randint(1, 6)):
        if not step_round(world, phone):
            return


def toggle_line(world: World) -> None:
    """A phone drives out of reach, or comes back."""
    phone = world.chance.choice(world.phones)
    world.offline ^= {phone.name}
    world.say(f"{phone.name} is {'off' if phone.name in world.offline else 'on'} line")


def late_request(world: World) -> None:
    """A request that was kept back on its way arrives now; nobody waits for its answer."""
    if world.delayed:
        request = world.delayed.pop(world.chance.randrange(len(world.delayed)))
        world.say(f"late: {request.method} {request.path}")
        try:
            handle(world, request)
        except NoAnswer:
            return


def kill_phone(world: World) -> None:
    phone = world.chance.choice(world.phones)
    world.rounds.pop(phone.name, None)
    phone.load = world.server.seeded.uuid()
    world.say(f"{phone.name} is killed and starts again")


def forget_heads(world: World) -> None:
    """The next push goes without its signed heads; a later one makes up for it."""
    if world.traits.forgets:
        world.chance.choice(world.phones).forgets_heads = True


def back_up_phone(world: World) -> None:
    phone = world.chance.choice(world.phones)
    if world.traits.restores:
        world.backups[phone.name] = phone.store.copy()
        world.say(f"{phone.name} is backed up")


def restore_phone(world: World) -> None:
    """From a backup: its chains fork with what it writes next."""
    if not world.backups:
        return
    name = world.chance.choice(sorted(world.backups))
    phone = next(phone for phone in world.phones if phone.name == name)
    phone.store = world.backups.pop(name).copy()
    world.rounds.pop(name, None)
    world.say(f"{name} is restored from its backup")
    world.note_destruction()


def office_writes(world: World) -> None:
    jobs = world.jobs()
    if jobs:
        job = world.chance.choice(jobs)
        write_in(world, job, *deeds.office_draft(world.chance, world.people, world.logged(job)))


def write_in(world: World, job: str, kind: str, body: deeds.Body) -> None:
    """An entry of the office, through the server's device."""
    if world.traits.dies and world.chance.random() < 0.03:
        world.server.disk.log.dies = True
    made = write_office_entries(world.server.office, job, world.clerk, [Draft(kind, body)])
    world.must |= {entry.hash for entry in made}
    world.say(f"office writes {kind} {made[0].hash[:6]} in {job[:4]}, number {made[0].number}")


def office_admits(world: World) -> None:
    """Some of what was set aside is let in, with a reason."""
    for job in world.jobs():
        waiting = [mark.hash for mark in world.server.disk.log.on_disk.asides(job) if not mark.admitted]
        if waiting and world.chance.random() < 0.5:
            write_in(world, job, "admit", {"hashes": [world.chance.choice(waiting)], "reason": "seen"})


def opens_job(world: World) -> None:
    if len(world.jobs()) < 3:
        job = world.open_job(world.chance.sample(world.people, world.chance.randint(0, 2)))
        world.say(f"office opens {job[:4]}")


def new_revision(world: World) -> None:
    """A method that the first copies of the store do not hold is imported and pinned."""
    world.import_method("values_2")
    names = [world.chance.choice(["values", "values_2"]), "evidence", "rivets", "heat"]
    for job in world.jobs()[:1]:
        over = deeds.tips([row.text for row in world.logged(job)], "pin", {})
        body = {"methods": [methods.digest(name) for name in names], "over": over}
        write_in(world, job, "pin", body)


def changes_roles(world: World) -> None:
    person = world.people[0]
    roles = world.chance.choice([TECHNICIAN, TECHNICIAN, ("photographer", "technician"), ("photographer",)])
    if world.traits.roles and world.server.disk.people.find(person) is not None:
        world.server.disk.people.set_roles(person, roles, (), world.clock.now_ms())
        world.say(f"Mara is now {', '.join(roles)}")


def pairs_late(world: World) -> None:
    if world.traits.late and len(world.phones) < 5:
        phone = world.pair(f"late {len(world.phones)}", world.people[1], TECHNICIAN)
        world.say(f"{phone.name} is paired")


def revokes(world: World) -> None:
    if world.traits.revokes and all(phone.state == "paired" for phone in world.phones):
        phone = world.chance.choice(world.phones)
        if world.server.disk.devices.find(phone.device) is not None:
            world.server.disk.devices.revoke(phone.device, world.clock.now_ms())
            world.say(f"{phone.name} is revoked")


def hands_in(world: World) -> None:
    """A phone's unsent records come to the office as a file."""
    hand_over(world, world.chance.choice(world.phones))


def hand_over(world: World, phone: Phone) -> None:
    office = Caller("office", NIL, world.clerk, ("office",))
    said = hand_in(world.server.office, office, phone.hand_in())
    world.say(f"{phone.name} hands in: {said['taken']} taken, {said['set_aside']} set aside")


def copies_store(world: World) -> None:
    if world.traits.put_back and len(world.copies) < 3:
        world.copies.append(world.server.disk.copy())
        world.say("the store is copied")


def puts_back(world: World) -> None:
    """The data folder is replaced by an older copy of it, and the server starts."""
    if not world.copies:
        return
    before = world.at_server()
    world.server.disk.log.dies = False
    world.server.disk.put_back(world.chance.choice(world.copies))
    world.server.start()
    world.was_put_back = True
    world.lost |= before - world.at_server()
    world.say(f"the server is put back; {len(before - world.at_server())} entries are gone from it")
    world.note_destruction()


def restarts(world: World) -> None:
    world.server.start()


def files(world: World) -> None:
    jobs = world.jobs()
    if not world.traits.files or not jobs:
        return
    job = world.chance.choice(jobs)
    try:
        file_job(world.server.office, world.server.filing, job, world.clerk, "to show it")
    except Refusal as refusal:
        if refusal.code != "already_filed":
            raise
        return
    world.must |= {row.hash for row in world.logged(job) if row.kind == "file"}
    world.say(f"{job[:4]} is filed")


def time_passes(world: World) -> None:
    """Minutes, hours, or now and then more than a month."""
    far = world.traits.files and world.chance.random() < 0.1
    world.clock.at_ms += 31 * DAY_MS if far else world.chance.choice([60_000, 3_600_000])
    for phone in world.phones:
        phone.now_ms = world.clock.at_ms
    if world.traits.clocks:
        world.chance.choice(world.phones).wall_ms = world.chance.randint(-30, 30) * 600_000


def learns(world: World) -> None:
    """A phone hears of its person's roles with the bundle."""
    for phone in world.phones:
        found = world.server.disk.people.find(phone.person)
        if found is not None and phone.name not in world.offline:
            phone.roles = found.roles


WEIGHTS: Mapping[Event, int] = {
    write: 60, sync: 70, write_badly: 8, toggle_line: 10, late_request: 5, kill_phone: 4, forget_heads: 3,
    back_up_phone: 4, restore_phone: 2, office_writes: 12, office_admits: 3, opens_job: 2, new_revision: 2,
    changes_roles: 2, pairs_late: 2, revokes: 1, hands_in: 1, copies_store: 4, puts_back: 2, restarts: 2,
    files: 1, time_passes: 5, learns: 3,
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
