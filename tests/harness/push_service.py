"""A push service on this machine, and a browser's half of a subscription: it opens what was sent.

The opening is RFC 8188 and RFC 8291 written out on `cryptography`, apart from what the server encrypts with;
`test_the_opening_is_that_of_the_standard` holds it to the example of RFC 8291, Appendix A.
"""

from __future__ import annotations

import base64
import json
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import encode_dss_signature
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.kdf.hkdf import HKDF

SALT, SIZE, ID = 16, 4, 1
LAST_RECORD = 2


def b64(raw: bytes) -> str:
    """base64url without padding."""
    return base64.urlsafe_b64encode(raw).rstrip(b"=").decode()


def unb64(text: str) -> bytes:
    """Back again."""
    return base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))


def _point(key: ec.EllipticCurvePublicKey) -> bytes:
    return key.public_bytes(serialization.Encoding.X962, serialization.PublicFormat.UncompressedPoint)


def _hkdf(salt: bytes, secret: bytes, info: bytes, length: int) -> bytes:
    return HKDF(hashes.SHA256(), length, salt, info).derive(secret)


@dataclass(frozen=True)
class Browser:
    """A browser's keys for one subscription."""

    key: ec.EllipticCurvePrivateKey
    auth: bytes

    @property
    def p256dh(self) -> str:
        return b64(_point(self.key.public_key()))

    def open(self, body: bytes) -> bytes:
        """The plain text of one encrypted record (RFC 8188 section 2, RFC 8291 section 3)."""
        salt = body[:SALT]
        length = body[SALT + SIZE]
        sender, sealed = body[SALT + SIZE + ID :][:length], body[SALT + SIZE + ID + length :]
        other = ec.EllipticCurvePublicKey.from_encoded_point(ec.SECP256R1(), sender)
        info = b"WebPush: info\x00" + _point(self.key.public_key()) + sender
        secret = _hkdf(self.auth, self.key.exchange(ec.ECDH(), other), info, 32)
        key = _hkdf(salt, secret, b"Content-Encoding: aes128gcm\x00", 16)
        nonce = _hkdf(salt, secret, b"Content-Encoding: nonce\x00", 12)
        padded = AESGCM(key).decrypt(nonce, sealed, None).rstrip(b"\x00")
        assert padded[-1] == LAST_RECORD
        return padded[:-1]


def browser() -> Browser:
    """A new one."""
    return Browser(ec.generate_private_key(ec.SECP256R1()), bytes(range(16)))


def claims_of(authorization: str) -> tuple[dict[str, Any], str]:
    """Claims and key of a VAPID header (RFC 8292 section 3), once its ES256 signature holds."""
    scheme, _, rest = authorization.partition(" ")
    assert scheme == "vapid"
    given = dict(part.strip().split("=", 1) for part in rest.split(","))
    head, claims, signature = given["t"].split(".")
    assert json.loads(unb64(head)) == {"typ": "JWT", "alg": "ES256"}
    raw = unb64(signature)
    der = encode_dss_signature(int.from_bytes(raw[:32], "big"), int.from_bytes(raw[32:], "big"))
    key = ec.EllipticCurvePublicKey.from_encoded_point(ec.SECP256R1(), unb64(given["k"]))
    key.verify(der, f"{head}.{claims}".encode(), ec.ECDSA(hashes.SHA256()))
    return json.loads(unb64(claims)), given["k"]


@dataclass(frozen=True)
class Arrived:
    """A request as it came."""

    path: str
    headers: dict[str, str]
    body: bytes


@dataclass
class PushService:
    """Answers every letter alike; `hold` keeps it from answering until it is set."""

    port: int = 0
    status: int = 201
    words: bytes = b""
    sends: dict[str, str] = field(default_factory=dict)
    arrived: list[Arrived] = field(default_factory=list)
    free: threading.Event = field(default_factory=threading.Event)

    @property
    def origin(self) -> str:
        return f"http://127.0.0.1:{self.port}"


@contextmanager
def push_service() -> Iterator[PushService]:
    """One that listens until the block ends."""
    service = PushService()
    service.free.set()

    class Handler(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            body = self.rfile.read(int(self.headers["Content-Length"]))
            named = {name.lower(): value for name, value in self.headers.items()}
            service.arrived.append(Arrived(self.path, named, body))
            service.free.wait(30)
            self.send_response(service.status)
            for name, value in service.sends.items():
                self.send_header(name, value)
            self.send_header("Content-Length", str(len(service.words)))
            self.end_headers()
            self.wfile.write(service.words)

        def do_GET(self) -> None:
            service.arrived.append(Arrived(f"GET {self.path}", {}, b""))
            self.send_response(200)
            self.end_headers()

        def log_message(self, *_given: Any) -> None:
            """Not a word."""

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    service.port = server.server_address[1]
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.02})
    thread.start()
    try:
        yield service
    finally:
        service.free.set()
        server.shutdown()
        thread.join()
        server.server_close()
