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
from bayleaf.http.parts import KEY, Parts
from bayleaf.planning import start_planning
from bayleaf.process_lock import LockedThread
from bayleaf.reminding import start_reminding
from bayleaf.usecases.first_office import first_login

THREADS = 8
KEEP_ALIVE_S = 15
LONGEST_REQUEST_S = 120
STOPS_WITHIN_S = 5


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
    behind_proxy = https and serving.cert is None
    config = Config(
        data=serving.data,
        hosts=hosts_of(serving.name, serving.port),
        https=https,
        behind_proxy=behind_proxy,
        database_url=serving.database_url,
    )
    listen = (f"{serving.bind}:{serving.port}",)
    require_free(listen)
    address = address_of(serving.name, https=https, port=0 if behind_proxy else serving.port)

    def load() -> Flask:
        app = create_app(config)
        start_reminding(app, config.data)
        start_planning(app, config.data)
        _tell_first_login(app, address)
        if behind_proxy:
            _say("No --cert: a proxy before this server has to speak HTTPS and pass the Host header on.")
        return app

    run(
        Listening(listen, serving.cert, serving.key),
        load,
        lambda: _say(f"Bayleaf serves {address} on {listen[0]}. Stop it with Ctrl+C."),
    )


def address_of(name: str, *, https: bool, port: int) -> str:
    """What a browser is to open; the proxy's port is the proxy's (0)."""
    usual = port in (0, 443 if https else 80) or ":" in name
    return f"{'https' if https else 'http'}://{name}" + ("" if usual else f":{port}")


def _tell_first_login(app: Flask, address: str) -> None:
    parts: Parts = app.extensions[KEY]
    first = first_login(parts.doors, parts.office.clock.now_ms())
    if first is not None:
        _say(f"First start: sign in at {address}/office as {first.name!r}, password {first.password}")
        _say("and give everybody a name and a password of their own under People.")


def _say(sentence: str) -> None:
    print(sentence, flush=True)  # noqa: T201  (a command speaks by printing)


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


def _stop_threads(app: object) -> None:
    if not isinstance(app, Flask):
        return
    for thread in app.extensions.values():
        if isinstance(thread, LockedThread):
            thread.stop()


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
            "graceful_timeout": STOPS_WITHIN_S,
            "control_socket_disable": True,
            "loglevel": "warning",
            "proc_name": "bayleaf",
            "post_worker_init": lambda _worker: self._ready(),
            "worker_exit": lambda _server, worker: _stop_threads(worker.wsgi),
        }
        if self._listening.cert is not None and self._listening.key is not None:
            settings |= {"certfile": str(self._listening.cert), "keyfile": str(self._listening.key)}
        for name, setting in settings.items():
            self.cfg.set(name, setting)

    def load(self) -> Flask:
        """gunicorn asks for the app here, in the worker."""
        return self._load()
