"""Device cards: the office's signed word that a key belongs to a person with these roles."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from dataclasses import dataclass

from bayleaf.canonical.form import dumps
from bayleaf.door_ports import Keys, Seal
from bayleaf.usecases.refusal import Refusal


@dataclass(frozen=True)
class DeviceCard:
    """What a card says. `person` is the nil UUID for the office's own devices."""

    device: str
    public_key: str
    name: str
    person: str
    roles: tuple[str, ...]
    qualifications: tuple[str, ...]
    issued_ms: int


@dataclass(frozen=True)
class SignedCard:
    """A card as it travels: its canonical text, and the signature of the seal key over it."""

    text: str
    signature: str


def signed_card(card: DeviceCard, seal: Seal) -> SignedCard:
    """The card's canonical JSON, signed."""
    document = {
        "v": 1,
        "device": card.device,
        "public_key": card.public_key,
        "name": card.name,
        "person": card.person,
        "roles": sorted(card.roles),
        "qualifications": sorted(card.qualifications),
        "issued_ms": card.issued_ms,
    }
    text = dumps(document)
    return SignedCard(text, seal.sign(card_message(text)))


def card_message(text: str) -> str:
    """What the seal key signs of a card."""
    return f"bayleaf-card-1\n{hashlib.sha256(text.encode()).hexdigest()}"


def is_signed_card(keys: Keys, seal_public_key: str, text: str, signature: str) -> bool:
    """Whether this seal key signed this card."""
    return keys.verifies(seal_public_key, card_message(text), signature)


def read_card(text: str) -> DeviceCard:
    """The card in a text whose signature has been checked, so its form is our own."""
    try:
        found = json.loads(text)
        return DeviceCard(
            device=str(found["device"]),
            public_key=str(found["public_key"]),
            name=str(found["name"]),
            person=str(found["person"]),
            roles=_texts(found["roles"]),
            qualifications=_texts(found["qualifications"]),
            issued_ms=int(found["issued_ms"]),
        )
    except (ValueError, KeyError, TypeError) as error:
        raise Refusal("broken_card", f"card: not a device card ({error}).", "card") from error


def _texts(found: Sequence[object]) -> tuple[str, ...]:
    return tuple(str(one) for one in found)
