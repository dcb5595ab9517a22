"""A server with a job, a photo, and one caller of every kind, for walking its routes."""

from __future__ import annotations

import base64
import hashlib
import json
import struct
import zlib
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from flask.testing import FlaskClient

from bayleaf import demo_plan as plan
from bayleaf.adapters.signatures import PrivateKey
from bayleaf.usecases.people import PersonChange, add_person
from harness.server import Bench, Phone, bench

NOBODY_ID = "00000000-0000-4000-8000-000000000000"
PORT = 8080
TECHNICIANS_ORIGIN = f"technician.localhost:{PORT}"


def png(shade: int) -> bytes:
    """One grey pixel."""
    parts = [
        (b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0)),
        (b"IDAT", zlib.compress(bytes([0, shade]))),
    ]
    chunks = [
        struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))
        for name, body in [*parts, (b"IEND", b"")]
    ]
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunks)


def tus_creation(sha256: str, job: str, length: int) -> dict[str, str]:
    """The headers that begin an upload."""
    told = {"sha256": sha256, "type": "image/png", "job": job}
    pairs = [f"{name} {base64.b64encode(text.encode()).decode()}" for name, text in told.items()]
    return {"Tus-Resumable": "1.0.0", "Upload-Length": str(length), "Upload-Metadata": ",".join(pairs)}


@dataclass
class Walk:
    """What samples of requests are made from. `callers` make a browser of their kind."""

    server: Bench
    callers: dict[str, Callable[[], FlaskClient]]
    digest: str
    method_text: str
    job: str
    photo: str
    thumb: str
    drawing: str
    shades: int = 10

    def new_png(self) -> bytes:
        """Bytes that nobody has sent yet."""
        self.shades += 1
        return png(self.shades)

    def waiting_device(self) -> str:
        """A device that waits for the office."""
        return self.server.waiting("technician").device

    def code(self) -> str:
        """A code that nobody has used."""
        body = {"person": self.server.people["technician"]}
        return str(self.server.office().post("/api/pair/codes", json=body).get_json()["code"])

    def claim(self, code: str) -> dict[str, str]:
        """What a phone says that has this code."""
        return {"code": code, "public_key": PrivateKey.new().public_key, "name": "grey phone"}

    def upload_of(self, caller: str, begun: FlaskClient) -> str:
        """An upload that this caller has begun; nobody's for one who cannot."""
        if caller not in ("technician", "photographer"):
            return NOBODY_ID
        content = self.new_png()
        headers = tus_creation(hashlib.sha256(content).hexdigest(), self.job, len(content))
        return begun.post("/api/photos", headers=headers).headers["Location"].rsplit("/", 1)[-1]


def walk(folder: Path) -> Walk:
    """Everything in place."""
    shop = plan.demo_shop(PORT, {}, {one.name: NOBODY_ID for one in plan.PEOPLE})
    hosts = plan.demo_hosts(PORT, shop) | {"localhost"}
    front_end = folder / "front_end"
    front_end.mkdir()
    (front_end / "index.html").write_text("<!doctype html><title>the page</title>")
    server = bench(folder / "data", demo=shop, hosts=hosts, front_end=front_end)
    stranger = PersonChange(name="A stranger", roles=("technician",))
    doors, now_ms = server.parts.doors, server.clock.now_ms()
    server.people["stranger"] = add_person(doors, stranger, now_ms).id
    job, digest = server.job("technician", "photographer"), server.method()
    server.people["revoked"] = server.people["technician"]
    phones = {role: server.phone(role) for role in ("technician", "photographer", "stranger", "revoked")}
    server.office().post(f"/api/devices/{phones['revoked'].device}/revoke", json={})
    photo, thumb = _photo(server, phones["technician"].client, job)
    text = server.parts.office.methods.texts([digest])[digest]
    callers: dict[str, Callable[[], FlaskClient]] = {
        "nobody": server.client,
        "waiting": lambda: server.waiting("technician").client,
        "technician": lambda: _another(server, phones["technician"]),
        "photographer": lambda: _another(server, phones["photographer"]),
        "office": server.office,
        "revoked": lambda: _another(server, phones["revoked"]),
        "stranger": lambda: _another(server, phones["stranger"]),
    }
    drawing = next(iter(json.loads(text)["drawings"].values()))
    return Walk(server, callers, digest, text, job, photo, thumb, drawing)


def _another(server: Bench, phone: Phone) -> FlaskClient:
    """A browser with the phone's login, so that what one request sets does not reach the next."""
    cookie = phone.client.get_cookie("bayleaf_device")
    assert cookie is not None
    client = server.client()
    client.set_cookie("bayleaf_device", cookie.value)
    return client


def _photo(server: Bench, phone: FlaskClient, job: str) -> tuple[str, str]:
    """A photo and its thumbnail, here and named by an entry."""
    content, small = png(1), png(2)
    photo, thumb = (hashlib.sha256(one).hexdigest() for one in (content, small))
    begun = phone.post("/api/photos", headers=tus_creation(photo, job, len(content)))
    headers = {
        "Tus-Resumable": "1.0.0",
        "Upload-Offset": "0",
        "Content-Type": "application/offset+octet-stream",
    }
    sent = phone.patch(begun.headers["Location"], data=content, headers=headers)
    assert sent.status_code == 204, sent.text
    kept = phone.put(f"/api/thumbs/{thumb}", data=small, content_type="image/png")
    assert kept.status_code == 204, kept.text
    body = {"sha256": photo, "bytes": len(content), "type": "image/png", "width": 1, "height": 1}
    about = {
        "thumb": thumb,
        "method": "",
        "digest": "",
        "step": "",
        "slot": "",
        "position": "",
        "caption": "",
    }
    entry = {"kind": "photo", "body": {**body, **about}}
    written = server.office().post(f"/api/jobs/{job}/entries", json=entry)
    assert written.status_code == 201, written.text
    return photo, thumb
