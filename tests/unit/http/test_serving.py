"""The server itself: by its name only, with HTTPS cookies where HTTPS is, and a taken port that says so."""

from __future__ import annotations

import datetime as dt
import http.client
import json
import os
import signal
import socket
import ssl
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

from bayleaf.serving import Serving, ServingFault, is_free, require_free, serve

PROGRAM = """
import sys
from pathlib import Path
from bayleaf.serving import Serving, serve
name, port, data, cert, key = sys.argv[1:]
serve(Serving(name, Path(data), int(port), Path(cert) if cert else None, Path(key) if key else None))
"""
DEMO = """
import sys
from pathlib import Path
from bayleaf.demo import run_demo
run_demo(int(sys.argv[1]), data=Path(sys.argv[2]))
"""


def free_port() -> int:
    return next(port for port in range(23_100, 29_000, 7) if is_free(f"127.0.0.1:{port}"))


@contextmanager
def running(home: Path, program: str, ready: str, *words: str) -> Iterator[list[str]]:
    """The program until the block ends; what it said until it was ready."""
    with subprocess.Popen(
        [sys.executable, "-c", program, *words],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        env={**os.environ, "HOME": str(home)},
    ) as server:
        assert server.stdout is not None
        said = []
        for line in server.stdout:
            said.append(line)
            if ready in line:
                break
        else:
            pytest.fail("".join(said))
        try:
            yield said
        finally:
            server.send_signal(signal.SIGINT)
            server.wait(timeout=20)


def get(port: int, host: str, path: str, context: ssl.SSLContext | None = None) -> tuple[int, object]:
    connection = (
        http.client.HTTPSConnection("127.0.0.1", port, context=context, timeout=10)
        if context is not None
        else http.client.HTTPConnection("127.0.0.1", port, timeout=10)
    )
    connection.request("GET", path, headers={"Host": host})
    answer = connection.getresponse()
    found = (answer.status, json.loads(answer.read()))
    connection.close()
    return found


def certificate(folder: Path, name: str) -> tuple[Path, Path]:
    key = ec.generate_private_key(ec.SECP256R1())
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)])
    now = dt.datetime.now(dt.UTC)
    made = (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - dt.timedelta(days=1))
        .not_valid_after(now + dt.timedelta(days=1))
        .add_extension(x509.SubjectAlternativeName([x509.DNSName(name)]), critical=False)
        .sign(key, hashes.SHA256())
    )
    cert, pem = folder / "cert.pem", folder / "key.pem"
    cert.write_bytes(made.public_bytes(serialization.Encoding.PEM))
    pem.write_bytes(
        key.private_bytes(
            serialization.Encoding.PEM,
            serialization.PrivateFormat.PKCS8,
            serialization.NoEncryption(),
        )
    )
    return cert, pem


def test_it_serves_its_name_over_https_and_no_other(tmp_path: Path) -> None:
    port = free_port()
    cert, key = certificate(tmp_path, "shop.example")
    words = ("shop.example", str(port), str(tmp_path / "data"), str(cert), str(key))
    context = ssl.create_default_context(cafile=str(cert))
    context.check_hostname = False
    with running(tmp_path, PROGRAM, "Bayleaf serves", *words) as said:
        assert "https://shop.example" in said[-1]
        assert get(port, f"shop.example:{port}", "/api/health", context) == (200, {"ok": True})
        assert get(port, f"localhost:{port}", "/api/health", context)[0] == 421
    assert (tmp_path / "data" / "seal.pem").stat().st_mode & 0o777 == 0o600
    assert not (tmp_path / ".gunicorn").exists()


def test_the_demo_serves_its_origins_and_keeps_its_folder(tmp_path: Path) -> None:
    port = free_port()
    words = (str(port), str(tmp_path / ".bayleaf-demo"))
    with running(tmp_path, DEMO, "Ready.", *words) as said:
        assert f"http://localhost:{port}" in said[-1]
        assert any("Mara Ilves, technician, PIN" in line for line in said)
        status, found = get(port, f"technician.localhost:{port}", "/api/me")
        assert isinstance(found, dict)
        assert (status, found["slug"]) == (200, "technician")
    with running(tmp_path, DEMO, "Ready.", *words) as said:
        assert any("earlier run" in line for line in said)
        _, again = get(port, f"localhost:{port}", "/api/me")
        assert isinstance(again, dict)
        assert again["log"] == found["log"]


def test_a_taken_port_says_so_and_names_the_option(tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with pytest.raises(ServingFault, match=rf"Port {port} is taken.*--port"):
            require_free([f"127.0.0.1:{port}"])
        with pytest.raises(ServingFault, match="--port"):
            serve(Serving("localhost", tmp_path / "data", port))
    assert not (tmp_path / "data").exists()


def test_a_certificate_without_its_key_is_refused(tmp_path: Path) -> None:
    cert, _ = certificate(tmp_path, "shop.example")
    with pytest.raises(ServingFault, match="--cert and --key belong together"):
        serve(Serving("shop.example", tmp_path / "data", 28_999, cert=cert))
    with pytest.raises(ServingFault, match="there is no such file"):
        serve(Serving("shop.example", tmp_path / "data", 28_999, cert=cert, key=tmp_path / "gone.pem"))
