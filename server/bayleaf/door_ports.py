"""What the doors need of the outside: people, devices, pair codes, sessions, keys, password hashes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol


@dataclass(frozen=True)
class PinVerifier:
    """A PIN as the phones hold it: enough to check one offline, so to guess one (`usecases/pins.py`)."""

    algorithm: str
    iterations: int
    salt: str
    verifier: str


@dataclass(frozen=True)
class Person:
    """Somebody of the shop as of now; entries know them by id only."""

    id: str
    name: str
    roles: tuple[str, ...]
    qualifications: tuple[str, ...]
    pin: PinVerifier | None = None
    has_password: bool = False


class DeviceState(StrEnum):
    """How far a device is through the door."""

    WAITING = "waiting"
    PAIRED = "paired"
    REFUSED = "refused"
    REVOKED = "revoked"


@dataclass(frozen=True)
class Device:
    """A phone or browser that asked to be let in. Times are ms by the server's clock, 0 for never."""

    id: str
    public_key: str
    name: str
    person: str
    state: DeviceState
    check: str = ""
    card: str = ""
    card_signature: str = ""
    last_heard_ms: int = 0
    holds_entries: int = 0
    holds_photos: int = 0
    claimed_ms: int = 0


@dataclass(frozen=True)
class PairCode:
    """A typed code, known by its keyed hash."""

    code_hash: str
    person: str
    expires_ms: int
    spent: bool


@dataclass(frozen=True)
class Session:
    """A login, known by the keyed hash of its token; exactly one of `device` and `person` is set."""

    token_hash: str
    device: str
    person: str
    expires_ms: int


@dataclass(frozen=True)
class OfficeLogin:
    """A name at the office door and its argon2id hash."""

    person: str
    argon2: str


class People(Protocol):
    """Names, roles with their history, PIN verifiers and office logins."""

    def all(self) -> Sequence[Person]: ...
    def find(self, person_id: str) -> Person | None: ...
    def add(self, added: Person, now_ms: int) -> None: ...
    def rename(self, person_id: str, name: str) -> None: ...
    def set_roles(
        self, person_id: str, roles: Sequence[str], qualifications: Sequence[str], now_ms: int
    ) -> None:
        """End what is no longer held at `now_ms`, begin what is new; the past stays."""

    def held_since(self, person_id: str, since_ms: int) -> frozenset[str]:
        """Every role and qualification held at any time from `since_ms` on."""

    def set_pin(self, person_id: str, pin: PinVerifier) -> None: ...
    def set_login(self, person_id: str, argon2: str) -> None: ...
    def login_of(self, name: str) -> OfficeLogin | None:
        """By name, without regard to case."""

    def version(self) -> int: ...


class Devices(Protocol):
    """The devices that were ever let in, or ask to be."""

    def all(self) -> Sequence[Device]: ...
    def find(self, device_id: str) -> Device | None: ...
    def by_key(self, public_key: str) -> Device | None: ...
    def put(self, put: Device) -> None:
        """Add, or replace what the doors know of that id."""

    def revoke(self, device_id: str, now_ms: int) -> None: ...
    def heard(self, device_id: str, now_ms: int, holds_entries: int, holds_photos: int) -> None:
        """It has synced, and says what it still holds."""


class PairCodes(Protocol):
    """Codes that let one device ask to be paired, once."""

    def add(self, code: PairCode) -> None: ...
    def find(self, code_hash: str) -> PairCode | None: ...
    def spend(self, code_hash: str) -> bool:
        """True for exactly one caller, however many ask at once."""


class Sessions(Protocol):
    """Logins that are open, and nonces that wait for a signature."""

    def add(self, opened: Session) -> None: ...
    def find(self, token_hash: str) -> Session | None: ...
    def extend(self, token_hash: str, expires_ms: int) -> None: ...
    def end(self, token_hash: str) -> None: ...
    def end_of_person(self, person: str) -> None: ...
    def sweep(self, now_ms: int) -> None: ...
    def add_nonce(self, nonce_hash: str, device: str, expires_ms: int) -> None: ...
    def take_nonce(self, nonce_hash: str, device: str, now_ms: int) -> bool:
        """True once, for that device, before it expires."""


class Attempts(Protocol):
    """How often somebody got it wrong lately, counted per key in fixed windows of time."""

    def count(self, key: str, since_ms: int) -> int: ...
    def note(self, key: str, now_ms: int) -> None: ...
    def forget(self, key: str) -> None: ...


class Seal(Protocol):
    """The shop's own key: signs device cards and dossiers."""

    public_key: str

    def sign(self, text: str) -> str: ...


class Keys(Protocol):
    """Checks of keys and signatures that others made, and hashes keyed with the server's secret."""

    def is_public_key(self, public_key: str) -> bool: ...
    def verifies(self, public_key: str, text: str, signature: str) -> bool: ...
    def keyed_hash(self, purpose: str, secret_text: str) -> str: ...


class Passwords(Protocol):
    """Slow hashes of office passwords."""

    def hash(self, password: str) -> str: ...
    def matches(self, argon2: str, password: str) -> bool: ...
    def waste_time(self, password: str) -> None:
        """As slow as `matches`, for names that nobody has."""


class Chance(Protocol):
    """Random choices, so that tests may choose."""

    def token(self) -> str: ...
    def salt(self) -> str: ...
    def code(self, alphabet: str, length: int) -> str: ...
    def uuid(self) -> str: ...


@dataclass(frozen=True)
class Doors:
    """All that the use cases of the doors need, picked in app.py."""

    people: People
    devices: Devices
    codes: PairCodes
    sessions: Sessions
    attempts: Attempts
    seal: Seal
    keys: Keys
    passwords: Passwords
    chance: Chance
