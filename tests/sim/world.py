"""A simulated shop: server, people, phones and jobs, what runs between them, what must not be lost."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, fields
from functools import cache, lru_cache

from bayleaf.adapters.signatures import PrivateKey
from bayleaf.canonical.form import dumps
from bayleaf.door_ports import Device, DeviceState, Person
from bayleaf.usecases import write_office_entry
from bayleaf.usecases.cards import DeviceCard, signed_card
from bayleaf.usecases.server_pen import Draft
from bayleaf.usecases.sessions import open_device_login
from sim.asking import Request, Talk
from sim.phone import Phone
from sim.phone_store import EntryRow, PhoneStore, row_of
from sim.seeded import Seeded, SimClock
from sim.server import Server
from sim.stores import Disk, DiskCopy
from vectors import methods

METHODS = ("values", "evidence", "rivets", "heat")
TECHNICIAN, PHOTOGRAPHER = ("technician",), ("photographer",)


class Broken(AssertionError):
    """A promise was broken; the message says which, and where."""


@dataclass(frozen=True)
class Traits:
    """What may happen in a schedule: each is drawn, so that no trouble always hides another."""

    loses: bool
    duplicates: bool
    delays: bool
    dies: bool
    damages: bool
    put_back: bool
    restores: bool
    revokes: bool
    unknown: bool
    refuses: bool
    foreign: bool
    forgets: bool
    photos: bool
    files: bool
    roles: bool
    late: bool
    clocks: bool


def draw_traits(chance: random.Random) -> Traits:
    return Traits(**{one.name: chance.random() < 0.6 for one in fields(Traits)})


@dataclass
class Running:
    """A phone's round in the midst: the talk, and the request that it waits for."""

    talk: Talk[None]
    asks: Request


@dataclass
class World:
    """`must` are the hashes that have to be at the server in the end."""

    seed: int
    chance: random.Random
    traits: Traits
    clock: SimClock
    server: Server
    clerk: str = ""
    people: list[str] = field(default_factory=list)
    phones: list[Phone] = field(default_factory=list)
    offline: set[str] = field(default_factory=set)
    rounds: dict[str, Running] = field(default_factory=dict)
    delayed: list[Request] = field(default_factory=list)
    copies: list[DiskCopy] = field(default_factory=list)
    backups: dict[str, PhoneStore] = field(default_factory=dict)
    must: set[str] = field(default_factory=set)
    lost: set[str] = field(default_factory=set)
    was_put_back: bool = False
    calm: bool = False
    trace: list[str] = field(default_factory=list)

    def say(self, line: str) -> None:
        self.trace.append(line)

    def jobs(self) -> list[str]:
        """Those that the server knows and somebody opened."""
        return sorted(row.id for row in self.server.disk.log.on_disk.jobs() if not row.shell)

    def logged(self, job: str) -> list[EntryRow]:
        return [cached_row(entry.text) for entry in self.server.disk.log.on_disk.after(job, 0, 10**9)]

    def at_server(self) -> set[str]:
        return set(self.server.disk.log.on_disk.places)

    def reachable(self) -> set[str]:
        """What still lies somewhere from where it can come: a revoked phone hands in what is unsent."""
        found = self.at_server()
        for phone in self.phones:
            found |= set(phone.store.outbox if phone.state == "revoked" else phone.store.entries)
        return found

    def note_destruction(self) -> None:
        """Nobody can ask for what nobody holds any more."""
        self.must &= self.reachable()

    def active(self) -> Iterator[Phone]:
        return (phone for phone in self.phones if phone.state == "paired")

    def add_person(self, name: str, roles: Sequence[str]) -> str:
        person = Person(self.server.seeded.uuid(), name, tuple(roles), ())
        self.server.disk.people.add(person, self.clock.now_ms())
        return person.id

    def pair(self, name: str, person: str, roles: tuple[str, ...]) -> Phone:
        key, device = new_key(len(self.phones)), self.server.seeded.uuid()
        now_ms = self.clock.now_ms()
        signed = signed_card(
            DeviceCard(device, key.public_key, name, person, roles, (), now_ms), self.server.seal
        )
        self.server.disk.devices.put(
            Device(
                id=device, public_key=key.public_key, name=name, person=person, state=DeviceState.PAIRED,
                card=signed.text, card_signature=signed.signature, claimed_ms=now_ms,
            )
        )  # fmt: skip
        phone = Phone(name, device, person, roles, key, {"card": signed.text, "signature": signed.signature})
        phone.token = open_device_login(self.server.doors, device, now_ms).token
        phone.now_ms = now_ms
        phone.store.cards[device] = phone.card
        self.phones.append(phone)
        return phone

    def open_job(self, people: Sequence[str]) -> str:
        opened = {
            "order": f"S-{len(self.jobs()) + 1}", "vin": "INVENTED", "vehicle": "invented van",
            "part": "half", "side": "left", "invented": True, "over": [],
        }  # fmt: skip
        digests = [methods.digest(name) for name in METHODS]
        drafts = [Draft("open", opened), Draft("pin", {"methods": digests, "over": []})]
        drafts += [Draft("assign", {"person": person, "on": True, "over": []}) for person in people]
        job = write_office_entry.open_job(self.server.office, self.clerk, drafts)
        self.must |= {row.hash for row in self.logged(job)}
        return job

    def import_method(self, name: str) -> None:
        text = dumps(methods.document(name))
        self.server.office.methods.put(methods.digest(name), text, "", self.clock.now_ms())


@cache
def new_key(number: int) -> PrivateKey:
    """Keys cost time and decide nothing: phones of different schedules share them."""
    del number
    return PrivateKey.new()


@cache
def shop_seal() -> PrivateKey:
    return PrivateKey.new()


@lru_cache(maxsize=50_000)
def cached_row(text: str) -> EntryRow:
    return row_of(text)


def new_world(seed: int) -> World:
    """A shop with one or two jobs and three to five phones; not everybody is on every job yet."""
    chance = random.Random(seed)
    traits = draw_traits(chance)
    clock = SimClock()
    server = Server(clock, Seeded(random.Random(chance.getrandbits(64))), Disk(), shop_seal())
    world = World(seed, chance, traits, clock, server)
    world.clerk = world.add_person("Ada Quill", ("office",))
    for name in METHODS:
        world.import_method(name)
    for name, roles in (("Mara", TECHNICIAN), ("Oskar", TECHNICIAN), ("Pim", PHOTOGRAPHER)):
        world.people.append(world.add_person(name, roles))
        world.pair(name, world.people[-1], roles)
    if chance.random() < 0.5:
        world.pair("Mara's second", world.people[0], TECHNICIAN)
    for _ in range(chance.randint(1, 2)):
        world.open_job(world.people[: chance.randint(1, 3)])
    return world
