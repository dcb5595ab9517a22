"""Pairs a phone of the demo without an office: its origin says whose it is."""

from __future__ import annotations

from dataclasses import dataclass

from bayleaf.door_ports import Device, DeviceState, Doors
from bayleaf.usecases.pairing import let_in, require_public_key
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.sessions import OpenLogin, open_device_login


@dataclass(frozen=True)
class DemoPhone:
    """A device of the demo and whose it is."""

    name: str
    person: str


def pair_at_once(doors: Doors, phone: DemoPhone, public_key: str, now_ms: int) -> tuple[Device, OpenLogin]:
    """The same key is the same device again; a revoked one needs a new key."""
    require_public_key(doors, public_key)
    device = doors.devices.by_key(public_key) or _new(doors, phone, public_key, now_ms)
    if device.state is DeviceState.REVOKED:
        raise Refusal("revoked_device", "The office has revoked this device. Its records can be handed in.")
    return device, open_device_login(doors, device.id, now_ms)


def _new(doors: Doors, phone: DemoPhone, public_key: str, now_ms: int) -> Device:
    person = doors.people.find(phone.person)
    if person is None:
        raise Refusal("unknown_person", "The person of this demo device is gone; start with --fresh.")
    device = Device(
        id=doors.chance.uuid(),
        public_key=public_key,
        name=phone.name,
        person=person.id,
        state=DeviceState.WAITING,
        claimed_ms=now_ms,
    )
    return let_in(doors, device, person, now_ms)
