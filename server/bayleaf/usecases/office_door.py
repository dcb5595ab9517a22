"""Lets an office person in by name and password."""

from __future__ import annotations

from bayleaf.door_ports import Doors, Person
from bayleaf.usecases.patience import Limit, ask_for_patience, note_wrong_try
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.sessions import OpenLogin, open_office_login

TRIES_PER_NAME = 10
TRIES_PER_ADDRESS = 50
SHORTEST_PASSWORD = 8


def sign_in(doors: Doors, name: str, password: str, address: str, now_ms: int) -> tuple[Person, OpenLogin]:
    """The person and a login. A name that nobody has takes as long as a wrong password."""
    limits = (
        Limit(f"name {doors.keys.keyed_hash('attempt', name.casefold())}", TRIES_PER_NAME),
        Limit(f"office {address}", TRIES_PER_ADDRESS),
    )
    ask_for_patience(doors.attempts, limits, now_ms)
    person = _person_of(doors, name, password)
    if person is None:
        note_wrong_try(doors.attempts, limits, now_ms)
        raise Refusal("wrong_password", "This name and password do not belong together.", "password")
    doors.attempts.forget(limits[0].key)
    return person, open_office_login(doors, person.id, now_ms)


def set_password(doors: Doors, person: str, password: str) -> None:
    """A new password; every open login of the person ends."""
    if len(password) < SHORTEST_PASSWORD:
        message = f"password: found {len(password)} characters, the fewest allowed are {SHORTEST_PASSWORD}."
        raise Refusal("short_password", message, "password")
    doors.people.set_login(person, doors.passwords.hash(password))
    doors.sessions.end_of_person(person)


def _person_of(doors: Doors, name: str, password: str) -> Person | None:
    login = doors.people.login_of(name)
    if login is None:
        doors.passwords.waste_time(password)
        return None
    if not doors.passwords.matches(login.argon2, password):
        return None
    person = doors.people.find(login.person)
    return person if person is not None and "office" in person.roles else None
