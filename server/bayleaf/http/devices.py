"""The office's devices: codes to pair one, who waits, confirm, refuse, revoke."""

from __future__ import annotations

from marshmallow import Schema, fields

from bayleaf.door_ports import Device, DeviceState
from bayleaf.http import shapes
from bayleaf.http.callers import Callers
from bayleaf.http.parts import now_ms, parts
from bayleaf.http.routes import Nothing, Routes
from bayleaf.usecases import pairing
from bayleaf.usecases.refusal import Refusal

routes = Routes("devices")


class CodeFor(Schema):
    """Whose phone it will be."""

    person = shapes.uuid()


class Code(Schema):
    """A code to type on the phone."""

    code = fields.String(required=True)
    expires_ms = fields.Integer(required=True)
    now_ms = fields.Integer(required=True)


class DeviceRow(Schema):
    """A device as the office sees it."""

    device = fields.String(required=True)
    name = fields.String(required=True)
    person = fields.String(required=True)
    state = fields.String(required=True)
    check = fields.String(required=True)
    last_heard_ms = fields.Integer(required=True)
    holds_entries = fields.Integer(required=True)
    holds_photos = fields.Integer(required=True)


class DeviceRows(Schema):
    """Every device, the newest first."""

    now_ms = fields.Integer(required=True)
    devices = fields.List(fields.Nested(DeviceRow), required=True)


@routes.on("POST", "/api/pair/codes", Callers.OFFICE, takes=CodeFor, gives=Code, status=201)
def new_code(body: dict[str, str]) -> dict[str, object]:
    """A code for one device of this person: once, within 15 minutes."""
    code, expires_ms = pairing.new_code(parts().doors, body["person"], now_ms())
    return {"code": code, "expires_ms": expires_ms, "now_ms": now_ms()}


@routes.on("POST", "/api/pair/<device>/confirm", Callers.OFFICE, gives=Nothing)
def confirm(device: str) -> dict[str, object]:
    """The digits agree: let the device in."""
    pairing.confirm(parts().doors, device, now_ms())
    return {}


@routes.on("POST", "/api/pair/<device>/refuse", Callers.OFFICE, gives=Nothing)
def refuse(device: str) -> dict[str, object]:
    """The digits differ, or nobody knows this device."""
    pairing.refuse(parts().doors, device)
    return {}


@routes.on("GET", "/api/devices", Callers.OFFICE, gives=DeviceRows)
def devices() -> dict[str, object]:
    """Every device."""
    return {"now_ms": now_ms(), "devices": [_row(device) for device in parts().doors.devices.all()]}


@routes.on("POST", "/api/devices/<device>/revoke", Callers.OFFICE, gives=Nothing)
def revoke(device: str) -> dict[str, object]:
    """Let the device in no more. What it recorded is set aside when it comes, and may be admitted."""
    found = parts().doors.devices.find(device)
    if found is None:
        raise Refusal("unknown_device", "No device has this id.", "device")
    if found.state is DeviceState.REVOKED:
        raise Refusal("already_revoked", "This device is revoked already.", "device")
    parts().doors.devices.revoke(device, now_ms())
    parts().calling.subscriptions.forget(device)
    return {}


def _row(device: Device) -> dict[str, object]:
    return {
        "device": device.id,
        "name": device.name,
        "person": device.person,
        "state": str(device.state),
        "check": device.check,
        "last_heard_ms": device.last_heard_ms,
        "holds_entries": device.holds_entries,
        "holds_photos": device.holds_photos,
    }
