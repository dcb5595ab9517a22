"""The doors: who am I, office login, pairing by code, and the renewal of a lost login."""

from __future__ import annotations

from flask import Response, jsonify, request
from marshmallow import Schema, fields

from bayleaf.door_ports import Device, Person
from bayleaf.http import shapes
from bayleaf.http.callers import Callers, caller
from bayleaf.http.parts import now_ms, parts
from bayleaf.http.routes import Nothing, Routes
from bayleaf.http.security import (
    DEVICE_COOKIE,
    OFFICE_COOKIE,
    cookie_name,
    device_slug,
    drop_login,
    set_login,
)
from bayleaf.usecases import office_door, pairing, renewal
from bayleaf.usecases.refusal import Refusal
from bayleaf.usecases.sessions import OpenLogin, end_login

routes = Routes("doors")


class OfficeLogin(Schema):
    """A name at the office door."""

    name = shapes.text(100, shortest=1)
    password = shapes.text(1000, shortest=1)


class OfficeMe(Schema):
    """The office person who is signed in."""

    person = fields.String(required=True)
    name = fields.String(required=True)


class DeviceMe(Schema):
    """A device as it learns of itself."""

    device = fields.String(required=True)
    state = fields.String(required=True)
    check = fields.String()
    name = fields.String(required=True)
    person = fields.String(required=True)
    person_name = fields.String()
    roles = fields.List(fields.String())
    qualifications = fields.List(fields.String())
    card = fields.String()
    card_signature = fields.String()
    seal_public = fields.String()
    log = fields.String()


class Me(Schema):
    """Who is calling, and which server this is."""

    office = fields.Nested(OfficeMe)
    device = fields.Nested(DeviceMe)
    demo = fields.Boolean(required=True)
    slug = fields.String(
        required=True, metadata={"description": "the demo's device of this origin, or empty"}
    )
    log = fields.String(required=True)
    seal_public = fields.String(required=True)
    now_ms = fields.Integer(required=True)


class Claim(Schema):
    """A device asks to be paired."""

    code = shapes.text(40, shortest=1)
    public_key = shapes.hex_digits(130)
    name = shapes.name()


class PairState(Schema):
    """How far a device is."""

    device = fields.String(required=True)
    state = fields.String(required=True)
    check = fields.String(required=True)


class ChallengeFor(Schema):
    """Which device wants in again."""

    device = shapes.uuid()


class Challenge(Schema):
    """Text to sign."""

    nonce = fields.String(required=True)


class Renew(ChallengeFor):
    """A signed challenge; the card for a server that has forgotten the device."""

    nonce = shapes.text(100)
    signature = shapes.hex_digits(128)
    card = shapes.text(10_000, required=False)
    card_signature = shapes.text(128, required=False)


@routes.on("GET", "/api/me", Callers.EVERYONE, gives=Me)
def me() -> dict[str, object]:
    """Who is calling; nobody is an answer too."""
    who = caller()
    found: dict[str, object] = {
        "demo": parts().shop.demo is not None,
        "slug": device_slug(),
        "log": store_log(),
        "seal_public": parts().doors.seal.public_key,
        "now_ms": now_ms(),
    }
    if who.office is not None:
        found["office"] = {"person": who.office.id, "name": who.office.name}
    if who.device is not None:
        found["device"] = device_me(who.device)
    return found


@routes.on("POST", "/api/office/login", Callers.EVERYONE, takes=OfficeLogin, gives=OfficeMe)
def office_login(body: dict[str, str]) -> Response:
    """Sign in by name and password."""
    address = request.remote_addr or ""
    person, login = office_door.sign_in(parts().doors, body["name"], body["password"], address, now_ms())
    return set_login(jsonify({"person": person.id, "name": person.name}), OFFICE_COOKIE, login)


@routes.on("POST", "/api/office/logout", Callers.OFFICE, gives=Nothing)
def office_logout() -> Response:
    """Sign out."""
    end_login(parts().doors, request.cookies.get(cookie_name(OFFICE_COOKIE), ""))
    return drop_login(jsonify({}), OFFICE_COOKIE)


@routes.on("POST", "/api/pair/claim", Callers.EVERYONE, takes=Claim, gives=PairState)
def claim(body: dict[str, str]) -> Response:
    """Spend a code. The office then sees the device's name and the same four digits."""
    asked = pairing.Claim(body["code"], body["public_key"], body["name"], request.remote_addr or "")
    device, login = pairing.claim(parts().doors, asked, now_ms())
    answer = {"device": device.id, "state": str(device.state), "check": device.check}
    return set_login(jsonify(answer), DEVICE_COOKIE, login)


@routes.on("GET", "/api/pair/state", Callers.WAITING, gives=DeviceMe)
def pair_state() -> dict[str, object]:
    """Whether the office has let this device in; once it has, its card."""
    device = caller().device
    if device is None:
        raise Refusal("no_login", "No device waits here. Type a code first.")
    return device_me(device)


@routes.on("POST", "/api/door/challenge", Callers.EVERYONE, takes=ChallengeFor, gives=Challenge)
def challenge(body: dict[str, str]) -> dict[str, object]:
    """A nonce to sign."""
    return {"nonce": renewal.challenge(parts().doors, body["device"], now_ms())}


@routes.on("POST", "/api/door/renew", Callers.EVERYONE, takes=Renew, gives=DeviceMe)
def renew(body: dict[str, str]) -> Response:
    """A new login for the device's key."""
    device, login = renewal.renew(parts().doors, renewal.Renewal(**body), now_ms())
    return device_answer(device, login)


def device_answer(device: Device, login: OpenLogin) -> Response:
    """A device's news with its login."""
    return set_login(jsonify(device_me(device)), DEVICE_COOKIE, login)


def device_me(device: Device) -> dict[str, object]:
    """What a device may know of itself; who it belongs to only once it is let in."""
    found: dict[str, object] = {
        "device": device.id,
        "state": str(device.state),
        "check": device.check,
        "name": device.name,
        "person": device.person,
        "log": store_log(),
        "seal_public": parts().doors.seal.public_key,
    }
    person = parts().doors.people.find(device.person) if device.card else None
    return {**found, **_card(device), **(_holder(person) if person is not None else {})}


def store_log() -> str:
    """Which store this is."""
    with parts().office.log.reading() as log:
        return log.log()


def _card(device: Device) -> dict[str, object]:
    return {"card": device.card, "card_signature": device.card_signature} if device.card else {}


def _holder(person: Person) -> dict[str, object]:
    return {
        "person_name": person.name,
        "roles": list(person.roles),
        "qualifications": list(person.qualifications),
    }
