"""Renews a device's lost login: it signs a nonce with its key, and an unknown one shows its card."""

from __future__ import annotations

from dataclasses import dataclass

from bayleaf.door_ports import Device, DeviceState, Doors, Person
from bayleaf.usecases.cards import is_signed_card, read_card
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.sessions import MINUTE_MS, OpenLogin, open_device_login

NONCE_MS = 2 * MINUTE_MS


@dataclass(frozen=True)
class Renewal:
    """A signed nonce, and the device's card for a server that has forgotten the device."""

    device: str
    nonce: str
    signature: str
    card: str = ""
    card_signature: str = ""


def challenge(doors: Doors, device: str, now_ms: int) -> str:
    """A nonce for this device, good once and for two minutes."""
    doors.sessions.sweep(now_ms)
    nonce = doors.chance.token()
    doors.sessions.add_nonce(_nonce_hash(doors, nonce), device, now_ms + NONCE_MS)
    return nonce


def renewal_message(device: str, nonce: str) -> str:
    """What the device signs."""
    return f"bayleaf-door-1\n{device}\n{nonce}"


def renew(doors: Doors, renewal: Renewal, now_ms: int) -> tuple[Device, OpenLogin]:
    """A new login for whoever holds the device's key."""
    if not doors.sessions.take_nonce(_nonce_hash(doors, renewal.nonce), renewal.device, now_ms):
        raise Refusal("wrong_nonce", "nonce: unknown, used or too old; ask for another.", "nonce")
    device = doors.devices.find(renewal.device) or _by_card(doors, renewal)
    message = renewal_message(renewal.device, renewal.nonce)
    if not doors.keys.verifies(device.public_key, message, renewal.signature):
        raise Refusal("wrong_signature", "signature: not made by this device's key.", "signature")
    if device.state is DeviceState.REVOKED:
        raise Refusal("revoked_device", "The office has revoked this device. Its records can be handed in.")
    if device.state is not DeviceState.PAIRED:
        raise Refusal("not_paired", f"This device is {device.state}; the office has to let it in first.")
    if doors.devices.find(device.id) is None:
        _take_back(doors, device, now_ms)
    return device, open_device_login(doors, device.id, now_ms)


def _by_card(doors: Doors, renewal: Renewal) -> Device:
    """The device as its card says: a server put back from an older copy still knows its own seal."""
    seal = doors.seal.public_key
    if not is_signed_card(doors.keys, seal, renewal.card, renewal.card_signature):
        raise Refusal("unknown_device", "This server knows no such device. Pair this phone again.", "device")
    card = read_card(renewal.card)
    if card.device != renewal.device:
        raise Refusal("unknown_device", "card: it belongs to another device.", "card")
    return Device(
        id=card.device,
        public_key=card.public_key,
        name=card.name,
        person=card.person,
        state=DeviceState.PAIRED,
        card=renewal.card,
        card_signature=renewal.card_signature,
        claimed_ms=card.issued_ms,
    )


def _take_back(doors: Doors, device: Device, now_ms: int) -> None:
    """The copy may be older than the person; their name is on no card, so the device's stands in."""
    card = read_card(device.card)
    if doors.people.find(card.person) is None:
        person = Person(card.person, f"person of {card.name}", card.roles, card.qualifications)
        doors.people.add(person, now_ms)
    doors.devices.put(device)


def _nonce_hash(doors: Doors, nonce: str) -> str:
    return doors.keys.keyed_hash("nonce", nonce)
