"""Adds people and changes what they hold."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bayleaf.door_ports import Doors, Person
from bayleaf.usecases.office_door import set_password
from bayleaf.usecases.pins import pin_verifier
from bayleaf.usecases.refusal import Refusal

ROLES = ("technician", "photographer", "office")


@dataclass(frozen=True)
class PersonChange:
    """What the office typed; None leaves as it is."""

    name: str | None = None
    roles: Sequence[str] | None = None
    qualifications: Sequence[str] | None = None
    pin: str | None = None
    password: str | None = None


def add_person(doors: Doors, change: PersonChange, now_ms: int) -> Person:
    """A new person."""
    if change.name is None:
        raise Refusal("broken_request", "name: a new person has one.", "name")
    _require_free_name(doors, change.name, "")
    person = Person(
        id=doors.chance.uuid(),
        name=change.name,
        roles=tuple(change.roles or ()),
        qualifications=tuple(change.qualifications or ()),
    )
    _require_apart(person.roles, person.qualifications)
    pin = pin_verifier(change.pin, doors.chance.salt()) if change.pin is not None else None
    doors.people.add(Person(**{**person.__dict__, "pin": pin}), now_ms)
    if change.password is not None:
        set_password(doors, person.id, change.password)
    return person


def change_person(doors: Doors, person_id: str, change: PersonChange, now_ms: int) -> Person:
    """The person as changed. Devices keep their card's roles; the server judges by what is held."""
    person = doors.people.find(person_id)
    if person is None:
        raise Refusal("unknown_person", "person: nobody of the shop has this id.", "person")
    roles = tuple(change.roles if change.roles is not None else person.roles)
    qualifications = tuple(
        change.qualifications if change.qualifications is not None else person.qualifications
    )
    _require_apart(roles, qualifications)
    if change.name is not None:
        _require_free_name(doors, change.name, person_id)
        doors.people.rename(person_id, change.name)
    if (roles, qualifications) != (person.roles, person.qualifications):
        doors.people.set_roles(person_id, roles, qualifications, now_ms)
    if change.pin is not None:
        doors.people.set_pin(person_id, pin_verifier(change.pin, doors.chance.salt()))
    if change.password is not None:
        set_password(doors, person_id, change.password)
    return Person(person_id, change.name or person.name, roles, qualifications)


def _require_apart(roles: Sequence[str], qualifications: Sequence[str]) -> None:
    for number, qualification in enumerate(qualifications):
        if qualification in ROLES or qualification in roles:
            message = f"qualifications[{number}]: {qualification} is a role, not a qualification."
            raise Refusal("broken_request", message, "qualifications")


def _require_free_name(doors: Doors, name: str, person_id: str) -> None:
    for other in doors.people.all():
        if other.id != person_id and other.name.casefold() == name.casefold():
            raise Refusal("known_name", f"name: another person is called {other.name}.", "name")
