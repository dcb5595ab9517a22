"""A whole server in this process: a store of its own, one person of each role, and clients of every kind."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from flask import Flask
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from bayleaf.adapters.signatures import PrivateKey
from bayleaf.app import create_app
from bayleaf.config import Config, DemoShop
from bayleaf.door_ports import PinVerifier
from bayleaf.http.parts import KEY, Parts
from bayleaf.usecases.import_methods import import_methods
from bayleaf.usecases.people import PersonChange, add_person
from bayleaf.usecases.pins import pin_verifier
from bayleaf.usecases.renewal import renewal_message
from harness.doors import PASSWORD, TurnedClock, cheap_passwords, migrated_store

HOST = "localhost"
METHOD_FOLDER = Path(__file__).parents[2] / "seed_data" / "methods"
ROLES = ("technician", "photographer", "office")


class HostClient(FlaskClient):
    """A client that calls by one Host."""

    host = HOST

    def open(self, *args: Any, **named: Any) -> TestResponse:
        named.setdefault("base_url", f"http://{self.host or HOST}")
        named.setdefault("buffered", True)  # so that served files are closed
        named.setdefault("environ_overrides", {"HTTP_HOST": self.host})
        return super().open(*args, **named)


@dataclass
class Phone:
    """A paired device with its own cookies."""

    client: FlaskClient
    key: PrivateKey
    device: str
    card: str
    card_signature: str


@dataclass
class Bench:
    """The app, and how to come to it in every role."""

    app: Flask
    clock: TurnedClock
    parts: Parts
    people: dict[str, str] = field(default_factory=dict)

    def client(self, host: str = HOST) -> FlaskClient:
        """A browser that nobody has signed in with."""
        client = HostClient(self.app, use_cookies=True)
        client.host = host
        return client

    def office(self) -> FlaskClient:
        """A browser of the office, signed in."""
        client = self.client()
        answer = client.post("/api/office/login", json={"name": "a office", "password": PASSWORD})
        assert answer.status_code == 200, answer.text
        return client

    def waiting(self, role: str) -> Phone:
        """A phone that has spent its code."""
        key, client = PrivateKey.new(), self.client()
        made = self.office().post("/api/pair/codes", json={"person": self.people[role]})
        claim = {"code": made.get_json()["code"], "public_key": key.public_key, "name": f"{role}'s phone"}
        answer = client.post("/api/pair/claim", json=claim)
        assert answer.status_code == 200, answer.text
        return Phone(client, key, answer.get_json()["device"], "", "")

    def phone(self, role: str) -> Phone:
        """A paired phone of that role's person."""
        phone = self.waiting(role)
        confirmed = self.office().post(f"/api/pair/{phone.device}/confirm", json={})
        assert confirmed.status_code == 200, confirmed.text
        state = phone.client.get("/api/pair/state").get_json()
        phone.card, phone.card_signature = state["card"], state["card_signature"]
        return phone

    def renew(self, phone: Phone) -> TestResponse:
        """The phone's login again, by its key."""
        nonce = phone.client.post("/api/door/challenge", json={"device": phone.device}).get_json()["nonce"]
        signature = phone.key.sign(renewal_message(phone.device, nonce))
        body = {"device": phone.device, "nonce": nonce, "signature": signature}
        cards = {"card": phone.card, "card_signature": phone.card_signature} if phone.card else {}
        return phone.client.post("/api/door/renew", json={**body, **cards})

    def method(self) -> str:
        """The digest of the demo's method, imported."""
        drawings = {path.name: path.read_bytes() for path in METHOD_FOLDER.glob("*.svg")}
        yaml = (METHOD_FOLDER / "spine.yaml").read_text(encoding="utf-8")
        return import_methods(self.parts.office.methods, self.clock, yaml, drawings)[0].digest

    def job(self, *roles: str) -> str:
        """A job with the demo's method, assigned to the people of these roles."""
        new = {
            "order": "T-1",
            "part": "invented bracket",
            "methods": [self.method()],
            "people": [self.people[role] for role in roles],
        }
        answer = self.office().post("/api/jobs", json=new)
        assert answer.status_code == 201, answer.text
        return str(answer.get_json()["job"])

    def close(self) -> None:
        """Let go of the store."""
        self.parts.close()


@cache
def quick_pin() -> PinVerifier:
    """Everybody's PIN, worked out once."""
    return pin_verifier("1234", "0f" * 16)


def bench(folder: Path, *, demo: DemoShop | None = None, **settings: Any) -> Bench:
    """A server whose clock stands at noon."""
    clock = TurnedClock()
    config = Config(data=folder, demo=demo, **settings)
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "bayleaf.sqlite3").write_bytes(migrated_store())
    app = create_app(config, clock, cheap_passwords())
    made = Bench(app, clock, app.extensions[KEY])
    for role in ROLES:
        password = PASSWORD if role == "office" else None
        change = PersonChange(name=f"A {role}", roles=(role,), password=password)
        made.people[role] = add_person(made.parts.doors, change, clock.now_ms()).id
        made.parts.doors.people.set_pin(made.people[role], quick_pin())
    return made


def error_of(answer: TestResponse) -> tuple[int, str]:
    """Status and code of a refusal, whose three keys are always there."""
    body = json.loads(answer.text)
    assert {"code", "message", "field"} <= body.keys()
    assert all(isinstance(body[key], str) for key in ("code", "message", "field"))
    return answer.status_code, body["code"]
