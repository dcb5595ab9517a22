"""Calls by web push: what a phone wants to be called for, and the address that the office gives for them."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, fields

from bayleaf.http import shapes
from bayleaf.http.callers import Callers, calling_device
from bayleaf.http.parts import now_ms, parts
from bayleaf.http.routes import Nothing, Routes
from bayleaf.push_ports import Subscription
from bayleaf.usecases.contact import contact_fault, contact_of, set_contact
from bayleaf.usecases.rehearse_call import rehearse
from bayleaf.usecases.subscribe import subscribe

routes = Routes("push")


class Wanted(Schema):
    """What a device is called for, and why the newest call did not arrive."""

    runs = fields.Boolean(required=True)
    signs = fields.Boolean(required=True)
    trouble = fields.String(required=True)
    trouble_ms = fields.Integer(required=True)


class PushNews(Schema):
    """Whether this server can call at all, and what this device asked for."""

    public_key = fields.String(required=True, metadata={"description": "for pushManager.subscribe"})
    contact_fault = fields.String(
        required=True, metadata={"description": "empty; else missing, scheme, address or reserved"}
    )
    wanted = fields.Nested(Wanted, allow_none=True, required=True)


class Subscribe(Schema):
    """What the browser's push service gave this phone, and what to call it for."""

    endpoint = shapes.text(1_000, shortest=1)
    p256dh = shapes.text(96, shortest=80)
    auth = shapes.text(32, shortest=20)
    runs = fields.Boolean(required=True)
    signs = fields.Boolean(required=True)


class Rehearsed(Schema):
    """What became of a call that was asked for."""

    fate = fields.String(required=True)
    cause = fields.String(required=True)


class DeviceWants(Wanted):
    """The same, as the office sees it."""

    device = fields.String(required=True)


class OfficeNews(Schema):
    """The contact address, what is wrong with it, and who wants to be called."""

    contact = fields.String(required=True)
    contact_fault = fields.String(required=True)
    devices = fields.List(fields.Nested(DeviceWants), required=True)


class Contact(Schema):
    """mailto: or https:, or empty for none."""

    contact = shapes.text(200)


@routes.on("GET", "/api/push", Callers.DEVICE, gives=PushNews)
def push_news() -> dict[str, object]:
    """What this phone needs to say what will call it."""
    calling = parts().calling
    return {
        "public_key": calling.notifier.public_key,
        "contact_fault": contact_fault(contact_of(calling.settings)),
        "wanted": calling.subscriptions.find(calling_device().id),
    }


@routes.on("POST", "/api/push", Callers.DEVICE, takes=Subscribe, gives=PushNews)
def subscribe_device(body: dict[str, Any]) -> dict[str, object]:
    """Call this device from now on; the same again changes what for."""
    given = Subscription(device=calling_device().id, made_ms=now_ms(), **body)
    subscribe(parts().calling.subscriptions, parts().doors.keys, given)
    return push_news()


@routes.on("DELETE", "/api/push", Callers.DEVICE, gives=Nothing)
def unsubscribe() -> dict[str, object]:
    """Call this device no more."""
    parts().calling.subscriptions.forget(calling_device().id)
    return {}


@routes.on("POST", "/api/push/rehearsal", Callers.DEVICE, gives=Rehearsed)
def rehearsal() -> dict[str, object]:
    """Call this device now, so that its owner sees whether it works."""
    answer = rehearse(parts().calling, calling_device().id, now_ms())
    return {"fate": str(answer.fate), "cause": answer.cause}


@routes.on("GET", "/api/push/office", Callers.OFFICE, gives=OfficeNews)
def office_news() -> dict[str, object]:
    """Whether calls go out, and to whom they do not."""
    calling = parts().calling
    contact = contact_of(calling.settings)
    return {
        "contact": contact,
        "contact_fault": contact_fault(contact),
        "devices": calling.subscriptions.all(),
    }


@routes.on("POST", "/api/push/contact", Callers.OFFICE, takes=Contact, gives=OfficeNews)
def contact(body: dict[str, str]) -> dict[str, object]:
    """Set the address that a push service may write to about this server's calls."""
    set_contact(parts().calling.settings, body["contact"])
    return office_news()
