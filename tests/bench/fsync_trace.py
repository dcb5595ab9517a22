"""Shows by a trace of system calls that a sync and a photo are answered only after their fsync.

`python tests/bench/fsync_trace.py`: starts a demo on loopback under strace, pushes one entry and one photo,
prints the calls of each request in their order and a verdict. Exit status: 0 if the order is right, 1 if not,
2 if strace is missing.
"""

from __future__ import annotations

import base64
import http.client
import json
import shutil
import sys
import time
from collections.abc import Callable
from dataclasses import asdict, dataclass
from itertools import groupby
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.parse import urlsplit

if __name__ == "__main__":
    sys.path[0] = str(Path(__file__).parents[1])

from bayleaf.adapters.signatures import PrivateKey
from bench.syscalls import TRACED, Call, calls, fault_of
from browser.demo_server import DemoServer
from harness.pictures import PIECE, TUS, jpeg, sha
from harness.record import Writer

MEND = "strace is missing: run `apt-get install -y strace` as root (Debian), then try again"
SHOWN = 150
TRACED_WITHIN_S = 10.0


@dataclass
class TracedPhone:
    """The technician's phone of the demo, speaking plain HTTP."""

    port: int
    cookie: str = ""

    def ask(self, method: str, path: str, body: bytes = b"", **headers: str) -> tuple[dict[str, str], bytes]:
        """Headers and body of the answer; any refusal is an error of this command."""
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=30)
        host = f"technician.localhost:{self.port}"
        line.request(method, path, body, {"Host": host, "Cookie": self.cookie, **headers})
        answer = line.getresponse()
        told, content = dict(answer.getheaders()), answer.read()
        line.close()
        if answer.status >= http.client.BAD_REQUEST:
            raise RuntimeError(f"{method} {path}: {answer.status} {content.decode()}")
        return told, content

    def tell(self, path: str, told: dict[str, Any]) -> dict[str, Any]:
        """JSON both ways."""
        json_type = {"Content-Type": "application/json"}
        headers, content = self.ask("POST", path, json.dumps(told).encode(), **json_type)
        if "Set-Cookie" in headers:
            self.cookie = headers["Set-Cookie"].split(";")[0]
        return dict(json.loads(content))


@dataclass
class Tracing:
    """The growing file that strace writes."""

    path: Path

    def during(self, act: Callable[[], object]) -> list[Call]:
        """What the server did from the request until its answer, and what came of it at once."""
        start = self.path.stat().st_size
        act()
        until = time.monotonic() + TRACED_WITHIN_S
        while time.monotonic() < until:
            with self.path.open(encoding="utf-8", errors="replace") as trace:
                trace.seek(start)
                made = list(calls(trace))
            if any(call.answers for call in made):
                return made
            time.sleep(0.05)
        raise RuntimeError(f"{self.path}: strace saw no answer within {TRACED_WITHIN_S:.0f} s")


def main() -> int:
    """Two requests, each with its calls and its verdict."""
    strace = shutil.which("strace")
    if strace is None:
        print(MEND)
        return 2
    with TemporaryDirectory() as folder:
        tracing = Tracing(Path(folder) / "trace")
        around = (strace, "-f", "-y", "-qq", "-s", "40", "-e", f"trace={TRACED}", "-o", str(tracing.path))
        demo = DemoServer(Path(folder), around=around)
        demo.start()
        try:
            faults = _watch(tracing, TracedPhone(demo.port), demo.data)
        finally:
            demo.stop()
    print("answered only after the fsync: " + ("NO" if faults else "yes"))
    return 1 if faults else 0


def _watch(tracing: Tracing, phone: TracedPhone, data: Path) -> list[str]:
    key = PrivateKey.new()
    paired = phone.tell("/api/demo/pair", {"public_key": key.public_key})
    job = phone.tell("/api/sync", _asked({}))["jobs"][0]["job"]
    roles = tuple(json.loads(paired["card"])["roles"])
    writer = Writer(paired["device"], paired["person"], roles, key)
    picture = jpeg()
    place = _begin_upload(phone, job, picture)
    tus = {**TUS, "Upload-Offset": "0", "Content-Type": PIECE}
    seen = {
        "a sync that brings one entry": (
            tracing.during(lambda: _push(phone, writer, job)),
            "bayleaf.sqlite3-wal",
        ),
        "the bytes of a photo": (
            tracing.during(lambda: phone.ask("PATCH", place, picture, **tus)),
            "/uploads/",
        ),
    }
    return [fault for what, (made, wanted) in seen.items() if (fault := _shown(what, made, wanted, data))]


def _push(phone: TracedPhone, writer: Writer, job: str) -> None:
    body = {"text": "Invented.", "method": "", "digest": "", "step": "", "about": []}
    brings = {"entries": [writer.write(job, "note", body)], "heads": [asdict(writer.head(job))]}
    told = phone.tell("/api/sync", {**_asked({job: 0}), **brings})
    if told["fates"][0]["fate"] != "taken":
        raise RuntimeError(f"the entry was not taken: {told['fates'][0]}")


def _asked(cursors: dict[str, int]) -> dict[str, Any]:
    nothing: dict[str, Any] = {"entries": [], "heads": [], "cards": [], "holds": {"entries": 0, "photos": 0}}
    return {"protocol": 1, "log": "", "cursors": cursors, **nothing}


def _begin_upload(phone: TracedPhone, job: str, picture: bytes) -> str:
    told = {"sha256": sha(picture), "type": "image/jpeg", "job": job}
    pairs = [f"{name} {base64.b64encode(value.encode()).decode()}" for name, value in told.items()]
    headers = {**TUS, "Upload-Length": str(len(picture)), "Upload-Metadata": ",".join(pairs)}
    return urlsplit(phone.ask("POST", "/api/photos", b"", **headers)[0]["Location"]).path


def _shown(what: str, made: list[Call], wanted: str, data: Path) -> str:
    """Prints the calls up to the answer, and the verdict; the fault."""
    print(f"\n{what}:")
    answer = next((at for at, call in enumerate(made) if call.answers), len(made))
    told = [call for call in made[: answer + 1] if call.syncs or call.writes_file or call.answers]
    for _, alike in groupby(told, key=lambda call: (call.name, call.target)):
        first, *more = alike
        line = first.line.replace(str(data), "DATA")[:SHOWN]
        print(f"    {line}" + (f"  (and {len(more)} more of these)" if more else ""))
    fault = fault_of(made, wanted)
    print(f"  {fault or 'right: everything written was synced, then the answer was sent'}")
    return fault


if __name__ == "__main__":
    sys.exit(main())
