"""Doors over SQL or over the twins in memory, a clock that tests turn, and cheap password hashes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from argon2 import PasswordHasher
from sqlalchemy import Engine

from bayleaf.adapters.chance import SystemChance
from bayleaf.adapters.database import open_engine
from bayleaf.adapters.memory_doors import MemoryDevices, MemoryPeople
from bayleaf.adapters.memory_logins import MemoryAttempts, MemoryPairCodes, MemorySessions
from bayleaf.adapters.migrating import bring_up_to_date
from bayleaf.adapters.passwords import Argon2Passwords
from bayleaf.adapters.signatures import PrivateKey, ServerKeys
from bayleaf.adapters.sql_devices import SqlDevices, SqlPairCodes
from bayleaf.adapters.sql_people import SqlPeople
from bayleaf.adapters.sql_sessions import SqlAttempts, SqlSessions
from bayleaf.door_ports import Attempts, Devices, Doors, PairCodes, People, Sessions
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
    """Doors over some stores, a clock, and its people."""

    doors: Doors
    clock: TurnedClock = field(default_factory=TurnedClock)
    engine: Engine | None = None
    technician: str = ""
    office: str = ""

    def add_two(self) -> None:
        """A technician, and somebody of the office with a password."""
        now_ms = self.clock.now_ms()
        worker = PersonChange(name="Tess Ober", roles=("technician",), qualifications=("high_voltage",))
        self.technician = add_person(self.doors, worker, now_ms).id
        clerk = PersonChange(name="Olin Vane", roles=("office",), password=PASSWORD)
        self.office = add_person(self.doors, clerk, now_ms).id

    def close(self) -> None:
        """Let go of the store."""
        if self.engine is not None:
            self.engine.dispose()


@cache
def migrated_store() -> bytes:
    """A store of this program's revision with nothing in it: migrated once, copied for every test."""
    with TemporaryDirectory() as folder:
        file = Path(folder) / "empty.sqlite3"
        engine = open_engine(f"sqlite:///{file}")
        bring_up_to_date(engine)
        engine.dispose()
        return file.read_bytes()


def sql_bench(folder: Path) -> DoorBench:
    """Over SQL, with nobody."""
    store = folder / "doors.sqlite3"
    store.write_bytes(migrated_store())
    engine = open_engine(f"sqlite:///{store}")
    doors = _doors(
        people=SqlPeople(engine),
        devices=SqlDevices(engine),
        codes=SqlPairCodes(engine),
        sessions=SqlSessions(engine),
        attempts=SqlAttempts(engine),
    )
    return DoorBench(doors, engine=engine)


def memory_bench(_folder: Path) -> DoorBench:
    """Over the twins in memory, with nobody."""
    return DoorBench(
        _doors(
            people=MemoryPeople(),
            devices=MemoryDevices(),
            codes=MemoryPairCodes(),
            sessions=MemorySessions(),
            attempts=MemoryAttempts(),
        )
    )


BENCHES: dict[str, Callable[[Path], DoorBench]] = {"sql": sql_bench, "memory": memory_bench}


def _doors(
    *, people: People, devices: Devices, codes: PairCodes, sessions: Sessions, attempts: Attempts
) -> Doors:
    return Doors(
        people=people,
        devices=devices,
        codes=codes,
        sessions=sessions,
        attempts=attempts,
        seal=PrivateKey.new(),
        keys=ServerKeys(b"a secret of this bench"),
        passwords=cheap_passwords(),
        chance=SystemChance(),
    )
