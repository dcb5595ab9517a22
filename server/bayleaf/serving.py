"""Serves the app by gunicorn: one process, several threads, and no control socket."""

from __future__ import annotations

import socket
from collections.abc import Callable, Sequence
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from flask import Flask
from gunicorn.app.base import BaseApplication

from bayleaf.app import create_app
from bayleaf.config import Config, hosts_of, is_loopback_name

THREADS = 8
KEEP_ALIVE_S = 15
LONGEST_REQUEST_S = 120


class ServingFault(Exception):
    """Why a server cannot start, and what mends it."""


@dataclass(frozen=True)
class Serving:
    """`name` is how phones reach the server, with the port where a proxy's is not the usual one."""

    name: str
    data: Path
    port: int = 8080
    cert: Path | None = None
    key: Path | None = None
    bind: str = "127.0.0.1"
    database_url: str = ""


def serve(serving: Serving) -> None:
    """Serve until stopped. Without a certificate, a name that leaves this machine has HTTPS by a proxy."""
    if (serving.cert is None) != (serving.key is None):
        raise ServingFault("--cert and --key belong together: found one of them.")
    for path in (serving.cert, serving.key):
        if path is not None and not path.is_file():
            raise ServingFault(f"{path}: there is no such file.")
    https = serving.cert is not None or not is_loopback_name(serving.name)
    config = Config(
        data=serving.data,
        hosts=hosts_of(serving.name, serving.port),
        https=https,
        database_url=serving.database_url,
    )
    address = f"{'https' if https else 'http'}://{serving.name}"
    listen = (f"{serving.bind}:{serving.port}",)
    require_free(listen)
    run(
        Listening(listen, serving.cert, serving.key),
        lambda: create_app(config),
        lambda: print(f"Bayleaf serves {address} on {listen[0]}. Stop it with Ctrl+C.", flush=True),  # noqa: T201
    )


@dataclass(frozen=True)
class Listening:
    """Where to listen, and the certificate if it is our own HTTPS."""

    addresses: Sequence[str]
    cert: Path | None = None
    key: Path | None = None


def require_free(addresses: Sequence[str]) -> None:
    """ServingFault for an address that another program has."""
    for address in addresses:
        if not is_free(address):
            port = address.rsplit(":", 1)[1]
            raise ServingFault(
                f"Port {port} is taken by another program. Stop that one, or choose another: --port NUMBER."
            )


def is_free(address: str) -> bool:
    """Whether we could listen there. An address of a kind that this machine does not have is not free."""
    host, port = address.rsplit(":", 1)
    family = socket.AF_INET6 if host.startswith("[") else socket.AF_INET
    try:
        with closing(socket.socket(family, socket.SOCK_STREAM)) as tried:
            tried.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            tried.bind((host.strip("[]"), int(port)))
    except OSError:
        return False
    return True


def run(listening: Listening, load: Callable[[], Flask], ready: Callable[[], None]) -> None:
    """Listen, load the app in the worker, say that it is ready, and serve until stopped."""
    _Server(listening, load, ready).run()


class _Server(BaseApplication):  # type: ignore[misc]  # gunicorn ships no types
    def __init__(self, listening: Listening, load: Callable[[], Flask], ready: Callable[[], None]) -> None:
        self._listening = listening
        self._load = load
        self._ready = ready
        super().__init__()

    def load_config(self) -> None:
        """gunicorn asks for its settings here."""
        settings: dict[str, object] = {
            "bind": list(self._listening.addresses),
            "workers": 1,
            "worker_class": "gthread",
            "threads": THREADS,
            "keepalive": KEEP_ALIVE_S,
            "timeout": LONGEST_REQUEST_S,
            "control_socket_disable": True,
            "loglevel": "warning",
            "proc_name": "bayleaf",
            "post_worker_init": lambda _worker: self._ready(),
        }
        if self._listening.cert is not None and self._listening.key is not None:
            settings |= {"certfile": str(self._listening.cert), "keyfile": str(self._listening.key)}
        for name, setting in settings.items():
            self.cfg.set(name, setting)

    def load(self) -> Flask:
        """gunicorn asks for the app here, in the worker."""
        return self._load()
