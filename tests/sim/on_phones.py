"""What happens to phones: people record, phones sync, are killed, backed up and restored."""

from __future__ import annotations

from sim import deeds
from sim.asking import NoAnswer
from sim.line import handle, step_round
from sim.phone import Phone
from sim.world import World


def write(world: World) -> None:
    """A phone records something, on line or off."""
    _record(world, world.chance.choice(world.phones))


def _record(world: World, phone: Phone) -> None:
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
    held = sorted(row.job for row in phone.store.jobs.values() if not row.let_go)
    if held:
        job = world.chance.choice(held)
        _append(world, phone, job, deed, phone.store.entries_of(job))


def _write_in_a_gone_job(world: World, phone: Phone) -> None:
    """A screen that was still open when the person was taken off the job."""
    gone = [row.job for row in phone.store.jobs.values() if row.gone and not row.let_go]
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
        if world.chance.random() < 0.2:
            _record(world, phone)


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


def learns(world: World) -> None:
    """A phone hears of its person's roles with the bundle."""
    for phone in world.phones:
        found = world.server.disk.people.find(phone.person)
        if found is not None and phone.name not in world.offline:
            phone.roles = found.roles
