"""What happens in the office and to its server: people write, pair, revoke and file; a copy is put back."""

from __future__ import annotations

from io import BytesIO

from bayleaf.domain.entries import NIL
from bayleaf.ports import Caller
from bayleaf.usecases.file_job import file_job
from bayleaf.usecases.hand_in import hand_in
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.server_pen import Draft
from bayleaf.usecases.write_office_entry import write_office_entries
from sim import deeds
from sim.phone import Phone
from sim.sync.hand_in import hand_in as hand_in_of
from sim.world import TECHNICIAN, World
from vectors import methods


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
    said = hand_in(world.server.office, office, BytesIO(hand_in_of(phone)))
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
