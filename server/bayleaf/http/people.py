"""The office's people: who they are, what they hold, their PINs and passwords."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, fields, validate

from bayleaf.door_ports import Person
from bayleaf.http import shapes
from bayleaf.http.callers import Callers
from bayleaf.http.parts import now_ms, parts
from bayleaf.http.routes import Routes
from bayleaf.usecases.people import ROLES, PersonChange, add_person, change_person

routes = Routes("people")


def _roles(*, required: bool) -> fields.List[str]:
    return fields.List(
        fields.String(validate=validate.OneOf(ROLES)), required=required, validate=validate.Length(max=10)
    )


class ChangedPerson(Schema):
    """What is to change; what is not named stays."""

    name = shapes.name(required=False)
    roles = _roles(required=False)
    qualifications = shapes.ids(required=False)
    pin = shapes.text(8, required=False)
    password = shapes.text(1000, required=False)


class NewPerson(ChangedPerson):
    """Somebody new."""

    name = shapes.name()
    roles = _roles(required=True)


class PersonId(Schema):
    """Whom it was about."""

    person = fields.String(required=True)


class PersonRow(PersonId):
    """A person as the office sees them."""

    name = fields.String(required=True)
    roles = fields.List(fields.String(), required=True)
    qualifications = fields.List(fields.String(), required=True)
    has_pin = fields.Boolean(required=True)
    has_password = fields.Boolean(required=True)


class PersonRows(Schema):
    """Everybody."""

    people = fields.List(fields.Nested(PersonRow), required=True)


@routes.on("GET", "/api/people", Callers.OFFICE, gives=PersonRows)
def people() -> dict[str, object]:
    """Everybody, by name."""
    return {"people": [_row(person) for person in parts().doors.people.all()]}


@routes.on("POST", "/api/people", Callers.OFFICE, takes=NewPerson, gives=PersonId, status=201)
def add(body: dict[str, Any]) -> dict[str, object]:
    """Add a person."""
    return {"person": add_person(parts().doors, PersonChange(**body), now_ms()).id}


@routes.on("POST", "/api/people/<person>", Callers.OFFICE, takes=ChangedPerson, gives=PersonId)
def change(person: str, body: dict[str, Any]) -> dict[str, object]:
    """Change a person; roles keep their history."""
    return {"person": change_person(parts().doors, person, PersonChange(**body), now_ms()).id}


def _row(person: Person) -> dict[str, object]:
    return {
        "person": person.id,
        "name": person.name,
        "roles": person.roles,
        "qualifications": person.qualifications,
        "has_pin": person.pin is not None,
        "has_password": person.has_password,
    }
