"""Doors over a store of their own: real adapters, a clock that tests turn, and cheap password hashes."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from argon2 import PasswordHasher
from sqlalchemy import Engine

from bayleaf.adapters.chance import SystemChance
from bayleaf.adapters.database import open_engine
from bayleaf.adapters.migrating import bring_up_to_date
from bayleaf.adapters.passwords import Argon2Passwords
from bayleaf.adapters.signatures import PrivateKey, ServerKeys
from bayleaf.adapters.sql_devices import SqlDevices, SqlPairCodes
from bayleaf.adapters.sql_people import SqlPeople
from bayleaf.adapters.sql_sessions import SqlAttempts, SqlSessions
from bayleaf.door_ports import Doors
from bayleaf.usecases.people import PersonChange, add_person

NOON_MS = 1_800_000_000_000
PASSWORD = "a long enough password"


@dataclass
class TurnedClock:
    """The port Clock; a test turns it."""

    at_ms: int = NOON_MS
    load: str = "00000000-0000-4000-8000-0000000000aa"

    def now_ms(self) -> int:
        return self.at_ms

    def mono_ms(self) -> int:
        return self.at_ms - NOON_MS

    def turn_s(self, seconds: float) -> None:
        self.at_ms += round(seconds * 1000)


def cheap_passwords() -> Argon2Passwords:
    return Argon2Passwords(PasswordHasher(time_cost=1, memory_cost=8, parallelism=1))


@dataclass
class DoorBench:
    """Doors, the engine under them, and its people."""

    engine: Engine
    clock: TurnedClock = field(default_factory=TurnedClock)
    doors: Doors = field(init=False)
    technician: str = field(init=False, default="")
    office: str = field(init=False, default="")

    def __post_init__(self) -> None:
        self.doors = Doors(
            people=SqlPeople(self.engine),
            devices=SqlDevices(self.engine),
            codes=SqlPairCodes(self.engine),
            sessions=SqlSessions(self.engine),
            attempts=SqlAttempts(self.engine),
            seal=PrivateKey.new(),
            keys=ServerKeys(b"a secret of this bench"),
            passwords=cheap_passwords(),
            chance=SystemChance(),
        )

    def add_two(self) -> None:
        """A technician, and somebody of the office with a password."""
        now_ms = self.clock.now_ms()
        worker = PersonChange(name="Tess Ober", roles=("technician",), qualifications=("high_voltage",))
        self.technician = add_person(self.doors, worker, now_ms).id
        clerk = PersonChange(name="Olin Vane", roles=("office",), password=PASSWORD)
        self.office = add_person(self.doors, clerk, now_ms).id


def door_bench(folder: Path) -> DoorBench:
    """With a technician and an office person."""
    made = empty_bench(folder)
    made.add_two()
    return made


def empty_bench(folder: Path) -> DoorBench:
    """With nobody."""
    engine = open_engine(f"sqlite:///{folder / 'doors.sqlite3'}")
    bring_up_to_date(engine)
    return DoorBench(engine)
