"""How long 40 photos of 2.5 MB take to the office, against write, hash and fsync of the same bytes.

Through a demo of its own over loopback, in the phone's pieces of 512 KB, each synced before it is answered; the
floor writes each photo whole, hashes it and syncs it. A photo of the one comes after the same photo of the
other, so that both find the same disk. The memory is the most that server and worker held at any time.
"""

from __future__ import annotations

import base64
import hashlib
import os
import random
import time
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.parse import urlsplit

from bayleaf.adapters.signatures import PrivateKey
from bench.figures import Figure, spread_ms
from bench.fsync_trace import TracedPhone
from browser.demo_server import DemoServer
from harness.pictures import PIECE, TUS, jpeg, sha

PHOTOS, PHOTO_BYTES, CHUNK_BYTES = 40, 2_500_000, 512 * 1024
WARM_UP, ALLOWED, ALLOWED_MB = 3, 4.0, 200
MB = 1_000_000


def measure() -> Figure:
    """The sums over all photos."""
    with TemporaryDirectory() as folder:
        demo = DemoServer(Path(folder))
        demo.start()
        try:
            ours, bare = _sent(TracedPhone(demo.port), Path(folder))
            held = _most_held(demo.session)
        finally:
            demo.stop()
    held_mb = sum(held) / MB
    in_bounds = "met" if held_mb < ALLOWED_MB else "MISSED"
    each = " + ".join(f"{one / MB:.0f}" for one in held)
    return Figure(
        name=f"upload of {PHOTOS} photos of {PHOTO_BYTES / MB:.1f} MB",
        measured=f"{sum(ours):.2f} s",
        floor=f"{sum(bare):.2f} s for write, hash and fsync of the same bytes",
        ratio=sum(ours) / sum(bare),
        allowed=ALLOWED,
        remarks=(
            f"a photo {spread_ms([one * 1000 for one in ours])}",
            f"its floor {spread_ms([one * 1000 for one in bare])}",
            f"server and worker held at most {each} = {held_mb:.0f} MB, under {ALLOWED_MB}: {in_bounds}",
        ),
    )


def _sent(phone: TracedPhone, folder: Path) -> tuple[list[float], list[float]]:
    phone.tell("/api/demo/pair", {"public_key": PrivateKey.new().public_key})
    job = phone.tell("/api/sync", _nothing())["jobs"][0]["job"]
    chance, head = random.Random(40), jpeg()
    ours, bare = [], []
    for at in range(WARM_UP + PHOTOS):
        picture = head + chance.randbytes(PHOTO_BYTES - len(head))
        ours.append(_upload(phone, job, picture))
        bare.append(_written(folder / f"bare-{at}", picture))
    return ours[WARM_UP:], bare[WARM_UP:]


def _nothing() -> dict[str, Any]:
    nothing: dict[str, Any] = {"cursors": {}, "entries": [], "heads": [], "cards": []}
    return {"protocol": 1, "log": "", "holds": {"entries": 0, "photos": 0}, **nothing}


def _upload(phone: TracedPhone, job: str, picture: bytes) -> float:
    told = {"sha256": sha(picture), "type": "image/jpeg", "job": job}
    pairs = [f"{name} {base64.b64encode(value.encode()).decode()}" for name, value in told.items()]
    begun = {**TUS, "Upload-Length": str(len(picture)), "Upload-Metadata": ",".join(pairs)}
    began = time.perf_counter()
    place = urlsplit(phone.ask("POST", "/api/photos", b"", **begun)[0]["Location"]).path
    for offset in range(0, len(picture), CHUNK_BYTES):
        headers = {**TUS, "Upload-Offset": str(offset), "Content-Type": PIECE}
        phone.ask("PATCH", place, picture[offset : offset + CHUNK_BYTES], **headers)
    return time.perf_counter() - began


def _written(path: Path, picture: bytes) -> float:
    began = time.perf_counter()
    with path.open("wb") as file:
        file.write(picture)
        hashlib.sha256(picture).hexdigest()
        file.flush()
        os.fsync(file.fileno())
    return time.perf_counter() - began


def _most_held(session: int) -> list[int]:
    """The peak of resident bytes of each process of the session."""
    found = []
    for process in Path("/proc").glob("[0-9]*"):
        try:
            if os.getsid(int(process.name)) == session:
                status = (process / "status").read_text(encoding="utf-8")
                peak = next(line for line in status.splitlines() if line.startswith("VmHWM"))
                found.append(int(peak.split()[1]) * 1024)
        except (OSError, StopIteration):
            continue  # it ended meanwhile
    return found
