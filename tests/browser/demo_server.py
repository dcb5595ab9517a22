"""A server of its own in a process of its own, which a test may stop, kill and start again."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
import urllib.request
from dataclasses import dataclass, field
from pathlib import Path
from typing import IO

from bayleaf.serving import is_free

COMMAND = Path(sys.executable).with_name("bayleaf")
STARTS_WITHIN_S = 180.0
STOPS_WITHIN_S = 20.0
PORTS = 500  # for each process of tests, from the first on
FIRST_PORT = 20_000
WORKERS = 24  # with ports of their own


def free_port() -> int:
    """A port of loopback that nobody has now, and that nobody is given by chance before the server takes it.

    The kernel gives the ports from 32768 on, to every connection that goes out; tests in another process
    choose from ports of their own.
    """
    worker = int(os.environ.get("PYTEST_XDIST_WORKER", "gw0").removeprefix("gw"))
    first = FIRST_PORT + worker % WORKERS * PORTS
    while True:
        port = random.randrange(first, first + PORTS)
        if is_free(f"127.0.0.1:{port}"):
            return port


@dataclass
class DemoServer:
    """`bayleaf demo`, or another command that serves, on one port and one data folder.

    `around` is a program that starts it and watches it.
    """

    folder: Path
    port: int = field(default_factory=free_port)
    words: tuple[str, ...] = ("demo", "--practice")
    around: tuple[str, ...] = ()
    _process: subprocess.Popen[bytes] | None = None
    _output: IO[bytes] | None = None

    @property
    def data(self) -> Path:
        return self.folder / "data"

    @property
    def url(self) -> str:
        return f"http://localhost:{self.port}"

    def phone(self, slug: str) -> str:
        """The origin of one of the demo's phones."""
        return f"http://{slug}.localhost:{self.port}/"

    def start(self, *more: str) -> None:
        """Start it and wait until it answers; its output is kept beside the data."""
        self._output = (self.folder / "server.log").open("ab")
        words = [
            *self.around,
            str(COMMAND),
            *self.words,
            "--port",
            str(self.port),
            "--data",
            str(self.data),
            *more,
        ]
        self._process = subprocess.Popen(
            words, stdout=self._output, stderr=subprocess.STDOUT, start_new_session=True, cwd=self.folder
        )
        until = time.monotonic() + STARTS_WITHIN_S
        while not self._answers():
            if self._process.poll() is not None or time.monotonic() > until:
                raise RuntimeError(f"the server did not start:\n{self.said()}")
            time.sleep(0.05)

    def said(self) -> str:
        """What it printed so far."""
        return (self.folder / "server.log").read_text(encoding="utf-8", errors="replace")

    @property
    def session(self) -> int:
        """The session that the server and its worker are alone in."""
        assert self._process is not None, "the server is stopped"
        return self._process.pid

    def stop(self) -> None:
        """End it as Ctrl+C does."""
        self._end(signal.SIGTERM)

    def kill(self) -> None:
        """End it without a goodbye."""
        self._end(signal.SIGKILL)

    def _end(self, how: signal.Signals) -> None:
        if self._process is None:
            return
        os.killpg(self._process.pid, how)  # a session of its own: the server and its worker, nobody else
        self._process.wait(STOPS_WITHIN_S)
        self._process = None
        self._await_free_port()
        if self._output is not None:
            self._output.close()

    def _await_free_port(self) -> None:
        """Its worker may outlive it by a moment, and holds the port for as long."""
        until = time.monotonic() + STOPS_WITHIN_S
        while not is_free(f"127.0.0.1:{self.port}"):
            assert time.monotonic() < until, f"port {self.port} is still taken"
            time.sleep(0.02)

    def _answers(self) -> bool:
        try:
            with urllib.request.urlopen(f"{self.url}/api/health", timeout=2) as answer:
                return bool(answer.status == 200)
        except OSError:
            return False
