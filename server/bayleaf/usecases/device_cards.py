"""Lets devices in by their cards: the seal's word holds, even where this server has forgotten the device."""

from __future__ import annotations

from collections.abc import Sequence

from bayleaf.door_ports import Device, DeviceState, Person
from bayleaf.ports import NIL
from bayleaf.usecases.cards import DeviceCard, is_signed_card, read_card
from bayleaf.usecases.fates import ShownCard
from bayleaf.usecases.office import Office


def let_in_by_cards(office: Office, cards: Sequence[ShownCard], now_ms: int) -> None:
    """Know the devices of these cards, and their people; a card that the seal did not sign says nothing."""
    for shown in cards:
        if is_signed_card(office.keys, office.seal.public_key, shown.text, shown.signature):
            _know(office, read_card(shown.text), shown, now_ms)


def _know(office: Office, card: DeviceCard, shown: ShownCard, now_ms: int) -> None:
    if office.devices.find(card.device) is not None:
        return
    if card.person != NIL and office.people.find(card.person) is None:
        person = Person(card.person, f"person of {card.name}", card.roles, card.qualifications)
        office.people.add(person, now_ms)
    office.devices.put(
        Device(
            id=card.device,
            public_key=card.public_key,
            name=card.name,
            person=card.person,
            state=DeviceState.PAIRED,
            card=shown.text,
            card_signature=shown.signature,
            claimed_ms=card.issued_ms,
        )
    )
