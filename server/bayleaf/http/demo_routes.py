"""The demo's own routes: its front page's facts, and the pairing that needs no office. In no other server."""

from __future__ import annotations

from flask import Response, request
from marshmallow import Schema, fields

from bayleaf.http import shapes
from bayleaf.http.callers import Callers
from bayleaf.http.doors import DeviceMe, device_answer
from bayleaf.http.parts import now_ms, parts
from bayleaf.http.routes import Routes
from bayleaf.http.security import device_slug
from bayleaf.usecases.demo_pairing import DemoPhone, pair_at_once
from bayleaf.usecases.refusal import Refusal

routes = Routes("demo")
LOOPBACK = frozenset({"127.0.0.1", "::1", "::ffff:127.0.0.1"})


class DemoKey(Schema):
    """The key that the app has made at first open."""

    public_key = shapes.hex_digits(130)


class DemoFacts(Schema):
    """People, PINs, office login, devices and the jobs of the invented shop."""

    shop = fields.String(required=True)
    office = fields.Dict(required=True)
    people = fields.List(fields.Dict(), required=True)
    devices = fields.List(fields.Dict(), required=True)
    job = fields.Dict(required=True)
    soak_s = fields.Integer(required=True)
    jobs = fields.List(fields.Dict(), required=True)


@routes.on("GET", "/api/demo", Callers.DEMO, gives=DemoFacts)
def facts() -> dict[str, object]:
    """What the demo's front page says."""
    found = parts().shop.demo
    if found is None:
        raise Refusal("not_found", "This server is no demo.")
    return found.facts


@routes.on("POST", "/api/demo/pair", Callers.DEMO, takes=DemoKey, gives=DeviceMe)
def pair(body: dict[str, str]) -> Response:
    """Pair the device that this origin is, at once. Only from this machine."""
    demo = parts().shop.demo
    if demo is None or request.remote_addr not in LOOPBACK:
        raise Refusal("not_found", "This server is no demo, or not on this machine.")
    phone = demo.phones.get(device_slug())
    if phone is None:
        raise Refusal(
            "not_found", "This origin is none of the demo's devices; see the front page for theirs."
        )
    device, login = pair_at_once(parts().doors, DemoPhone(*phone), body["public_key"], now_ms())
    return device_answer(device, login)
