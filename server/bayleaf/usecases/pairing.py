"""Pairs a device: the office gives a code, the device spends it, the office compares four digits."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace

from bayleaf.door_ports import Device, DeviceState, Doors, PairCode, Person
from bayleaf.usecases.cards import DeviceCard, signed_card
from bayleaf.usecases.patience import Limit, ask_for_patience, note_wrong_try
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.sessions import MINUTE_MS, OpenLogin, open_device_login

ALPHABET = "23456789ABCDEFGHJKMNPQRSTVWXYZ"  # without 0 O, 1 I L, and U, which is taken for V
CODE_LENGTH = 8
CODE_MS = 15 * MINUTE_MS
TRIES_PER_ADDRESS = 20
TRIES_IN_ALL = 200


def new_code(doors: Doors, person: str, now_ms: int) -> tuple[str, int]:
    """A code for one device of this person, and when it expires."""
    if doors.people.find(person) is None:
        raise Refusal("unknown_person", "person: nobody of the shop has this id.", "person")
    code = doors.chance.code(ALPHABET, CODE_LENGTH)
    expires_ms = now_ms + CODE_MS
    doors.codes.add(PairCode(_code_hash(doors, code), person, expires_ms, spent=False))
    return code, expires_ms


def check_digits(public_key: str, code: str) -> str:
    """Four digits that the phone and the office work out alike; another key in between gives others.

    The first 8 hex digits of SHA-256 over "bayleaf-check-1", the key and the code, joined by line feeds,
    as a number modulo 10,000.
    """
    digest = hashlib.sha256(f"bayleaf-check-1\n{public_key}\n{typed_code(code)}".encode()).hexdigest()
    return f"{int(digest[:8], 16) % 10_000:04d}"


def typed_code(text: str) -> str:
    """A code as it is compared: upper case, without the blanks and dashes that people type."""
    return "".join(text.upper().split()).replace("-", "")


@dataclass(frozen=True)
class Claim:
    """What a device says that wants to be paired; `address` is where it calls from."""

    code: str
    public_key: str
    name: str
    address: str


def claim(doors: Doors, asked: Claim, now_ms: int) -> tuple[Device, OpenLogin]:
    """Spend the code for this key. The device then waits for the office.

    Asked again with the same key and code, as after an answer that was lost, it waits as before.
    """
    limits = (Limit(f"pair {asked.address}", TRIES_PER_ADDRESS), Limit("pair", TRIES_IN_ALL))
    ask_for_patience(doors.attempts, limits, now_ms)
    require_public_key(doors, asked.public_key)
    known = _claimable(doors, asked.public_key)
    person = _spend(doors, asked, known, limits, now_ms)
    device = Device(
        id=known.id if known else doors.chance.uuid(),
        public_key=asked.public_key,
        name=asked.name,
        person=person,
        state=DeviceState.WAITING,
        check=check_digits(asked.public_key, asked.code),
        claimed_ms=now_ms,
    )
    doors.devices.put(device)
    return device, open_device_login(doors, device.id, now_ms)


def confirm(doors: Doors, device: str, now_ms: int) -> Device:
    """The office has seen the same digits on the phone: sign its card and let it in."""
    waiting = waiting_device(doors, device)
    person = doors.people.find(waiting.person)
    if person is None:
        raise Refusal("unknown_person", "The person of this device is no longer known.")
    return let_in(doors, waiting, person, now_ms)


def let_in(doors: Doors, device: Device, person: Person, now_ms: int) -> Device:
    """Sign the device's card for this person, and keep it as paired."""
    card = signed_card(_card_of(device, person, now_ms), doors.seal)
    paired = replace(
        device, state=DeviceState.PAIRED, check="", card=card.text, card_signature=card.signature
    )
    doors.devices.put(paired)
    return paired


def refuse(doors: Doors, device: str) -> None:
    """The digits differ, or nobody knows this phone."""
    doors.devices.put(replace(waiting_device(doors, device), state=DeviceState.REFUSED, check=""))


def waiting_device(doors: Doors, device: str) -> Device:
    """The device, which must be waiting."""
    found = doors.devices.find(device)
    if found is None:
        raise Refusal("unknown_device", "No device has this id.", "device")
    if found.state is not DeviceState.WAITING:
        raise Refusal(
            "not_waiting", f"This device does not wait to be let in: it is {found.state}.", "device"
        )
    return found


def require_public_key(doors: Doors, public_key: str) -> None:
    """Refuse what is no point of P-256."""
    if not doors.keys.is_public_key(public_key):
        message = "public_key: allowed is an uncompressed P-256 point of 130 lower-case hex digits."
        raise Refusal("broken_key", message, "public_key")


def _claimable(doors: Doors, public_key: str) -> Device | None:
    known = doors.devices.by_key(public_key)
    if known is not None and known.state in (DeviceState.PAIRED, DeviceState.REVOKED):
        message = f"public_key: this key belongs to a device that is {known.state}; make a new one."
        raise Refusal("known_key", message, "public_key")
    return known


def _spend(doors: Doors, asked: Claim, known: Device | None, limits: tuple[Limit, ...], now_ms: int) -> str:
    found = doors.codes.find(_code_hash(doors, typed_code(asked.code)))
    if found is None:
        note_wrong_try(doors.attempts, limits, now_ms)
        raise Refusal("wrong_code", "code: the office has given no such code.", "code")
    if now_ms >= found.expires_ms:
        raise Refusal("expired_code", "code: its 15 minutes are over; ask the office for another.", "code")
    if found.spent and known is not None and _is_asked_again(asked, known, found):
        return found.person
    if found.spent or not doors.codes.spend(found.code_hash):
        raise Refusal("used_code", "code: it has been used; ask the office for another.", "code")
    return found.person


def _is_asked_again(asked: Claim, known: Device, spent: PairCode) -> bool:
    same = known.check == check_digits(asked.public_key, asked.code) and known.person == spent.person
    return same and known.state is DeviceState.WAITING


def _card_of(device: Device, person: Person, now_ms: int) -> DeviceCard:
    return DeviceCard(
        device=device.id,
        public_key=device.public_key,
        name=device.name,
        person=person.id,
        roles=person.roles,
        qualifications=person.qualifications,
        issued_ms=now_ms,
    )


def _code_hash(doors: Doors, code: str) -> str:
    return doors.keys.keyed_hash("pair code", code)
