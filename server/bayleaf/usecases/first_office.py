"""Lets the first office person in: a store in which nothing was done yet gets one login."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bayleaf.door_ports import Doors
from bayleaf.usecases.office_door import set_password
from bayleaf.usecases.people import PersonChange, add_person

FIRST_NAME: Final = "First office"
ALPHABET: Final = "23456789abcdefghjkmnpqrstvwxyz"
LENGTH: Final = 16


@dataclass(frozen=True)
class FirstLogin:
    """A name and a password to type once; the people page gives everybody their own."""

    name: str
    password: str


def first_login(doors: Doors, now_ms: int) -> FirstLogin | None:
    """A new password as long as nobody but the first login is known, and no device; else None.

    So whoever lost the line that told it starts the server again, and nobody can do so later.
    """
    people = doors.people.all()
    if any(person.name != FIRST_NAME for person in people) or doors.devices.all():
        return None
    password = doors.chance.code(ALPHABET, LENGTH)
    person = people[0] if people else add_person(doors, PersonChange(FIRST_NAME, ("office",)), now_ms)
    set_password(doors, person.id, password)
    return FirstLogin(FIRST_NAME, password)
