"""People in SQL: names, roles and qualifications with their spans, PIN verifiers, office logins."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import asdict

from sqlalchemy import Connection, Engine, delete, insert, or_, select, update

from bayleaf.adapters.database import reading, writing
from bayleaf.adapters.door_tables import office_login, people_change, person, person_pin, person_role
from bayleaf.door_ports import OfficeLogin, Person, PinVerifier


class SqlPeople:
    """The port People. Every change counts `people_version` up, so that phones fetch the bundle again."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def all(self) -> Sequence[Person]:
        """Everybody, by name."""
        with reading(self._engine) as connection:
            return _read(connection, None)

    def find(self, person_id: str) -> Person | None:
        """One person."""
        with reading(self._engine) as connection:
            return next(iter(_read(connection, person_id)), None)

    def add(self, added: Person, now_ms: int) -> None:
        """A person with their first roles."""
        with writing(self._engine) as connection:
            connection.execute(insert(person).values(id=added.id, name=added.name, made_ms=now_ms))
            _begin(connection, added.id, _held_ids(added.roles, added.qualifications), now_ms)
            if added.pin is not None:
                _put_pin(connection, added.id, added.pin)
            _changed(connection)

    def rename(self, person_id: str, name: str) -> None:
        """Another name, at the office door too."""
        with writing(self._engine) as connection:
            connection.execute(update(person).where(person.c.id == person_id).values(name=name))
            login = update(office_login).where(office_login.c.person == person_id)
            connection.execute(login.values(name=name.casefold()))
            _changed(connection)

    def set_roles(
        self, person_id: str, roles: Sequence[str], qualifications: Sequence[str], now_ms: int
    ) -> None:
        """End what is no longer held, begin what is new; the past stays."""
        wanted = _held_ids(roles, qualifications)
        with writing(self._engine) as connection:
            held = {role: q for _, role, q in _open_spans(connection, person_id)}
            ended = [role for role in held if wanted.get(role) != held[role]]
            open_span = (person_role.c.person == person_id) & person_role.c.until_ms.is_(None)
            for role in ended:
                span = update(person_role).where(open_span & (person_role.c.role == role))
                connection.execute(span.values(until_ms=now_ms))
            begun = {role: q for role, q in wanted.items() if held.get(role) != q}
            _begin(connection, person_id, begun, now_ms)
            _changed(connection)

    def held_since(self, person_id: str, since_ms: int) -> frozenset[str]:
        """Every role and qualification held at any time from `since_ms` on."""
        lasting = or_(person_role.c.until_ms.is_(None), person_role.c.until_ms >= since_ms)
        query = select(person_role.c.role).where(person_role.c.person == person_id, lasting)
        with reading(self._engine) as connection:
            return frozenset(connection.scalars(query))

    def set_pin(self, person_id: str, pin: PinVerifier) -> None:
        """Another PIN."""
        with writing(self._engine) as connection:
            _put_pin(connection, person_id, pin)
            _changed(connection)

    def set_login(self, person_id: str, argon2: str) -> None:
        """Another password; the name at the door is the person's."""
        with writing(self._engine) as connection:
            name = connection.scalar(select(person.c.name).where(person.c.id == person_id)) or ""
            connection.execute(delete(office_login).where(office_login.c.person == person_id))
            row = {"person": person_id, "name": name.casefold(), "password_hash": argon2}
            connection.execute(insert(office_login).values(row))

    def login_of(self, name: str) -> OfficeLogin | None:
        """By name, without regard to case."""
        query = select(office_login).where(office_login.c.name == name.casefold())
        with reading(self._engine) as connection:
            row = connection.execute(query).one_or_none()
        return OfficeLogin(row.person, row.password_hash) if row is not None else None

    def version(self) -> int:
        """Counts up with every change."""
        with reading(self._engine) as connection:
            return connection.scalar(select(people_change.c.version)) or 0


def _read(connection: Connection, person_id: str | None) -> list[Person]:
    roles: dict[str, list[str]] = defaultdict(list)
    qualifications: dict[str, list[str]] = defaultdict(list)
    for whose, role, is_qualification in _open_spans(connection, person_id):
        (qualifications if is_qualification else roles)[whose].append(role)
    pins = {row.person: row.verifier for row in connection.execute(select(person_pin))}
    logins = set(connection.scalars(select(office_login.c.person)))
    query = select(person).order_by(person.c.name, person.c.id)
    if person_id is not None:
        query = query.where(person.c.id == person_id)
    return [
        Person(
            id=row.id,
            name=row.name,
            roles=tuple(sorted(roles[row.id])),
            qualifications=tuple(sorted(qualifications[row.id])),
            pin=PinVerifier(**json.loads(pins[row.id])) if row.id in pins else None,
            has_password=row.id in logins,
        )
        for row in connection.execute(query)
    ]


def _open_spans(connection: Connection, person_id: str | None) -> list[tuple[str, str, bool]]:
    query = select(person_role).where(person_role.c.until_ms.is_(None))
    if person_id is not None:
        query = query.where(person_role.c.person == person_id)
    return [(row.person, row.role, bool(row.qualification)) for row in connection.execute(query)]


def _held_ids(roles: Sequence[str], qualifications: Sequence[str]) -> dict[str, bool]:
    """Id -> whether it is a qualification."""
    return {**dict.fromkeys(qualifications, True), **dict.fromkeys(roles, False)}


def _begin(connection: Connection, person_id: str, held: dict[str, bool], now_ms: int) -> None:
    for role, is_qualification in held.items():
        span = {"person": person_id, "role": role, "from_ms": now_ms, "qualification": is_qualification}
        same_instant = (
            (person_role.c.person == person_id)
            & (person_role.c.role == role)
            & (person_role.c.from_ms == now_ms)
        )
        connection.execute(delete(person_role).where(same_instant))
        connection.execute(insert(person_role).values(span))


def _put_pin(connection: Connection, person_id: str, pin: PinVerifier) -> None:
    connection.execute(delete(person_pin).where(person_pin.c.person == person_id))
    row = {"person": person_id, "verifier": json.dumps(asdict(pin))}
    connection.execute(insert(person_pin).values(row))


def _changed(connection: Connection) -> None:
    counted = update(people_change).values(version=people_change.c.version + 1)
    if connection.execute(counted).rowcount == 0:
        connection.execute(insert(people_change).values(id=1, version=1))
