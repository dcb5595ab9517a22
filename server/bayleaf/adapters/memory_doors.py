"""People and devices in memory, for tests and simulations of the record."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from bayleaf.door_ports import Device, DeviceState, OfficeLogin, Person, PinVerifier


@dataclass
class MemoryPeople:
    """The port People. `spans` says from when until when somebody held a role or qualification."""

    people: dict[str, Person] = field(default_factory=dict)
    spans: dict[str, list[tuple[str, int, int | None]]] = field(default_factory=dict)
    logins: dict[str, OfficeLogin] = field(default_factory=dict)
    changes: int = 0

    def all(self) -> Sequence[Person]:
        """By name."""
        return sorted(self.people.values(), key=lambda person: (person.name, person.id))

    def find(self, person: str) -> Person | None:
        """One person."""
        return self.people.get(person)

    def add(self, person: Person, now_ms: int) -> None:
        """With their first roles."""
        self.people[person.id] = person
        self.spans[person.id] = [(held, now_ms, None) for held in (*person.roles, *person.qualifications)]
        self.changes += 1

    def rename(self, person: str, name: str) -> None:
        """Another name."""
        self.people[person] = replace(self.people[person], name=name)
        self.changes += 1

    def set_roles(
        self, person: str, roles: Sequence[str], qualifications: Sequence[str], now_ms: int
    ) -> None:
        """End what is no longer held, begin what is new."""
        wanted = {*roles, *qualifications}
        kept = [
            (held, begun, now_ms if ended is None and held not in wanted else ended)
            for held, begun, ended in self.spans[person]
        ]
        open_now = {held for held, _, ended in kept if ended is None}
        self.spans[person] = kept + [(held, now_ms, None) for held in sorted(wanted - open_now)]
        self.people[person] = replace(
            self.people[person], roles=tuple(sorted(roles)), qualifications=tuple(sorted(qualifications))
        )
        self.changes += 1

    def held_since(self, person: str, since_ms: int) -> frozenset[str]:
        """Held at any time from then on."""
        spans = self.spans.get(person, [])
        return frozenset(held for held, _, ended in spans if ended is None or ended >= since_ms)

    def set_pin(self, person: str, pin: PinVerifier) -> None:
        """Another PIN."""
        self.people[person] = replace(self.people[person], pin=pin)
        self.changes += 1

    def set_login(self, person: str, argon2: str) -> None:
        """Another password."""
        self.people[person] = replace(self.people[person], has_password=True)
        self.logins[self.people[person].name.casefold()] = OfficeLogin(person, argon2)

    def login_of(self, name: str) -> OfficeLogin | None:
        """By name, without regard to case."""
        return self.logins.get(name.casefold())

    def version(self) -> int:
        """Counts up with every change."""
        return self.changes


@dataclass
class MemoryDevices:
    """The port Devices."""

    devices: dict[str, Device] = field(default_factory=dict)

    def all(self) -> Sequence[Device]:
        """The newest first."""
        return sorted(self.devices.values(), key=lambda device: (-device.claimed_ms, device.id))

    def find(self, device: str) -> Device | None:
        """One device."""
        return self.devices.get(device)

    def by_key(self, public_key: str) -> Device | None:
        """The newest that holds this key."""
        return next((device for device in self.all() if device.public_key == public_key), None)

    def put(self, device: Device) -> None:
        """Add or replace."""
        self.devices[device.id] = device

    def revoke(self, device: str, now_ms: int) -> None:
        """Its card no longer lets it in."""
        del now_ms
        self.devices[device] = replace(self.devices[device], state=DeviceState.REVOKED, check="")

    def heard(self, device: str, now_ms: int, holds_entries: int, holds_photos: int) -> None:
        """What it said of itself."""
        if device in self.devices:
            self.devices[device] = replace(
                self.devices[device],
                last_heard_ms=now_ms,
                holds_entries=holds_entries,
                holds_photos=holds_photos,
            )
